// The session as a whole: the line with stops, and what can be decided before and between sets.
import { drawAfter } from "./after.js";
import { h } from "./dom.js";
import { ALARM, button, cautions, choices, chosen, emergency, foot, mistake, quiet } from "./draw.js";
import { itemsOf, lineOf } from "./line.js";
import { isOut } from "./said.js";
import { lastDone, nextKey, stopOf } from "./session.js";
import { minutesLeft } from "./time.js";
import { doneWords, plural } from "./views.js";

const MINUTES = [20, 30, 45, 60, 75];

/** What the page says where no session is to be shown. */
export function drawNothing(cards, reached, days, act) {
  const title = cards ? "Nothing is planned today" : reached ? "Getting the sessions" : "Out of reach, and nothing is stored here yet";
  return [h("h1", { tabindex: "-1" }, title), cards && h("p", { class: "s" }, cardsOf(cards)), !cards && !reached && h("p", { class: "gap" }, button("Try again", act.again)), others(days)];
}

const cardsOf = (cards) => `cards of ${cards.made_at.slice(0, 10)}`;

/** The session line with everything that can be decided about it. */
export function drawSession(session, cards, ui, act, days, reached) {
  const { day, finished } = session;
  const open = nextKey(session);
  const begun = session.done.size > 0;
  const about = [itemsOf(session), cardsOf(cards)].filter(Boolean).join(" · ");
  const last = lastDone(session);
  const stopped = finished && session.note === ALARM;
  const after = begun && !stopped && (finished || !open || ui.after);
  return [
    h("h1", { tabindex: "-1" }, stopped ? `${day.title}: stopped` : finished ? `${day.title}: done` : day.title),
    stopped && [emergency(), h("p", {}, mistake(act))],
    h("p", { class: "s" }, about),
    cautions(ui.heed),
    after && drawAfter(session, cards, reached),
    begun || finished ? null : checkIn(session, cards, ui, act),
    [...saidLines(session, cards), ...day.changes].map((line) => h("p", { class: "change" }, line)),
    day.preparation.length && !begun ? h("p", { class: "s gap" }, `First: ${day.preparation.join("; ")}`) : null,
    h("ol", { class: "line", "aria-label": "The session, stop by stop; the number before each is the minute it begins" }, lineOf(session).map((one, i, all) => stop(session, one, i, all.length, ui, act))),
    open && !after ? lessTime(session, act) : null,
    last && !finished ? h("p", { class: "between" }, h("span", { class: "s" }, `last: ${doneWords(last, cards)}`), quiet("undo", act.undo)) : null,
    begun && open && !finished ? h("p", {}, quiet(ui.after ? "go on with it" : "finish the session", ui.after ? act.floor : act.lookBack)) : null,
    begun ? null : others(days),
    finished ? null : open && !after ? foot(begun ? "Go on" : "Start", act.floor, toGo(session, begun)) : foot("Finish", act.finish),
  ];
}

/** The one question; details of what is sore or hurts only where she asks for them. */
function checkIn(session, cards, ui, act) {
  const { short_sleep, low_energy, sore = [], pain = {} } = session.said;
  const hurting = Object.entries(pain).map((pair) => pair.join(" ")).join(", ");
  const nothing = Boolean(session.said.sore) && !short_sleep && !low_energy && !sore.length && !hurting;
  const chip = (words, on, said) => button(words, said, { "aria-pressed": String(Boolean(on)) });
  const ask = (what) => () => act.ask(what);
  return [
    h(
      "fieldset",
      { class: "gap" },
      h("legend", {}, "Anything different today?"),
      h(
        "div",
        { class: "chips" },
        chip("short sleep", short_sleep, () => act.say({ short_sleep: !short_sleep })),
        chip("low energy", low_energy, () => act.say({ low_energy: !low_energy })),
        chip("something sore", sore.length, sore.length ? () => act.say({ sore: [] }) : ask("sore")),
        chip(hurting ? `hurts: ${hurting}` : "something hurts", hurting, hurting ? () => act.say({ pain: {} }) : ask("hurts")),
        chip("nothing", nothing, () => act.say({ short_sleep: false, low_energy: false, sore: [], pain: {} })),
      ),
    ),
    ui.panel === "sore" && whatIsSore(sore, cards, act),
    ui.panel === "hurts" && whatHurts(pain, cards, act),
  ];
}

const whatIsSore = (sore, cards, act) =>
  h(
    "fieldset",
    { class: "gap", id: "ask" },
    h("legend", { class: "label" }, "What is sore?"),
    h(
      "div",
      { class: "chips" },
      cards.groups.map((group) => {
        const on = sore.includes(group);
        return button(group, () => act.say({ sore: on ? sore.filter((one) => one !== group) : [...sore, group] }, "sore"), { "aria-pressed": String(on) });
      }),
    ),
  );

function whatHurts(pain, cards, act) {
  const save = () => chosen("where") && chosen("score") && act.say({ pain: { ...pain, [chosen("where")]: Number(chosen("score")) } });
  return h(
    "div",
    { class: "gap", id: "ask" },
    h("fieldset", {}, h("legend", { class: "label" }, "What hurts?"), choices("where", cards.joints)),
    h("fieldset", { class: "gap" }, h("legend", { class: "label" }, "How much, 0 to 10"), choices("score", [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10])),
    h("p", { class: "gap" }, button("Take it into account", save)),
    h("p", { class: "s" }, "Chest, breath, head, faint, numb or weak: do not train; get help."),
  );
}

/** What her answers change, a line each. */
function saidLines(session, cards) {
  const { short_sleep, low_energy, sore = [], pain = {} } = session.said;
  const hurts = Object.entries(pain).map(([joint, score]) => `${joint[0].toUpperCase()}${joint.slice(1)} ${score} of 10: ${ruleOf(score, cards)}`);
  return [short_sleep && cards.said.short_sleep, low_energy && cards.said.low_energy, sore.length && cards.said.sore.replace("{}", sore.join(", ")), ...hurts].filter(Boolean);
}

const ruleOf = (score, { pain }) => (score > 5 ? pain.stop : score >= 3 ? pain.reduce : pain.go_on);

function toGo(session, begun) {
  const minutes = `about ${Math.round(minutesLeft(session))} min`;
  const open = [...session.stands.values()].filter((one) => one === "open").length;
  return begun ? `${plural(open, "set")} to go, ${minutes}` : minutes;
}

const others = (days) =>
  days.length ? h("details", {}, h("summary", {}, "another session"), h("div", { class: "chips" }, days.map(([words, run]) => button(words, run)))) : null;

function stop(session, one, place, count, ui, act) {
  return h(
    "li",
    { class: `stop ${one.standing}${one.braided ? " braided" : ""}`, key: one.key },
    h("span", { class: "at" }, h("span", { class: "hidden" }, "from minute "), one.at),
    h("span", { class: "rail", html: one.svg }),
    h("div", { class: "words" }, one.parts.map((part) => partner(session, part, { place, count }, ui, act)), one.together && h("p", { class: "s" }, one.together)),
  );
}

function partner(session, part, at, ui, act) {
  const opened = ui.stop === part.index;
  const name = session.finished || !(part.open || part.skipped)
    ? part.name
    : button(part.name, () => act.openStop(part.index), { class: "name", id: `stop${part.index}`, "aria-expanded": String(opened) });
  return h(
    "div",
    { class: "partner" },
    h("h2", { class: part.standing === "skipped" ? "struck" : null }, name),
    part.standing === "done" ? h("p", { class: "s" }, "done") : part.skipped ? h("p", { class: "s" }, part.held ? `left out until it has settled: ${part.held}` : "skipped today") : part.late ? h("p", { class: "s" }, "left out for lack of time") : null,
    part.pain && h("p", { class: "s" }, part.pain),
    part.replaced && !part.skipped ? h("p", { class: "s" }, part.replaced) : null,
    part.lines.map((line) => h("p", { class: "s" }, line)),
    cautions(part.cautions),
    opened && decisions(session, part, at, act),
  );
}

/** What can be decided about a stop: its order, skipping it, another exercise. */
function decisions(session, part, { place, count }, act) {
  if (part.skipped) return h("div", { class: "decide" }, h("p", { class: "chips" }, button("take it up again", () => act.takeUp(part.index))));
  if (!part.open) return null;
  const [here, planned] = [stopOf(session, part.index), session.day.stops.find((one) => one.index === part.index)];
  const swaps = (session.day.instead[part.index] ?? []).filter((one) => one.stop !== here && !isOut(session, one.stop));
  const row = (name, words, run) =>
    h("li", {}, h("p", { class: "between" }, h("span", {}, h("span", { class: "strong" }, name), words && [h("br"), h("span", { class: "s" }, words)]), button("Do this", run, { "aria-label": `Do this: ${name}` })));
  return h(
    "div",
    { class: "decide" },
    h(
      "p",
      { class: "chips" },
      place > 0 && button("earlier", () => act.move(part.index, -1)),
      place < count - 1 && button("later", () => act.move(part.index, 1)),
      button("skip it today", () => act.skipStop(part.index)),
    ),
    h("h3", {}, "Instead of it, today"),
    h(
      "ul",
      { class: "list" },
      here !== planned && row(planned.name, "as planned", () => act.plannedAgain(planned)),
      swaps.map((one) => row(one.stop.name, one.words, () => act.instead(one))),
    ),
    !swaps.length && here === planned && h("p", { class: "s" }, "Nothing in this gym does nearly the same."),
  );
}

/** The time she has: what is worth least a minute is left out. */
function lessTime(session, act) {
  const chips = MINUTES.map((minutes) => button(String(minutes), () => act.shorten(minutes), { "aria-pressed": session.minutes === minutes ? "true" : null }));
  return h(
    "details",
    { class: "gap" },
    h("summary", {}, session.minutes === null ? "I have less time" : `I have ${session.minutes} minutes`),
    h("div", { class: "opened" }, h("p", { class: "label" }, "Minutes left from now"), h("div", { class: "chips" }, chips, button("all I need", () => act.shorten(null)))),
  );
}
