// What the page shows of a session, in words: from the card, the sheet and her entries.
import { clockText } from "./rest.js";
import { isOut, isSpared, strictest } from "./said.js";
import { indexOf, isRamp, keysOf, lastDone, lookStop, nextKey, rowOf, rowSetOf, setOf, standing, stopOf } from "./session.js";

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

/** Whether another exercise is still done in turn with a set's. */
export function isPaired(session, key) {
  const stops = new Set(keysOf(session).filter((one) => standing(session, one) !== "skipped" && setOf(session, one).kind !== "warm-up").map(indexOf));
  return session.order.find((run) => run.includes(indexOf(key))).filter((stop) => stops.has(stop)).length > 1;
}

export const plural = (count, one) => `${count} ${one}${count === 1 ? "" : "s"}`;

/** Which of its kind a set is; short of time one warm-up set is done at most. */
const placeOf = (session, key) => {
  const { place } = setOf(session, key);
  return session.short && isRamp(key) && rowOf(session, indexOf(key)).short?.length ? place.replace(/ \d+ of \d+/, "") : place;
};

/** What an exercise stands in for today, with her reason. */
export function replacedWords(session, index) {
  const reason = session.swaps.has(index) && session.reasons.get(index);
  return stopOf(session, index).replaced + (reason ? `: ${reason}` : "");
}

/** The load that holds for a set: as planned, as today changed it, or as she kept it. */
export function loadOf(session, key) {
  const [stop, set] = [stopOf(session, indexOf(key)), setOf(session, key)];
  const rung = lookStop(session, indexOf(key)).get(key)?.rung ?? null;
  const planned = rowSetOf(session, key);
  const moved = rung !== null && rung !== (planned.was ?? planned.rung); // not the step the card shows
  const kept = session.kept.has(key) && set.keep_to;
  return moved && !kept ? stop.steps[rung] : kept || set.load;
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
  const load = ui.rung !== null ? stop.steps[rung] : loadOf(session, key);
  const asCard = rung === (planned?.was ?? planned?.rung ?? null);
  return { session, key, stop, set, row, planned, rung, moved, asCard, load, byHand: ui.rung !== null && ui.rung !== row?.rung };
}

/** The load planned for a set after what she said, before any was done. */
const plannedLoad = ({ stop, set, planned }) => (planned.was == null || planned.was === planned.rung ? set.load : stop.steps[planned.rung]);

export function viewOf(session, ui, cards) {
  const at = setNow(session, ui);
  const { key, stop, set, row, load, rung } = at;
  const likely = set.kind === "warm-up" || set.closing.unit === "seconds" ? null : row.likely;
  const changed = at.moved && ui.rung === null && !session.kept.has(key);
  return {
    used: ui.used,
    name: stop.name,
    place: placeOf(session, key),
    together: isPaired(session, key) ? stop.together : "",
    settings: stop.settings,
    cue: stop.cue,
    own_cue: stop.own_cue,
    next_time: stop.next_time,
    replaced: replacedWords(session, indexOf(key)),
    set_up: [...new Set([...ui.heed, ...(isFirstHard(session, key) ? strictest(session, stop, set) : set.set_up)])],
    cautions: set.cautions,
    load,
    svg: pictureOf(session.day.pictures, load.picture),
    drawn: stop.steps.some((one) => one.picture),
    steps: stop.steps,
    lighter: rung > 0 ? rung - 1 : null,
    heavier: rung !== null && rung < stop.steps.length - 1 ? rung + 1 : null,
    moves: at.asCard ? set.moves : set.kind === "drop" ? "" : pullWords(session, at),
    pull: set.kind === "drop" ? pullWords(session, at) : "",
    change: changed ? changeWords(plannedLoad(at), load, row.surprise) : at.moved ? "" : session.kept.has(key) ? "" : set.change,
    keep: changed ? plannedLoad(at).line : session.kept.has(key) ? "" : set.keep,
    offer: at.asCard && ui.rung === null ? offerOf(session, at) : "",
    amount: set.amount,
    amount_unit: set.amount_unit,
    effort_asked: set.effort,
    extra: set.extra,
    counter: set.closing.unit === "seconds" ? "count the seconds" : beatsOf(set).length ? "count the tempo" : "",
    counting: Boolean(ui.stopCount),
    likely: likely ? likelyWords(likely, cards.most_reps) : "",
    likely_rule: cards.likely_rule,
    why: at.planned?.was != null && isSpared(session, stop) ? cards.spared : set.why,
    pain: ui.pain,
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
    instead: ui.panel === "taken" ? (session.day.instead[indexOf(key)] ?? []).filter((one) => one.stop !== stop && !isOut(session, one.stop)) : [],
    joints: cards.joints,
    signal: ui.signal,
    wrong: ui.wrong,
    typed: ui.typed,
  };
}

/** Whether a set is the first after the ramp: cautions of its exercise stand there. */
const isFirstHard = (session, key) => keysOf(session).find((one) => indexOf(one) === indexOf(key) && setOf(session, one).kind !== "warm-up") === key;

/** What the card offers, by how many reps the forecast has come off the card's; empty where it no longer stands. */
function offerOf(session, { key, set, row }) {
  if (!set.offer) return "";
  const index = indexOf(key);
  const carded = (session.swaps.get(index)?.row ?? session.day.rows[index]).sets.find((one) => one.key === key);
  return set.offer[Math.round(row.expected - carded.expected)] ?? "";
}

function closingOf(set, likely) {
  return around(set.closing, set.closing.done || !likely ? set.closing.middle : likely.middle);
}

/** A hold is what was counted; of reps counted by their beats she may have done one more or fewer. */
const countedOf = (closing, counted) =>
  closing.unit === "seconds" ? { ...closing, done: true, middle: counted } : { ...around(closing, counted), done: false };

/** Five numbers around one; those of a hold are five seconds apart. */
function around(closing, middle) {
  const by = closing.unit === "seconds" ? 5 : 1;
  const first = Math.max(by, middle - 2 * by);
  return { ...closing, middle, numbers: [0, 1, 2, 3, 4].map((i) => first + i * by) };
}

/** Which plates come off before a drop, and which go on: from what the set before left there. */
function pullWords(session, { key, stop, set, load }) {
  const same = keysOf(session).filter((one) => indexOf(one) === indexOf(key) && stop.sets[one].side === set.side);
  const before = same[same.indexOf(key) - 1];
  if (!before) return "";
  const was = session.done.get(before)?.body;
  const step = (amount, unit) => stop.steps.find((one) => Number(one.amount) === Number(amount) && one.form_unit === unit);
  const planned = loadOf(session, before);
  const on = was ? step(was.load, was.unit) : step(planned.amount, planned.form_unit);
  return pulled(on?.plates, step(load.amount, load.form_unit)?.plates, stop.each_side);
}

/** “pull 10 and 5 kg from each side”; the outer plates first. */
export function pulled(on, wanted, sides) {
  if (!on || !wanted) return "";
  const [off, more] = [beyond(on, wanted), beyond(wanted, on)];
  const side = sides ? " each side" : "";
  return [off.length && `pull ${masses(off.reverse())}${side && ` from${side}`}`, more.length && `put ${masses(more)} on${side}`].filter(Boolean).join(", ");
}

function beyond(plates, others) {
  const left = [...others];
  return plates.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function masses(plates) {
  const units = new Set(plates.map((one) => one.split(" ")[1]));
  return units.size > 1 ? plates.join(" and ") : `${plates.map((one) => one.split(" ")[0]).join(" and ")} ${[...units][0]}`;
}

/** Beyond the most that is ever forecast nothing is said. */
const upTo = (reps, most) => (reps >= most ? `${most} or more` : reps);
export const likelyWords = ({ low, middle, high }, most) => `likely ${upTo(middle, most)}${low === high ? "" : `, between ${low} and ${upTo(high, most)}`}`;

/** “2 reps under what was likely: the next set is 5 kg lighter”; ended the other way, it is no reason. */
export function changeWords(planned, to, over) {
  const gap = Number(to.amount) - Number(planned.amount);
  const cause = over * gap > 0 ? `${Math.abs(over)} rep${Math.abs(over) > 1 ? "s" : ""} ${over > 0 ? "over" : "under"} what was likely: ` : "after what was done so far: ";
  if (planned.form_unit !== to.form_unit || planned.load_is !== to.load_is) return `${cause}${to.line} instead of ${planned.line}`;
  return `${cause}the next set is ${Number(Math.abs(gap).toFixed(2))} ${to.form_unit} ${gap > 0 ? "heavier" : "lighter"}`;
}

const READ = { each: " each", side: " a side", plates: " in plates", label: " on the pin" };

/** Whether an item is a set of bands: what it pulls is no pin's mark. */
export const onBands = (item = "") => /(^|_)bands?(_|$)/.test(item);

/** The load of a done set as it was written; empty for body weight alone. */
export function doneLoad({ body, load }) {
  if (!body) return load;
  if (!Number(body.load)) return "";
  const read = body.load_is === "label" && onBands(body.equipment) ? " of band" : READ[body.load_is] ?? "";
  return `${body.load.replace("-", "")} ${body.unit}${Number(body.load) < 0 ? " of help" : read}`;
}

/** Reps or seconds of a done set, with the side where there is one. */
export function doneAmount({ body, amount }) {
  if (!body) return amount;
  return (body.seconds ? `${body.seconds} s` : String(body.reps)) + (body.side ? ` ${body.side}` : "");
}

/** A set as it was done: “6 reps at 57.5 kg, 1 left”. */
export function doneWords(done, cards) {
  if (!done?.body) return done?.words ?? "";
  const { reps, seconds, side, rir } = done.body;
  const amount = seconds || side ? doneAmount(done) : plural(reps, "rep");
  const left = rir ? `, ${cards.efforts.find(([value]) => value === rir)[1]}${/^\d/.test(rir) && rir !== "0" ? " left" : ""}` : "";
  const load = doneLoad(done);
  return `${amount}${load ? ` at ${load}` : ""}${left}`;
}

function thenWords(session, key) {
  const keys = keysOf(session);
  const later = keys.slice(keys.indexOf(key) + 1).find((one) => standing(session, one) === "open");
  if (!later) return "that was the last set";
  const [stop, set] = [stopOf(session, indexOf(later)), setOf(session, later)];
  const name = indexOf(later) === indexOf(key) ? "" : `${stop.name}: `;
  return `${name}${placeOf(session, later)}, ${set.amount} ${set.amount_unit} at ${loadOf(session, later).line}`;
}
