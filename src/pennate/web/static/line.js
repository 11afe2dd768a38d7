// The session as a line with stops, in words: what stands where, from which minute on.
import { indexOf, keysOf, nextKey, setOf, standing, stopOf } from "./session.js";
import { insteadOf, isOut, isSharp, isSpared, painAt, SHARP, strictest } from "./said.js";
import { minutesOf } from "./time.js";
import { doneAmount, doneLoad, isPaired, loadOf, plural, replacedWords } from "./views.js";

const LEAD = { top: "top ", "back-off": "back-off ", amrap: "AMRAP " };

/** Neighbours that are alike, together. */
function gathered(all, what) {
  const groups = [];
  for (const one of all) {
    const last = groups[groups.length - 1];
    if (last && what(last[0]) === what(one)) last.push(one);
    else groups.push([one]);
  }
  return groups;
}

/** How far some sets have come, taken together. */
function standingOf(session, keys) {
  const stands = keys.map((key) => standing(session, key));
  if (keys.includes(nextKey(session)) && !session.finished) return "now";
  if (!stands.length || stands.includes("open")) return "open";
  return stands.includes("done") ? "done" : "skipped";
}

/** The stops in their order, as the line shows them. */
export function lineOf(session) {
  const { begins } = minutesOf(session);
  return session.order.map((run, i) => stopOn(session, run, Math.round(begins[i])));
}

function stopOn(session, run, at) {
  const planned = session.day.line[session.day.runs.findIndex((one) => one.includes(run[0]))];
  const swapped = run.map((stop) => session.swaps.get(stop)).find(Boolean);
  const { drawing, together } = swapped?.line ?? planned;
  const keys = keysOf(session).filter((key) => run.includes(indexOf(key)));
  const marks = (_, names) => standingOf(session, names.split(" ").filter((key) => setOf(session, key)));
  return {
    at,
    key: run.join(),
    svg: drawing.replace(/\{([^}]*)\}/g, marks),
    standing: standingOf(session, keys),
    braided: run.length > 1,
    together: together && isPaired(session, keys[0]) ? together : "",
    parts: run.map((index) => partOf(session, index)),
  };
}

function partOf(session, index) {
  const stop = stopOf(session, index);
  const keys = keysOf(session).filter((key) => indexOf(key) === index);
  const stands = standingOf(session, keys);
  const open = keys.filter((key) => standing(session, key) === "open");
  return {
    index,
    name: stop.name,
    standing: stands,
    replaced: replacedWords(session, index),
    pain: isOut(session, stop) ? `left out: pain ${painAt(session, stop)} of 10 where it loads${isSharp(session, stop) ? `, ${SHARP}` : ""}${insteadOf(session, stop)}` : isSpared(session, stop) ? `pain ${painAt(session, stop)} of 10 where it loads` : "",
    lines: [...(open.length ? askedLines : doneLines)(session, keys), ...leftOut(session, keys)],
    cautions: [...new Set(open.flatMap((key) => strictest(session, stop, setOf(session, key))))],
    skipped: session.skipped.has(index),
    held: session.held.get(index),
    told: session.told.has(index) ? session.told.get(index) + insteadOf(session, stop) : "",
    late: stands === "skipped" && !session.skipped.has(index) && !isOut(session, stop),
    open: open.length > 0 || isOut(session, stop),
  };
}

/** The sets of an exercise in a few lines, alike ones gathered: “top 2 × 5–7 at 57.5 kg”. */
function askedLines(session, keys) {
  const sets = keys.filter((key) => standing(session, key) !== "skipped").map((key) => ({ ...setOf(session, key), load: loadOf(session, key) }));
  const lines = [];
  for (const group of gathered(sets.filter((one) => one.side !== "right"), (one) => one.kind + one.test)) {
    if (group[0].kind === "warm-up") lines.push(`${group[0].test ? "test" : "warm-up"} ${loadsOf(group)}${lighterAfter(group.at(-1), sets) ? ": the lighter sets below are a careful guess until then" : ""}`);
    else if (group[0].kind === "drop") lines.push(`${plural(group.length, "drop")} to ${loadsOf(group)}`);
    else for (const same of gathered(group, (one) => [one.asked, one.load.line, one.effort].join())) lines.push(alikeLine(same));
  }
  if (lines.length && sets.some((one) => one.side)) lines[lines.length - 1] += ", each side";
  return lines;
}

/** Whether the first working set is lighter than the test set before it. */
function lighterAfter(test, sets) {
  const first = sets.find((one) => one.kind !== "warm-up");
  if (!test.test || !first) return false;
  const same = first.load.form_unit === test.load.form_unit && first.load.load_is === test.load.load_is;
  return same && Number(first.load.amount) > 0 && Number(first.load.amount) < Number(test.load.amount);
}

function alikeLine([one, ...rest]) {
  const at = one.load.line === "body weight" ? "" : ` at ${one.load.line}`;
  return `${LEAD[one.kind] ?? ""}${1 + rest.length} × ${one.asked}${at}${one.effort ? `, ${one.effort}` : ""}`;
}

/** Several loads with the unit named once: “20 · 40 kg”. */
function loadsOf(sets) {
  const loads = sets.map((one) => one.load);
  const [first] = loads;
  const named = loads.every((one) => Number(one.amount) > 0 && one.form_unit === first.form_unit && one.load_is === first.load_is);
  return loads.map((one, i) => (named && i < loads.length - 1 ? one.number : one.line)).join(" · ");
}

/** What was done, sets at one load gathered: “150 lb × 5, 3”; ramps are left out. */
function doneLines(session, keys) {
  const done = keys.filter((key) => session.done.has(key) && setOf(session, key).kind !== "warm-up").map((key) => session.done.get(key));
  return gathered(done, doneLoad).map((group) => {
    const [load, amounts] = [doneLoad(group[0]), group.map(doneAmount).join(", ")];
    return load ? `${load} × ${amounts}` : amounts;
  });
}

/** How many working sets were given up of an exercise that is still done; sides are one. */
function leftOut(session, keys) {
  const hard = keys.filter((key) => setOf(session, key).kind !== "warm-up" && setOf(session, key).side !== "right");
  const out = hard.filter((key) => standing(session, key) === "skipped").length;
  return out && out < hard.length ? [`${plural(out, "set")} left out`] : [];
}

/** What the session needs, in the order of the stops: bars, stacks, dumbbells. */
export const itemsOf = (session) => [...new Set(session.order.flat().map((index) => stopOf(session, index).on).filter(Boolean))].join(", ");
