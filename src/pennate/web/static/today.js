// The session as a whole: the line with stops, and what can be decided before and between sets.
import { drawAfter } from "./after.js";
import { h } from "./dom.js";
import { ALARM, button, cautions, choices, chosen, emergency, foot, minutes, mistake, quiet, sharpKey } from "./draw.js";
import { itemsOf, lineOf } from "./line.js";
import { localDay } from "./outbox.js";
import { hurting, isOut, painWords, SHARP } from "./said.js";
import { lastDone, nextKey, stopOf } from "./session.js";
import { minutesLeft } from "./time.js";
import { doneWords, plural } from "./views.js";

export const ASKING = "Asking for today’s loads";
const WAITS = "Start waits for today’s loads"; // one line, as what stands there otherwise
const NOTHING = { short_sleep: false, low_energy: false, ill: "", sore: [], pain: {}, alarming: [] };
const ILL = { "": "ill", now: "ill today", before: "was ill" };

/** What the page says where no session is to be shown. */
export function drawNothing({ cards, reached, outbox }, days, act) {
  const lost = outbox.forgotten ? "This phone is not paired" : "Out of reach, and nothing is stored here yet";
  const title = cards ? "Nothing is planned today" : reached ? "Getting the sessions" : lost;
  const next = days.length > 0 && h("p", { class: "gap" }, `Next: ${days[0][0]}`);
  return [h("h1", { tabindex: "-1" }, title), cards && [h("p", { class: "s" }, madeOn(cards)), next], !cards && !reached && h("p", { class: "gap" }, button("Try again", act.again)), others(days), elsewhere()];
}

/** The way to the other pages; its key keeps it from being moved as another element. */
const elsewhere = () => h("p", { class: "gap", key: "all" }, h("a", { class: "quiet", href: "/today" }, "week, body and records, in reach of the server"));

/** The day the loads were worked out, where it was not today. */
function madeOn({ made_at }) {
  const day = made_at.slice(0, 10);
  return day === localDay() ? "" : `loads worked out on ${new Date(`${day}T12:00`).toLocaleDateString("en-GB", { day: "numeric", month: "long" })}`;
}

/** Whether she was ill, asked after days off: no longer where she has trained since it was worked out. */
export function askedOf({ day }, { trained }, entries) {
  const gone = new Set(entries.map((one) => one.replaces).filter(Boolean));
  const here = entries.filter((one) => one.kind === "set" && !gone.has(one.id) && !one.refused).map((one) => one.day);
  return [trained, ...here].some((one) => one > day.trained) ? "" : day.asked;
}

/** The session line with everything that can be decided about it. */
export function drawSession(session, { cards, entries, reached, asks }, ui, act, days) {
  const { day, finished } = session;
  const open = nextKey(session);
  const begun = session.done.size > 0;
  const about = [!begun && itemsOf(session), !finished && madeOn(cards)].filter(Boolean).join(" · ");
  const last = lastDone(session);
  const stopped = finished && session.note === ALARM;
  const after = begun && !stopped && (finished || !open || ui.after);
  return [
    h("h1", { tabindex: "-1" }, day.title + (stopped ? ": stopped" : finished ? ": finished" : "")),
    stopped && [emergency(), h("p", {}, mistake(act))],
    h("p", { class: "s" }, about),
    cautions([...ui.heed, illCaution(session, cards)].filter(Boolean)),
    after && drawAfter(session, cards, reached),
    begun || finished ? null : checkIn(session, cards, ui, act),
    [!session.said.ill && !begun && askedOf(session, cards, entries), ...saidLines(session, cards), ...day.changes].filter(Boolean).map((line) => h("p", { class: "change" }, line)),
    day.preparation.length && !begun ? h("p", { class: "s gap" }, `First: ${day.preparation.join("; ")}`) : null,
    h("ol", { class: "line", "aria-label": "The session, stop by stop; the number before each is the minute it begins" }, lineOf(session).map((one, i, all) => stop(session, one, i, all.length, ui, act))),
    last && !finished ? h("p", { class: "between" }, h("span", { class: "s" }, `last: ${doneWords(last, cards)}`), quiet("undo", act.undo)) : null,
    begun && open && !finished ? h("p", { class: "exits" }, quiet(ui.after ? "go on with it" : "finish the session", ui.after ? act.floor : act.lookBack), !after && quiet("less time", () => act.ask("time"))) : null,
    begun && open && ui.panel === "time" && timeLeft(act),
    open && !finished && minutesOpened(day),
    begun ? null : others(days),
    elsewhere(),
    finished ? null : open && !after ? foot(begun ? "Go on" : "Start", act.floor, asks ? WAITS : toGo(session, begun), asks) : foot("Finish", act.finish),
  ];
}

/** What the minutes, as worked out with the loads, are made of, their rule and how sure they are. */
const minutesOpened = ({ minutes_facts: facts = [] }) =>
  facts.length > 0 && h("details", { class: "number", key: "minutes" }, h("summary", {}, "What are these minutes?"), h("div", { class: "opened" }, h("dl", { class: "facts" }, facts.map(([term, text]) => [h("dt", {}, term), h("dd", {}, text)]))));

/** The one question; details of what is sore or hurts only where she asks for them. */
function checkIn(session, cards, ui, act) {
  const { short_sleep, low_energy, ill = "", sore = [], pain = {} } = session.said;
  const sharp = session.said.alarming ?? [];
  const hurts = Object.entries(pain).map(([joint, score]) => `${joint} ${score}${sharp.includes(joint) ? ", sharp" : ""}`).join(", ");
  const less = session.minutes !== null;
  const nothing = Boolean(session.said.sore) && !short_sleep && !low_energy && !ill && !sore.length && !hurts && !less;
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
        chip(ILL[ill], ill, ill ? () => act.say({ ill: "" }) : ask("ill")),
        chip("sore", sore.length, sore.length ? () => act.say({ sore: [] }) : ask("sore")),
        chip(hurts ? `hurts: ${hurts}` : "hurts", hurts, hurts ? () => act.say({ pain: {}, alarming: [] }) : ask("hurts")),
        chip(less ? `${session.minutes} min` : "less time", less, less ? () => act.shorten(null) : ask("time")),
        chip("nothing", nothing, () => act.shorten(null, NOTHING)),
      ),
    ),
    ui.panel === "ill" && illOrBack(act),
    ui.panel === "sore" && whatIsSore(sore, cards, act),
    ui.panel === "hurts" && whatHurts(session, cards, act),
    ui.panel === "time" && timeLeft(act),
  ];
}

const timeLeft = (act) => h("div", { class: "gap", id: "ask" }, h("p", { class: "label" }, "Minutes left from now"), minutes(act));

const illOrBack = (act) =>
  h(
    "fieldset",
    { class: "gap", id: "ask" },
    h("legend", { class: "label" }, "Ill, or back after it?"),
    h("div", { class: "chips" }, button("ill today", () => act.say({ ill: "now" })), button("was ill, well again", () => act.say({ ill: "before" }))),
  );

/** What is heeded by somebody who is ill, or was; once, before the session. */
const illCaution = ({ said }, cards) => ({ now: cards.said.ill, before: cards.said.was_ill })[said.ill];

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

function whatHurts(session, cards, act) {
  const save = () => chosen("where") && chosen("score") && act.say(hurting(session, { [chosen("where")]: Number(chosen("score")) }, document.getElementById("alarming").checked));
  return h(
    "div",
    { class: "gap", id: "ask" },
    h("fieldset", {}, h("legend", { class: "label" }, "What hurts?"), choices("where", cards.joints)),
    h("fieldset", { class: "gap" }, h("legend", { class: "label" }, "How much, 0 to 10"), choices("score", [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10])),
    sharpKey(),
    h("p", { class: "gap" }, button("Take it into account", save)),
    h("p", { class: "s" }, "Chest, breath, head, faint, numb or weak: do not train; get help."),
  );
}

/** What her answers change, a line each. */
function saidLines(session, cards) {
  const { short_sleep, low_energy, sore = [], pain = {} } = session.said;
  const sharp = (joint) => (session.said.alarming ?? []).includes(joint);
  const hurts = Object.entries(pain).map(([joint, score]) => `${joint[0].toUpperCase()}${painWords({ [joint]: score }, sharp(joint) && SHARP).slice(1)}: ${ruleOf(score, sharp(joint), cards)}`);
  const unknown = session.said.ill && session.said.ill !== session.day.state.said.ill;
  return [unknown && cards.said.easy, short_sleep && cards.said.short_sleep, low_energy && cards.said.low_energy, sore.length && cards.said.sore.replace("{}", sore.join(", ")), ...hurts].filter(Boolean);
}

const ruleOf = (score, sharp, { said }) => said[score > 5 || sharp ? "stop" : score >= 3 ? "reduce" : "go_on"];

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
    h("span", { class: "at" }, one.standing !== "skipped" && [h("span", { class: "hidden" }, "from minute "), one.at]),
    h("span", { class: "rail", html: one.svg }),
    h("div", { class: "words" }, one.parts.map((part) => partner(session, part, { place, count }, ui, act)), one.together && h("p", { class: "s" }, one.together)),
  );
}

/** That an exercise is done, or not; empty while it is open. */
function stateOf(session, part) {
  if (part.standing === "done") return "done";
  if (session.finished && part.standing === "open") return "not done";
  if (part.skipped) return part.held || part.told ? "" : "skipped today";
  return part.late ? "left out for lack of time" : "";
}

/** What pain keeps out of it, the rest of one begun too. */
function reasonOf({ skipped, held, told, pain }) {
  if (!skipped) return pain;
  return held ? `left out until it has settled: ${held}` : told ? `left out today: ${told}` : "";
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
    [stateOf(session, part), reasonOf(part)].filter(Boolean).map((words) => h("p", { class: "s" }, words)),
    part.replaced && !part.skipped ? h("p", { class: "s" }, part.replaced) : null,
    (part.standing !== "open" || !session.finished) && part.lines.map((line) => h("p", { class: "s" }, line)),
    cautions(part.cautions),
    opened && decisions(session, part, at, act),
  );
}

/** What can be decided about a stop: its order, skipping it, another exercise. */
function decisions(session, part, { place, count }, act) {
  const told = toldAt(session, part).map((joint) => toldForm(session, joint, part, act));
  if (part.skipped) return h("div", { class: "decide" }, h("p", { class: "chips" }, button("take it up again", () => act.takeUp(part.index))), told);
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
      swaps.map((one) => row(one.name, one.words, () => act.instead(one))),
    ),
    !swaps.length && here === planned && h("p", { class: "s" }, "Nothing in this gym does nearly the same."),
    told,
  );
}

/** Joints told today that can be corrected at a stop: all where it is left out, else those it loads. */
function toldAt(session, part) {
  const { pain = {}, alarming = [] } = session.said;
  const loaded = stopOf(session, part.index).joints;
  return Object.keys(pain).filter((joint) => (pain[joint] || alarming.includes(joint)) && (part.skipped || loaded.includes(joint)));
}

/** What she told of a joint, to be told otherwise; the old entry stays in the records. */
function toldForm({ said }, joint, part, act) {
  const sharp = (said.alarming ?? []).includes(joint);
  return h(
    "section",
    { class: "rule", "aria-label": `Correct what you told of the ${joint}`, key: `told ${joint}` },
    h("h3", {}, `Told today: ${painWords({ [joint]: said.pain[joint] }, sharp && SHARP)}`),
    h("p", {}, "Was it otherwise? The corrected number counts; what you told stays in the records."),
    h("fieldset", { class: "gap" }, h("legend", { class: "label" }, "How much it was, 0 to 10"), choices(`was ${joint}`, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10], said.pain[joint])),
    sharpKey(`sharp ${joint}`, sharp),
    h("div", { class: "gap" }, button("Correct it", () => act.correct(joint, part.index))),
  );
}
