// A session on the phone: her entries folded onto the card, loads looked up in the sheet.
// Formulas: interpolating a table, rounding down to a step, adding shifts and minutes.
// What they are and how they are tested: docs/decisions/offline-page.md.
import { easedBy, heldHere, isOut, isSpared, saidBefore, saidRow, toldWords } from "./said.js";

const RESERVE = { fail: 0, 0: 0, 1: 1, 2: 2, 3: 3, "4-5": 4.5, "6+": 6 };

/** Straight lines through points, flat beyond both ends. */
export function interpolate(xs, ys, x) {
  if (x <= xs[0]) return ys[0];
  for (let i = 1; i < xs.length; i += 1) {
    if (x <= xs[i]) return ys[i - 1] + ((ys[i] - ys[i - 1]) * (x - xs[i - 1])) / (xs[i] - xs[i - 1]);
  }
  return ys[ys.length - 1];
}

/** The state of a day: the card as the server knew it, then each entry in the order made. */
export function fold(day, entries, date = day.day) {
  const said = day.state;
  const session = {
    day,
    date,
    done: new Map(),
    fresh: new Set(),
    skipped: new Set(said.skipped),
    held: new Map(Object.entries(said.held).map(([stop, why]) => [Number(stop), why])),
    told: new Map(Object.entries(said.told).map(([stop, words]) => [Number(stop), words])),
    leftOut: new Set(said.left_out),
    kept: new Set(),
    swaps: new Map(),
    reasons: new Map(),
    order: day.runs.map((run) => [...run]),
    opened: said.opened,
    finished: said.finished,
    minutes: said.minutes,
    said: said.said,
    eased: new Set(),
    short: false,
    note: said.note ?? "",
  };
  const known = date === day.day;
  if (known) for (const stop of day.stops) takeDone(session, stop.sets);
  else Object.assign(session, { skipped: new Set(session.held.keys()), told: new Map(), leftOut: new Set(), opened: false, finished: false, note: "", minutes: null, said: {} });
  const gone = new Set(entries.flatMap((one) => (one.kind === "retraction" && !one.refused ? [one.replaces] : [])));
  const stands = (one) => one.kind !== "readiness" || !gone.has(one.body.set); // pain told with a set goes with it
  const made = entries.filter(stands).sort((a, b) => (a.made_at < b.made_at ? -1 : a.made_at > b.made_at ? 1 : 0));
  session.before = saidBefore(made, date);
  for (const [stop, why] of heldHere(day, made, date, session.before)) {
    session.held.set(stop, why);
    session.skipped.add(stop);
  }
  session.eased = new Set(easedBy(session.said));
  for (const entry of made) if (entry.day === date && !entry.refused) apply(session, entry);
  return session;
}

function takeDone(session, sets) {
  for (const [key, one] of Object.entries(sets)) {
    if (one.done) session.done.set(key, { ...one.done, key, local: false });
  }
}

function apply(session, { id, kind, body, replaces }) {
  if (kind === "set" && body.session === session.day.session) applySet(session, id, body, replaces);
  else if (kind === "retraction") dropSet(session, replaces);
  else if (kind === "readiness") hear(session, body);
  else if (body.weekday !== session.day.weekday) return;
  else if (kind === "session") {
    session.opened = true;
    session.finished = body.event === "finished";
    session.note = session.finished ? body.note ?? "" : "";
  } else if (kind === "decision") applyDecision(session, body);
}

/** What she said before; with her minutes named, ramps are as short as they may be. */
function hear(session, { minutes, set: _, ...said }) {
  session.said = said;
  for (const joint of easedBy(said)) session.eased.add(joint);
  for (const joint of said.corrected ?? []) if (!easedBy(said).includes(joint)) session.eased.delete(joint);
  session.minutes = minutes ?? null;
  session.short = session.minutes !== null;
}

function applySet(session, id, body, replaces) {
  if (replaces) dropSet(session, replaces);
  const key = body.extra?.card_key;
  if (!key || session.done.get(key)?.id === id) return;
  session.done.set(key, { id, key, number: body.set, at: body.date, body, local: true });
}

function dropSet(session, id) {
  for (const [key, one] of session.done) if (one.id === id) session.done.delete(key);
}

function applyDecision(session, body) {
  const { what } = body;
  if (what === "skip") skip(session, body);
  else if (what === "take up") [session.skipped, session.told].forEach((one) => one.delete(body.stop));
  else if (what === "leave out") session.leftOut = new Set(body.keys);
  else if (what === "keep load") session.kept.add(body.key);
  else if (what === "swap") {
    const planned = session.day.stops.find((stop) => stop.index === body.stop)?.exercise;
    const same = (session.day.instead[body.stop] ?? []).filter((one) => one.exercise === body.exercise);
    const back = body.exercise === planned && !body.item;
    const to = back ? null : same.find((one) => one.item === body.item) ?? same[0];
    if (to) session.swaps.set(body.stop, to);
    else session.swaps.delete(body.stop); // the planned one after all
    session.reasons.set(body.stop, body.reason);
  } else if (what === "order") {
    const place = (run) => Math.min(...run.map((stop) => body.stops.indexOf(stop)));
    session.order.sort((a, b) => place(a) - place(b));
  }
}

function skip(session, body) {
  session.skipped.add(body.stop);
  const words = toldWords(body);
  if (words) session.told.set(body.stop, words);
}

/** The exercise at a stop: the substitute, where she took one. */
export function stopOf(session, index) {
  return session.swaps.get(index)?.stop ?? session.day.stops.find((stop) => stop.index === index);
}

/** The row of the sheet at a stop, after what she said before. */
export function rowOf(session, index) {
  session.rows ??= new Map();
  if (!session.rows.has(index)) {
    const row = session.swaps.get(index)?.row ?? session.day.rows[index];
    session.rows.set(index, saidRow(session, row, stopOf(session, index)));
  }
  return session.rows.get(index);
}

/** Keys of all sets in the order of doing, after swaps and a new order of stops. */
export function keysOf(session) {
  session.keys ??= orderedKeys(session);
  return session.keys;
}

function orderedKeys(session) {
  return session.order.flatMap((run) => {
    const planned = session.day.order.filter((key) => run.includes(indexOf(key)));
    if (!run.some((stop) => session.swaps.has(stop))) return planned;
    return run.length === 1 ? session.swaps.get(run[0]).order : woven(session, run, planned);
  });
}

/** A superset in which one partner was swapped: rounds stay, ramps come first. */
function woven(session, run, planned) {
  const own = new Map(run.map((stop) => [stop, [...(session.swaps.get(stop)?.order ?? [])]]));
  const ramps = [...own.values()].flat().filter(isRamp);
  const keys = planned.flatMap((key) => {
    const stop = indexOf(key);
    if (!session.swaps.has(stop)) return [key];
    return isRamp(key) ? [] : take(own, stop);
  });
  return [...ramps, ...keys, ...[...own.values()].flat().filter((key) => !isRamp(key))];
}

function take(own, stop) {
  const keys = own.get(stop);
  const at = keys.findIndex((key) => !isRamp(key));
  return at < 0 ? [] : keys.splice(at, 1);
}

export const indexOf = (key) => Number(key.split(".")[0]);
export const isRamp = (key) => key.split(".")[1] === "0";

/** The card's set with this key. */
export function setOf(session, key) {
  return stopOf(session, indexOf(key))?.sets[key];
}

/** Whether a set is done, skipped or open. */
export function standing(session, key) {
  session.stands ??= allStanding(session);
  return session.stands.get(key) ?? "open";
}

function allStanding(session) {
  const stands = new Map();
  const keys = keysOf(session);
  const [passed, open] = [new Set(), new Set()];
  for (const key of session.done.keys()) if (!isWarm(session, key)) passed.add(indexOf(key));
  for (const key of keys) {
    const index = indexOf(key);
    const brief = session.short && rowOf(session, index).short?.includes(key);
    const out = session.skipped.has(index) || session.leftOut.has(key) || brief || isOut(session, stopOf(session, index));
    stands.set(key, session.done.has(key) ? "done" : out ? "skipped" : "open");
    if (stands.get(key) === "open" && !isWarm(session, key)) open.add(index);
  }
  for (const key of keys) {
    const idle = passed.has(indexOf(key)) || !open.has(indexOf(key));
    if (idle && stands.get(key) === "open" && isWarm(session, key)) stands.set(key, "skipped");
  }
  return stands;
}

const isWarm = (session, key) => (setOf(session, key)?.kind ?? "working") === "warm-up";

/** The set to be done now, if any. */
export function nextKey(session) {
  return keysOf(session).find((key) => standing(session, key) === "open");
}

/** The set closed last. */
export function lastDone(session) {
  return [...session.done.values()].reduce((a, b) => (a && a.number >= b.number ? a : b), null);
}

/** Number of the next set in the log. */
export function nextNumber(session) {
  const known = session.date === session.day.day ? session.day.state.number : 0;
  return 1 + Math.max(known, 0, ...[...session.done.values()].map((one) => one.number));
}

// Loads ----------------------------------------------------------------------
// Strength and loads are thousandths of a logarithm, so that a shift of one is a shift of the other.

const rowSet = (row, key) => row?.sets.find((one) => one.key === key);
export const rowSetOf = (session, key) => rowSet(rowOf(session, indexOf(key)), key);

/** What another order of stops than the card's takes from this one, in strength. */
function byOrder(session, index) {
  session.orders ??= new Map();
  if (!session.orders.has(index)) session.orders.set(index, orderShift(session, index));
  return session.orders.get(index);
}

function orderShift(session, index) {
  const planned = session.day.runs.flat();
  const now = session.order.flat();
  const before = (list, other) => list.indexOf(other) < list.indexOf(index);
  return session.day.sheet.order
    .filter((pair) => pair.stop === index)
    .reduce((sum, pair) => sum - pair.shift * (before(now, pair.before) - before(planned, pair.before)), 0);
}

/** Where a load stands among steps: one in the other unit at the nearest; the planned step if it is none of them. */
export function stepOf(steps, row, body) {
  const at = steps.findIndex((s) => Number(s.amount) === Number(body.load) && s.form_unit === body.unit);
  const planned = row.rung ?? null;
  if (at >= 0 || planned === null || !body.unit || steps[planned]?.form_unit === body.unit) return at >= 0 ? at : planned;
  const alike = steps.map((s, i) => ({ i, off: Math.abs(kilograms(s.amount, s.form_unit) - kilograms(body.load, body.unit)), is: s.load_is })).filter((one) => one.is === body.load_is);
  return alike.length ? alike.reduce((a, b) => (b.off < a.off ? b : a)).i : planned;
}

const kilograms = (amount, unit) => Number(amount) * (unit === "lb" ? 0.45359237 : 1);

/** The load of a step against strength as planned. */
export const gapAt = (row, one, rung) => (rung == null || one.rung == null ? 0 : row.loads[rung] - row.loads[one.rung]) + (one.gap ?? 0);

/** Mean reps at a step with strength shifted so much. */
function expectedAt(row, one, rung, shift) {
  const reps = (gap) => interpolate(row.gaps, row.reps, gap);
  return Math.max(0, one.expected + reps(gapAt(row, one, rung) - shift) - reps(one.gap ?? 0));
}

/** Reps done with this capacity: stopped where range and reserve say. */
function stopped(one, capacity) {
  return Math.round(interpolate(one.stops_at.map((p) => p[0]), one.stops_at.map((p) => p[1]), capacity));
}

/** What is likely; surer once sets of its exercise were logged. */
function likelyOf(one, expected, learned) {
  const [low, middle, high] = ((learned && one.learned_spread) || one.spread).map((off) => stopped(one, expected + off));
  return { low, middle, high };
}

/** What the sets logged here shift in the sets after them, by key; and how each surprised. */
export function shiftsOf(session) {
  const shifts = new Map();
  const surprises = new Map();
  const begun = new Set();
  const mine = [...session.done.values()].filter((one) => one.local).sort((a, b) => a.number - b.number);
  for (const { key, body } of mine) {
    const { row, steps, current } = doneAs(session, key, body);
    const one = rowSet(row, key);
    if (one?.expected == null) continue;
    const rung = stepOf(steps, one, body);
    const expected = expectedAt(row, one, rung, (shifts.get(key) ?? 0) + byOrder(session, indexOf(key)));
    const likely = likelyOf(one, expected, begun.has(row)).middle;
    if (!isRamp(key)) begun.add(row);
    if (current) surprises.set(key, { over: body.reps - likely, rung, short: isShort(one, body), moved: rung !== one.rung });
    for (const [later, shift] of shiftFrom(session, one, body, expected, likely, shifts.get(key) ?? 0)) {
      if (current || indexOf(later) !== indexOf(key)) shifts.set(later, (shifts.get(later) ?? 0) + shift);
    }
  }
  return { shifts, surprises };
}

/** The row a set was done by: the substitute's, or the planned one's before she took it. */
function doneAs(session, key, body) {
  const index = indexOf(key);
  const stop = stopOf(session, index);
  if (body.exercise === stop.exercise) return { row: rowOf(session, index), steps: stop.steps, current: true };
  const planned = session.day.stops.find((one) => one.index === index);
  return { row: session.day.rows[index], steps: planned.steps, current: false };
}

/** Fell clearly short, near failure: the load itself was too heavy. */
const isShort = (one, body) => one.short != null && body.reps <= one.short && ["fail", "0", "1"].includes(body.rir);

function shiftFrom(session, one, body, expected, likely, known) {
  const said = body.rir !== undefined;
  if (body.as_asked && !said) return notTwice(one, expected, known, Object.entries(one.as_asked ?? {}));
  const over = said ? body.reps + RESERVE[body.rir] - expected : body.reps - likely;
  const table = (said ? one.said : one.silent) ?? {};
  const further = body.rir === "fail" && over < 0 ? one.missed ?? 1 : 1;
  const found = Object.entries(table).map(([key, at]) => [key, further * interpolate(session.day.sheet.knots, at, over)]);
  return said ? found : notTwice(one, expected, known, found);
}

/** A set that stopped where it was asked to tells no more than that: what was known of it by then is not told twice. */
function notTwice(one, expected, known, found) {
  const top = one.stops_at[2]?.[0];
  if (top === undefined || expected < top) return found;
  const own = found.filter(([key]) => indexOf(key) === indexOf(one.key)).map(([, shift]) => shift);
  const most = own.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  const left = most ? Math.min(1, Math.max(0, 1 - known / most)) : 1;
  return found.map(([key, shift]) => [key, left * shift]);
}

/** Every open set with its step, what is likely, and what today changed about its load. */
export function look(session) {
  session.looked ??= lookUp(session);
  return session.looked;
}

function lookUp(session) {
  const { shifts, surprises } = shiftsOf(session);
  const found = new Map();
  for (const index of session.order.flat()) lookAt(session, index, shifts, surprises, found);
  return found;
}

/** The same for the sets of one stop. */
export function lookStop(session, index) {
  session.shifted ??= shiftsOf(session);
  session.stops ??= new Map();
  if (!session.stops.has(index)) {
    session.stops.set(index, lookAt(session, index, session.shifted.shifts, session.shifted.surprises, new Map()));
  }
  return session.stops.get(index);
}

function lookAt(session, index, shifts, surprises, found) {
  const row = rowOf(session, index);
  const own = [...surprises].filter(([key]) => indexOf(key) === index && !isRamp(key));
  const shift = (one) => (shifts.get(one.key) ?? 0) + byOrder(session, index);
  const steps = blockSteps(session, row, shift, surprises, own.length > 0);
  for (const one of row.sets) {
    if (session.done.has(one.key)) continue;
    const rung = steps.has(one.block) ? steps.get(one.block) : one.rung ?? null;
    const expected = one.expected == null ? null : expectedAt(row, one, rung, shift(one));
    const likely = expected == null ? null : likelyOf(one, expected, own.length > 0);
    found.set(one.key, { rung, expected, likely, surprise: own.length ? own[own.length - 1][1].over : 0 });
  }
  return found;
}

/** The step of every block of an exercise: held, lowered, raised, or following another. */
function blockSteps(session, row, shift, surprises, learned) {
  const steps = new Map();
  const spared = row.blocks.length > 0 && isSpared(session, stopOf(session, indexOf(row.sets[0].key)));
  let moved = false;
  for (const [i, block] of row.blocks.entries()) {
    const sets = row.sets.filter((one) => one.block === block.block);
    const mine = sets.filter((one) => surprises.has(one.key)).map((one) => surprises.get(one.key));
    const open = sets.filter((one) => !session.done.has(one.key) && one.limits).map((one) => against(row, one, shift(one), learned));
    const last = mine.length ? lastLoad(mine[mine.length - 1], open) : null;
    const forced = block.fixed || sets.some((one) => session.kept.has(one.key));
    const guess = block.guessed && surprises.size > 0;
    if (forced) steps.set(block.block, spared ? Math.min(last ?? block.held, block.held) : block.held);
    else if (last !== null && block.of != null) steps.set(block.block, last);
    else if (block.of != null) steps.set(block.block, withinReach(isDrop(session, sets[0]), open, block.follows?.[steps.get(block.of)] ?? block.held));
    else steps.set(block.block, forecast(block, open, last ?? (moved || guess ? null : block.held)));
    moved ||= mine.some((one) => one.moved || one.short);
    if (last !== null && !open.length) steps.set(block.block, last);
    const before = row.blocks[i - 1]; // with a sore joint nothing goes back up from a load she took
    if (spared && before && block.held <= before.held) steps.set(block.block, Math.min(steps.get(block.block), steps.get(before.block)));
  }
  return steps;
}

/** Gap of each step of an open set against her strength now, and the limits that hold. */
export function against(row, one, shift, learned) {
  const limits = (learned && one.learned) || one.limits;
  return { limits, steps: row.loads.length, gap: (rung) => gapAt(row, one, rung) - shift };
}

const isDrop = (session, one) => setOf(session, one.key)?.kind === "drop";

/** The load a block goes on with: the last one, or less where that was clearly too heavy. */
const lastLoad = (last, open) => (last.short && open.length ? Math.min(last.rung, heaviest(open, (i) => open[i].limits.enough)) : last.rung);

/** The heaviest step within a limit in every open set. */
function heaviest(open, limit) {
  let best = open[0].steps - 1;
  while (best > 0 && !open.every((one, i) => one.gap(best) <= limit(i))) best -= 1;
  return best;
}

/** A share of an earlier set, or less where its range has become clearly unlikely. */
function withinReach(drop, open, rung) {
  const clear = open.some((one) => one.gap(rung) > one.limits.heavy);
  if (!clear || drop) return rung;
  return Math.min(rung, heaviest(open, (i) => open[i].limits.enough));
}

export function forecast(block, open, held, limit = "heavy") {
  if (!open.length) return held ?? block.held;
  const best = heaviest(open, (i) => (i ? open[i].limits.enough : Math.min(open[i].limits.sure, open[i].limits.enough)));
  if (held === null) return best;
  if (open.some((one) => one.gap(held) > one.limits[limit])) return Math.min(best, held);
  const light = open.every((one) => one.limits.light != null && one.gap(held) <= one.limits.light);
  return light ? Math.min(Math.max(best, held), held + Math.max(1, block.most - block.held)) : held;
}
