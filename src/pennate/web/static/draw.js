// The Floor drawn from what is known: elements only, no decisions.
import { h } from "./dom.js";
import { SHARP } from "./said.js";

export const quiet = (words, act, more = {}) => h("button", { type: "button", class: "quiet", onclick: act, ...more }, words);
export const button = (words, act, more = {}) => h("button", { type: "button", onclick: act, ...more }, words);
export const cautions = (texts) => texts.map((text) => h("p", { class: "caution" }, text));
const rule = (title, ...children) =>
  h("section", { class: "rule", id: "ask", "aria-label": title }, h("h2", { tabindex: "-1" }, title), children);

/** Our own, made on the server; its place is kept where a step was not drawn, so that − and + stay. */
const drawing = ({ svg, drawn }) => (svg || drawn) && h("figure", { class: svg ? "picture" : "picture blank", html: svg });

function loadRow(view, act) {
  const { load, lighter, heavier } = view;
  const step = (sign, to, words) =>
    button(sign, () => act.moveTo(to), { disabled: to === null, "aria-label": to === null ? words : `${words}: ${view.steps[to].line}` });
  const unit = load.form_unit ? h("span", { class: "unit" }, `\u00a0${load.form_unit}${load.suffix ? ` ${load.suffix}` : ""}`) : null;
  const steps = view.steps.length > 1 && h("p", { class: "steps" }, step("−", lighter, "one step lighter"), step("+", heavier, "one step heavier"));
  return [
    drawing(view),
    h("div", { class: "load-row" }, h("p", { class: load.form_unit ? "big" : "big wordy", id: "load" }, load.number, unit), steps),
    load.words !== load.number && h("p", { class: "s" }, load.words, view.moves && !view.pull && ` · ${view.moves}`),
    view.pull && h("p", { class: "strong" }, view.pull),
  ];
}

function closing(view, act) {
  const { closing: close } = view;
  const unit = close.unit === "seconds" ? "s" : close.unit;
  const label = h("p", { class: "label", id: "closing-question" }, close.unit === "seconds" ? "How many seconds?" : close.done ? "As asked?" : "How many?");
  const main = view.pain?.bad || (view.pain && view.panel === "hurts") ? null : "main"; // what to do about pain comes first
  const done = () => [button(`Done, ${close.middle} ${unit}`, () => act.close({}), { class: main })];
  const keys = close.done ? done() : close.numbers.map((number) =>
    button(String(number), () => act.close({ amount: number }), { class: number === close.middle ? main : null }),
  );
  return h("div", { class: "closing" }, label, h("div", { class: "numbers", role: "group", "aria-labelledby": "closing-question" }, keys));
}

function effort(view, act) {
  const keys = view.efforts.map(([value, words]) =>
    h("label", {}, h("input", { type: "radio", name: "effort", value, checked: view.effort === value, onchange: () => act.effort(value) }), h("span", {}, words)),
  );
  return h(
    "fieldset",
    { class: "left" },
    h("legend", { class: "hidden" }, "How many reps were left after the last one, if you know"),
    h("div", { class: "keys" }, h("span", { class: "label ask", "aria-hidden": "true" }, "reps", h("br"), "left?"), keys),
  );
}

export const field = (id, label, value = "", mode = "text") =>
  h("div", { class: "field" }, h("label", { for: id }, label), h("input", { type: "text", id, value, inputmode: mode, autocomplete: "off", class: mode === "text" ? null : "short" }));

export const valueOf = (id) => document.getElementById(id)?.value.trim() ?? "";

/** What a written load counts: the five readings of the log. */
const COUNTS = [["total", "all together"], ["each", "each of two"], ["side", "plates on one side"], ["plates", "plates alone, all"], ["label", "the mark on it"]];

function otherValues(view, act) {
  const held = view.closing.unit === "seconds";
  const save = () => act.close({ typed: valueOf("o-amount"), load: valueOf("o-load"), unit: valueOf("o-unit"), counts: valueOf("o-counts"), note: valueOf("o-note") });
  const unit = h("select", { id: "o-unit" }, ["kg", "lb"].map((name) => h("option", { value: name, selected: name === (view.load.form_unit || view.unit) }, name)));
  const usual = view.load.load_is || "total";
  const counts = h("select", { id: "o-counts" }, COUNTS.map(([name, words]) => h("option", { value: name, selected: name === usual }, words)));
  return h(
    "details",
    { class: "gap", open: Boolean(view.wrong), key: `${view.used} ${view.wrong}`, ontoggle: act.opened },
    h("summary", {}, "other number, other load, note"),
    h(
      "div",
      { class: "opened" },
      view.wrong && h("p", { class: "wrong-field", role: "alert" }, view.wrong),
      h("div", { class: "fields" }, field("o-amount", held ? "Seconds held" : "Full reps", view.typed?.typed ?? "", "numeric"), field("o-load", "Load, as written", view.typed?.load ?? "", "decimal"), h("div", { class: "field" }, h("label", { for: "o-unit" }, "Unit"), unit)),
      h("div", { class: "field" }, h("label", { for: "o-counts" }, "The load counts"), counts),
      field("o-note", "Note on this set", view.typed?.note ?? ""),
      h("p", { class: "gap" }, button("Save this set", save)),
    ),
  );
}

/** The next set: everything about it and nothing else. */
export function drawSet(view, act) {
  const own = view.settings.map(([name, value], i) => [i ? " · " : "", `${name} `, h("b", {}, value)]);
  return [
    h(
      "header",
      { class: "floor-head" },
      h("span", { class: "exits" }, quiet("session", act.session), view.last && quiet("undo", act.undo)),
      view.since && h("p", { class: "clock" }, view.rest_s ? [h("span", { class: "s" }, "rest "), h("span", { id: "clock", live: true }), h("span", { class: "s" }, ` of ${view.asked_rest}`)] : h("span", { class: "s" }, "no rest")),
    ),
    h("h1", { tabindex: "-1" }, view.name),
    h("p", { class: "s", id: "place" }, view.place, view.together && ` · ${view.together}`),
    view.replaced && h("p", { class: "s" }, view.replaced),
    own.length > 0 && h("p", { class: "s own" }, own),
    loadRow(view, act),
    view.change && h("div", { class: "change between", id: "change" }, h("p", {}, view.change), view.keep && quiet(`keep ${view.keep}`, act.keep)),
    h("div", { class: "load-row" }, h("p", { class: view.amount_unit ? "big asked" : "big asked wordy" }, view.amount, view.amount_unit && h("span", { class: "unit" }, `\u00a0${view.amount_unit}`)), view.effort_asked && h("p", { class: "m" }, view.effort_asked)),
    view.extra && h("p", {}, view.extra),
    view.pain && view.panel !== "hurts" && h("div", { class: "change" }, h("p", {}, view.pain.words)),
    view.counter && h("p", { class: "counter" }, h("span", { id: "count", live: true, class: view.counting ? "m" : null, key: view.counter + view.counting }, view.counting ? "" : view.counter), button(view.counting ? "stop" : "count", act.count, { "aria-label": view.counting ? "stop counting" : "count" })),
    h(
      "nav",
      { class: "exits", "aria-label": "If something is different" },
      quiet("taken", () => act.panel("taken")),
      quiet("hurts", () => act.panel("hurts")),
      quiet("less time", () => act.panel("time")),
    ),
    view.offer && h("div", { class: "change" }, h("p", { class: "s" }, view.offer)),
    view.panel !== "notes" && panel(view, act),
    cautions(view.set_up),
    view.next_time && h("p", { class: "s" }, h("b", {}, "From last time: "), view.next_time),
    view.cue && h("p", { class: "s own" }, h("q", {}, view.cue)),
    (view.likely || view.why) && h("details", { key: view.used, ontoggle: act.opened }, h("summary", {}, view.likely || "why this load"), h("div", { class: "opened s" }, view.why && h("p", {}, view.why), view.likely && h("p", {}, view.likely_rule))),
    cautions(view.cautions),
    otherValues(view, act),
    h("div", { class: "foot hands" }, !view.panel && view.closing.unit !== "seconds" && effort(view, act), closing(view, act)),
    view.panel === "notes" && notesPanel(view, act),
    h(
      "nav",
      { class: "exits", "aria-label": "For this exercise" },
      quiet("settings and notes", () => act.panel("notes")),
      quiet("skip this exercise", act.skip),
      quiet(view.signal ? "signal after the rest: on" : "signal after the rest: off", act.signal),
    ),
    h("div", { class: "rule" }, view.last && h("p", { class: "s" }, `last: ${view.last}`), h("p", { class: "s" }, `Then: ${view.then}`)),
  ];
}

function panel(view, act) {
  if (view.panel === "taken") return takenPanel(view, act);
  if (view.panel === "hurts") return hurtsPanel(view, act);
  if (view.panel !== "time") return null;
  return rule("Minutes left from now", minutes(act));
}

/** The time she has: what is worth least a minute is left out. */
export const minutes = (act) =>
  h("div", { class: "chips" }, [10, 15, 20, 30, 45, 60].map((count) => button(String(count), () => act.shorten(count))), button("all I need", () => act.shorten(null)));

function takenPanel(view, act) {
  if (!view.instead.length) return rule(`Instead of ${view.name}`, h("p", {}, "Nothing in this gym does nearly the same."), h("p", {}, button("Do it later", act.later)));
  const rows = view.instead.map((one) =>
    h("li", {}, h("p", { class: "between" }, h("span", {}, h("span", { class: "strong" }, one.name), h("br"), h("span", { class: "s" }, one.words)), button("Do this", () => act.swap(one)))),
  );
  return rule(`Instead of ${view.name}`, h("ul", { class: "list" }, rows), h("p", {}, button("Do it later", act.later)));
}

export const choices = (name, values, on = null) =>
  h("div", { class: "keys wrap" }, values.map((value) => h("label", {}, h("input", { type: "radio", name, value, checked: value === on }), h("span", {}, String(value)))));
export const chosen = (name) => document.querySelector(`input[name="${name}"]:checked`)?.value ?? "";

/** What stops an exercise whatever the number. */
export const sharpKey = (id = "alarming", on = false) => h("div", { class: "keys wrap gap" }, h("label", {}, h("input", { type: "checkbox", id, checked: on }), h("span", {}, SHARP)));

function hurtsPanel(view, act) {
  const ask = () => act.hurts({ where: chosen("where"), score: chosen("score"), alarming: document.getElementById("alarming").checked });
  return rule(
    "What hurts?",
    h("p", { class: "apart" }, button("Chest, breath, head, faint, numb or weak", act.alarm)),
    h("fieldset", {}, h("legend", { class: "label" }, "A joint, or the muscle"), choices("where", [...view.joints, "muscle"])),
    h("fieldset", { class: "gap" }, h("legend", { class: "label" }, "How much, 0 to 10"), choices("score", [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10])),
    sharpKey(),
    h("p", { class: "gap" }, button("What now?", ask)),
    view.pain && painAnswer(view.pain, act),
  );
}

/** What the pain means for this exercise, and what can be done; above 5 or alarming, no lighter load. */
const painAnswer = ({ words, bad }, act) =>
  h(
    "div",
    { class: "change", id: "answer", tabindex: "-1" },
    h("p", {}, words),
    h("p", { class: "chips" }, !bad && button("lighter", act.spare), button("another exercise", () => act.panel("taken")), button("stop this exercise", act.skip)),
  );

function notesPanel(view, act) {
  const rows = [...view.settings, ["", ""]].slice(0, 6);
  const save = () => {
    const settings = {};
    rows.forEach((_, i) => {
      if (valueOf(`sn${i}`) && valueOf(`sv${i}`)) settings[valueOf(`sn${i}`)] = valueOf(`sv${i}`);
    });
    act.notes({ settings, cue: valueOf("n-cue"), next_time: valueOf("n-next") });
  };
  return rule(
    "Settings and notes",
    rows.map(([name, value], i) => h("div", { class: "fields" }, field(`sn${i}`, `Setting ${i + 1}`, name), field(`sv${i}`, "is at", value))),
    field("n-cue", "Your cue (replaces ours)", view.own_cue),
    field("n-next", "For next time", view.next_time),
    h("p", { class: "gap" }, button("Save", save)),
  );
}

/** What stands twice, was refused or waits, with what can be done about it. */
export function drawCare(view, act) {
  return [
    view.forgotten && h("p", { class: "say wrong" }, "The server does not know this phone: nothing is lost, and what waits here is sent once it is paired."),
    view.forgotten && h("p", {}, h("a", { class: "quiet", href: "/pair" }, "pair it")),
    view.doubled.map((one) =>
      h(
        "section",
        { class: "say wrong", "aria-label": "Logged twice" },
        h("p", {}, h("strong", {}, "Logged on two devices. "), `${one.exercise}: ${one.words.join("; ")}`),
        h("p", { class: "chips" }, one.ids.map((id, i) => button(`take back ${one.words[i]}`, () => act.takeBack(one, id))), button("both were done", () => act.bothDone(one))),
      ),
    ),
    view.refused.map((why) => h("p", { class: "say wrong" }, h("strong", {}, "Not taken into the records. "), why)),
    view.waiting ? h("p", {}, quiet("save what waits as a file", act.saveFile)) : null,
  ];
}

/** The one act of a page at its foot. */
export const foot = (words, act, label = "", waits = false) => h("div", { class: "foot" }, h("p", { class: "label" }, label), button(words, act, { class: "main", disabled: waits }));

/** The note of a session that an alarm sign ended. */
export const ALARM = "stopped: alarm sign";

/** What stays on the page of such a session; a drop of water touches too, so it can be taken back. */
export const emergency = () => h("p", { class: "say wrong" }, h("strong", {}, "Call the emergency number of the place you are in."), " Do not train on, do not drive. Tell somebody near you.");
export const mistake = (act) => quiet("touched by mistake: open it again", act.mistake);

/** Stop now: nothing else matters. */
export function drawAlarm(act) {
  return [
    h("div", { role: "alert" }, h("h1", { tabindex: "-1" }, "Stop now, get help")),
    emergency(),
    h("p", {}, "What you logged is kept, and the session is closed."),
    h("p", { class: "gap" }, quiet("back to the session", act.session)),
    h("p", {}, mistake(act)),
  ];
}
