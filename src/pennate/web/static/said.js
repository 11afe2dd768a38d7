// What she says before the session, and the rows of the sheet as it would have planned them then.
import { against, forecast, gapAt, interpolate } from "./session.js";

const REDUCE = 3; // the pain rule: from 3 less load, above 5 not at all
const STOP = 5;

/** Worst pain she named in a joint that an exercise loads, 0 to 10. */
export const painAt = (session, stop) => Math.max(0, ...Object.entries(session.said.pain ?? {}).map(([joint, score]) => (stop.joints.includes(joint) ? score : 0)));
export const isOut = (session, stop) => painAt(session, stop) > STOP;
export const isSpared = (session, stop) => painAt(session, stop) >= REDUCE && !isOut(session, stop);

/** Stops left out since pain said here on an earlier day stops them, until the joint is said at 5 or less. */
export function heldHere(day, entries, date) {
  const [joints, exercises] = [new Map(), new Map()];
  for (const { kind, body, day: on, refused } of entries) {
    if (on >= date || refused) continue;
    if (kind === "readiness") for (const [joint, score] of Object.entries(body.pain ?? {})) joints.set(joint, { score, on });
    if (kind !== "set") continue;
    const last = exercises.get(body.exercise);
    const pain = Object.entries(body.pain ?? {}).find(([, score]) => score > STOP);
    exercises.set(body.exercise, { pain: pain ?? (last?.on === on ? last.pain : undefined), on }); // of the last day it was done
  }
  return day.stops.flatMap(({ index, exercise, joints: loaded }) => {
    const joint = loaded.find((one) => joints.get(one)?.score > STOP);
    const done = exercises.get(exercise);
    const [name, score, on] = joint ? [joint, joints.get(joint).score, joints.get(joint).on] : done?.pain ? [...done.pain, done.on] : [];
    return name ? [[index, `${name} ${score} of 10 on ${on}`]] : [];
  });
}

/** A row of the sheet after what she said; the same where nothing is different from the card. */
export function saidRow(session, row, stop) {
  const before = session.day.state.said;
  const slept = Boolean(session.said.short_sleep) - Boolean(before.short_sleep);
  const spare = isSpared(session, stop) && !isSpared({ said: before }, stop);
  return row && row.loads.length && (slept || spare) ? replanned(row, slept * session.day.sheet.short_sleep, spare) : row;
}

/** The row with strength shifted, and with a joint spared. */
function replanned(row, shift, spare) {
  const steps = new Map();
  const blocks = row.blocks.map((block) => {
    const chosen = block.of == null && !block.fixed;
    const held = chosen && spare ? block.spare ?? 0 : chosen ? morning(row, block, shift) : block.follows?.[steps.get(block.of)] ?? block.held;
    steps.set(block.block, held);
    return { ...block, held, most: block.most + held - block.held, fixed: block.fixed || (chosen && spare) };
  });
  const [first] = row.blocks;
  const lighter = first ? row.loads[first.held] - row.loads[steps.get(first.block)] : 0;
  const sets = row.sets.map((one) => {
    const rung = one.rung == null ? null : steps.get(one.block) ?? atMost(row.loads, row.loads[one.rung] - lighter);
    const gap = gapAt(row, one, rung) - shift;
    const reps = (at) => interpolate(row.gaps, row.reps, at);
    const expected = one.expected == null ? null : Math.max(0, one.expected + reps(gap) - reps(one.gap ?? 0));
    return { ...one, rung, gap, expected, was: one.was ?? one.rung };
  });
  return { ...row, blocks, sets };
}

/** The step a block is planned at: held as long as its range stays as likely as not. */
function morning(row, block, shift) {
  const sets = row.sets.filter((one) => one.block === block.block && one.limits);
  return forecast(block, sets.map((one) => against(row, one, shift, false)), block.held, "enough");
}

/** The heaviest step up to a load. */
const atMost = (loads, load) => Math.max(0, loads.filter((one) => one <= load).length - 1);
