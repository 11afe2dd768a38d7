// Minutes of a session on the phone: added up from the sheet, and cut to the time she has.
import { indexOf, isRamp, keysOf, rowSetOf, setOf, standing } from "./session.js";

/** Minutes at which each run of stops begins, and the end; `left`: of what is open, from now on. */
export function minutesOf(session, { left = false, without = new Set() } = {}) {
  const begins = [];
  let underWay = left && session.done.size > 0;
  let seconds = underWay ? 0 : session.day.sheet.prepare_s;
  const { pace = 1 } = session.day.sheet;
  for (const run of session.order) {
    const keys = keysOf(session).filter((key) => run.includes(indexOf(key)));
    const counts = (key) => (left ? standing(session, key) === "open" : standing(session, key) !== "skipped") && !without.has(key);
    const hard = new Set(keys.filter((key) => counts(key) && !isRamp(key)).map(indexOf));
    const own = keys.filter((key) => counts(key) && hard.has(indexOf(key))); // no ramp to nothing
    const busy = own.length > 0;
    const begun = left && keys.some((key) => session.done.has(key));
    if (busy && underWay && !begun) seconds += session.day.sheet.changeover_s;
    begins.push((seconds * pace) / 60);
    if (busy) seconds += secondsOf(session, own, begun);
    underWay ||= busy;
  }
  return { begins, end: (seconds * pace) / 60 };
}

/** Sets with their rests; the way to a stop stands for the rest before its first set. */
function secondsOf(session, keys, begun) {
  const sum = keys.reduce((all, key) => all + (rowSetOf(session, key)?.seconds ?? 0), 0);
  return begun ? sum : sum - setOf(session, keys[0]).rest_s;
}

export const minutesLeft = (session, without) => minutesOf(session, { left: true, without }).end;

/** Keys to leave out so that the rest fits: of the orders listed the one that costs less. */
export function toFit(session, minutes) {
  const all = { ...session, leftOut: new Set(), short: true, stands: undefined };
  const cuts = session.day.sheet.give_up.map((order) => cut(all, order, minutes));
  const cost = (gone) => gone.reduce((sum, one) => sum + one.worth, 0);
  return cuts.reduce((best, one) => (cost(one) < cost(best) ? one : best)).flatMap((one) => one.keys);
}

/** The least worth a minute first, as listed; what fits again in the end is taken up, the dearest first. */
function cut(all, order, minutes) {
  const fits = (groups) => minutesLeft(all, new Set(groups.flatMap((one) => one.keys))) <= minutes;
  const listed = order.map((one) => ({ ...one, keys: one.keys.filter((key) => standing(all, key) === "open") })).filter((one) => one.keys.length);
  let count = 0;
  while (count < listed.length && !fits(listed.slice(0, count))) count += 1;
  let gone = listed.slice(0, count);
  const full = new Set();
  for (const one of [...gone].reverse()) {
    const without = gone.filter((other) => other !== one);
    if (!full.has(indexOf(one.keys[0])) && fits(without)) gone = without;
    else full.add(indexOf(one.keys[0]));
  }
  return gone;
}
