// What the page shows of a session, in words: from the card, the sheet and her entries.
import { clockText } from "./rest.js";
import { indexOf, keysOf, lastDone, lookStop, nextKey, rowOf, setOf, standing, stopOf } from "./session.js";

export const rowBlock = (session, key) => {
  const row = rowOf(session, indexOf(key));
  const block = row.sets.find((one) => one.key === key)?.block;
  return row.blocks.find((one) => one.block === block);
};

/** Seconds of each phase of a tempo; as fast as it goes (x) is counted as one. */
export const beatsOf = (set) => (set.tempo ? set.tempo.split("-").map((beat) => (beat === "x" ? 1 : Number(beat))) : []);

/** A drawing put together from the elements it shares with others: place, count, place, … */
function pictureOf({ parts, runs }, name) {
  const run = runs[name] ?? [];
  return run.map((place, i) => (i % 2 ? "" : parts.slice(place, place + run[i + 1]).join(""))).join("");
}

/** The set to be done now with all that is known of it. */
export function setNow(session, ui) {
  const key = session && nextKey(session);
  if (!key) return { session, key };
  const stop = stopOf(session, indexOf(key));
  const set = stop.sets[key];
  const row = lookStop(session, indexOf(key)).get(key);
  const planned = rowOf(session, indexOf(key)).sets.find((one) => one.key === key);
  const rung = ui.rung ?? row?.rung ?? null;
  const moved = rung !== null && rung !== planned?.rung;
  const kept = session.kept.has(key) && set.keep_to;
  const load = ui.rung !== null || (moved && !kept) ? { ...stop.steps[rung], pulled: "" } : kept || set.load;
  return { session, key, stop, set, row, planned, rung, moved, load, byHand: ui.rung !== null && ui.rung !== row?.rung };
}

export function viewOf(session, ui, cards) {
  const at = setNow(session, ui);
  const { key, stop, set, row, load, rung } = at;
  const likely = set.kind === "warm-up" || set.closing.unit === "seconds" ? null : row.likely;
  const changed = at.moved && ui.rung === null && !session.kept.has(key);
  return {
    used: ui.used,
    name: stop.name,
    place: set.place,
    together: stop.together,
    settings: stop.settings,
    cue: stop.cue,
    own_cue: stop.own_cue,
    next_time: stop.next_time,
    replaced: stop.replaced,
    set_up: set.set_up,
    cautions: set.cautions,
    load,
    svg: pictureOf(session.day.pictures, load.picture),
    steps: stop.steps,
    lighter: rung > 0 ? rung - 1 : null,
    heavier: rung !== null && rung < stop.steps.length - 1 ? rung + 1 : null,
    moves: at.moved ? "" : set.moves,
    pull: at.moved ? "" : set.pull,
    change: changed ? changeWords(set.load, load, row.surprise) : at.moved ? "" : session.kept.has(key) ? "" : set.change,
    keep: changed ? set.load.line : session.kept.has(key) ? "" : set.keep,
    amount: set.amount,
    amount_unit: set.amount_unit,
    effort_asked: set.effort,
    extra: set.extra,
    counter: set.closing.unit === "seconds" ? "count the seconds" : beatsOf(set).length ? "count the tempo" : "",
    counting: Boolean(ui.stopCount),
    likely: likely ? likelyWords(likely) : "",
    why: set.why,
    pain: ui.pain?.words,
    closing: ui.counted ? countedOf(set.closing, ui.counted) : closingOf(set, likely),
    efforts: cards.efforts,
    effort: ui.effort,
    unit: cards.unit,
    rest_s: set.rest_s,
    asked_rest: set.rest_s ? clockText(set.rest_s) : "",
    since: lastDone(session)?.at,
    last: doneWords(lastDone(session), cards),
    then: thenWords(session, key),
    panel: ui.panel,
    instead: ui.panel === "taken" ? (session.day.instead[indexOf(key)] ?? []).filter((one) => one.exercise !== stop.exercise) : [],
    joints: cards.joints,
    signal: ui.signal,
    wrong: ui.wrong,
    typed: ui.typed,
  };
}

function closingOf(set, likely) {
  return set.closing.done || !likely ? set.closing : around(set.closing, likely.middle);
}

/** A hold is what was counted; of reps counted by their beats she may have done one more or fewer. */
const countedOf = (closing, counted) =>
  closing.unit === "seconds" ? { ...closing, done: true, middle: counted } : { ...around(closing, counted), done: false };

function around(closing, middle) {
  const first = Math.max(1, middle - 2);
  return { ...closing, middle, numbers: [0, 1, 2, 3, 4].map((i) => first + i) };
}

const likelyWords = ({ low, middle, high }) => (low === high ? `likely ${middle}` : `likely ${middle}, between ${low} and ${high}`);

/** “2 reps under what was likely: the next set is 5 kg lighter”. */
function changeWords(planned, to, over) {
  const cause = over ? `${Math.abs(over)} rep${Math.abs(over) > 1 ? "s" : ""} ${over > 0 ? "over" : "under"} what was likely: ` : "after what was done so far: ";
  if (planned.form_unit !== to.form_unit || planned.load_is !== to.load_is) return `${cause}${to.line} instead of ${planned.line}`;
  const gap = Number(to.amount) - Number(planned.amount);
  return `${cause}the next set is ${Number(Math.abs(gap).toFixed(2))} ${to.form_unit} ${gap > 0 ? "heavier" : "lighter"}`;
}

function doneWords(done, cards) {
  if (!done) return "";
  if (!done.body) return done.words;
  const { reps, seconds, load, unit, rir } = done.body;
  const amount = seconds ? `${seconds} s` : `${reps} rep${reps === 1 ? "" : "s"}`;
  const left = rir ? `, ${cards.efforts.find(([value]) => value === rir)[1]}${/^\d/.test(rir) && rir !== "0" ? " left" : ""}` : "";
  return `${amount}${load ? ` at ${load.replace("-", "−")} ${unit}` : ""}${left}`;
}

function thenWords(session, key) {
  const keys = keysOf(session);
  const later = keys.slice(keys.indexOf(key) + 1).find((one) => standing(session, one) === "open");
  if (!later) return "that was the last set";
  const [stop, set] = [stopOf(session, indexOf(later)), setOf(session, later)];
  const name = indexOf(later) === indexOf(key) ? "" : `${stop.name}: `;
  return `${name}${set.place}, ${set.asked}`;
}

export function stopView(session, index, act) {
  const stop = stopOf(session, index);
  const keys = keysOf(session).filter((key) => indexOf(key) === index);
  const kinds = keys.map((key) => standing(session, key));
  const open = kinds.filter((one) => one === "open").length;
  const done = kinds.filter((one) => one === "done").length;
  const skipped = session.skipped.has(index);
  const acts = skipped
    ? [["take it up again", () => act.takeUp(index)]]
    : open
      ? [["earlier", () => act.move(index, -1)], ["later", () => act.move(index, 1)], ["skip it today", () => act.skipStop(index)]]
      : [];
  const sets = (number) => `${number} set${number === 1 ? "" : "s"}`;
  const words = skipped ? "skipped today" : open ? `${sets(open)} to do${done ? `, ${done} done` : ""}` : "done";
  return { name: stop.name, standing: skipped ? "skipped" : open ? "open" : "done", words, acts };
}
