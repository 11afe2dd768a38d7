// What she says before the session, and the rows of the sheet as it would have planned them then.
import { against, forecast, gapAt, interpolate } from "./session.js";

const REDUCE = 3; // the pain rule: from 3 less load, above 5 not at all
const STOP = 5;

/** Worst pain she named in a joint that an exercise loads, 0 to 10. */
export const painAt = (session, stop) => Math.max(0, ...Object.entries(session.said.pain ?? {}).map(([joint, score]) => (stop.joints.includes(joint) ? score : 0)));
/** Whether a joint that it loads is sharp, swells, locks or gives way. */
export const isSharp = ({ said }, stop) => (said.alarming ?? []).some((joint) => stop.joints.includes(joint));
export const isOut = (session, stop) => painAt(session, stop) > STOP || isSharp(session, stop);
export const isSpared = (session, stop) => painAt(session, stop) >= REDUCE && !isOut(session, stop);

const searches = new Map();

/** What a search of the cards finds first in a note, as the server finds it; else empty. */
export function foundIn(search, note = "") {
  if (!searches.has(search)) searches.set(search, new RegExp(search, "i"));
  return note.match(searches.get(search))?.[0].toLowerCase() ?? "";
}

/** The sign in a note that stops an exercise, as she chose or wrote it; else empty. */
export const signIn = (heed, note = "") => (note.includes(SHARP) ? SHARP : foundIn(heed.joint_signs, note));

/** The words that stop an exercise whatever the number, as they are stored. */
export const SHARP = "sharp, swelling, locking or giving way";

/** What is said of these joints now, in the place of what was said of them before, by mistake or not. */
export function hurting({ said }, pain, alarming, corrects = false) {
  const others = (joints = []) => joints.filter((joint) => !(joint in pain));
  const and = (joints, so) => [...others(joints), ...(so ? Object.keys(pain) : [])];
  return { pain: { ...said.pain, ...pain }, alarming: and(said.alarming, alarming), corrected: and(said.corrected, corrects) };
}

/** What a set told, without the joints she has corrected since; a sign goes with the joints it was told of. */
function unmended({ pain = {}, note }, mended = []) {
  const left = Object.fromEntries(Object.entries(pain).filter(([joint]) => !mended.includes(joint)));
  const off = Object.keys(pain).length > 0 && !Object.keys(left).length;
  return { pain: left, note: off ? "" : note };
}

/** “shoulder 2 of 10, sharp, swelling, locking or giving way”. */
export const painWords = (pain = {}, sign = "") => [...Object.entries(pain).sort().map(([joint, score]) => `${joint} ${score} of 10`), sign].filter(Boolean).join(", ");

/** What was told beside a decision to stop, in words; else empty. */
export const toldWords = ({ because, pain, note }) => because || painWords(pain, note);

/** What pain told today asks before the sets of an exercise: stop, only while free of pain, or less; with the joints. */
function painAsks(session, stop) {
  const { heed } = session.day;
  const words = (what, joints) => (joints.length && heed.named?.[what].replace("{}", joints.join(" and "))) || heed[what]; // cards kept from before name none
  const noted = [...session.done.values()].some(({ body }) => body?.exercise === stop.exercise && signIn(heed, unmended(body, session.said.corrected).note));
  if (noted || isOut(session, stop)) return { stop: words("stop", stop.joints.filter((joint) => stops(saidOf(session, joint)))) };
  const slight = stop.slight.filter((joint) => stops(session.said.pain?.[joint] === undefined ? session.before.get(joint) : saidOf(session, joint)));
  const reduce = stop.joints.filter((joint) => easedBy(session.said).includes(joint));
  return { ...(slight.length && { slight: words("slight", slight) }), ...(reduce.length && { reduce: words("reduce", reduce) }) };
}

/** The cautions before a set, with those the card knew: where she must stop, what it asked before no longer stands. */
export function strictest(session, stop, { pain, set_up }) {
  const asks = { ...pain, ...painAsks(session, stop) };
  return [...(asks.stop ? [asks.stop] : [asks.slight, asks.reduce].filter(Boolean)), ...set_up];
}

/** That stopping takes the place of the lighter load asked before; empty where none was. */
export const insteadOf = (session, stop) => (stop.joints.some((joint) => session.eased.has(joint)) ? ", in place of less load" : "");

/** Joints for which she was asked for less load. */
export const easedBy = ({ pain = {}, alarming = [] }) => Object.keys(pain).filter((joint) => pain[joint] >= REDUCE && pain[joint] <= STOP && !alarming.includes(joint));

const saidOf = ({ said }, joint) => ({ score: said.pain?.[joint], sharp: (said.alarming ?? []).includes(joint) });
const stops = (one) => Boolean(one) && (one.score > STOP || one.sharp);

/** What was said of each joint here on earlier days, the last of each. */
export function saidBefore(entries, date) {
  const joints = new Map();
  for (const { kind, body, day: on, refused } of entries) {
    if (kind !== "readiness" || on >= date || refused) continue;
    for (const [joint, score] of Object.entries(body.pain ?? {})) joints.set(joint, { score, on, sharp: (body.alarming ?? []).includes(joint) });
  }
  return joints;
}

/** Stops left out since pain said here on an earlier day stops them, until the joint is said at 5 or less. */
export function heldHere(day, entries, date, joints = saidBefore(entries, date)) {
  const exercises = new Map();
  const mended = new Map(entries.filter((one) => one.kind === "readiness" && !one.refused).map((one) => [one.day, one.body.corrected]));
  for (const { kind, body, day: on, refused } of entries) {
    if (on >= date || refused) continue;
    if (kind === "set") hearOf(day.heed, exercises, { ...body, ...unmended(body, mended.get(on)) }, on);
    if (kind === "decision" && body.exercise) hearOf(day.heed, exercises, body, on, `${body.weekday} ${body.stop}`);
    if (kind === "decision" && body.what === "take up") for (const [exercise, one] of exercises) if (one.on === on && one.at === `${body.weekday} ${body.stop}`) exercises.delete(exercise);
  }
  return day.stops.flatMap(({ index, exercise, joints: loaded }) => {
    const joint = loaded.find((one) => joints.has(one) && stops(joints.get(one)));
    const said = joint ? joints.get(joint) : null;
    const words = said ? painWords({ [joint]: said.score }, said.sharp && SHARP) : exercises.get(exercise)?.words;
    return words ? [[index, `${words} on ${said?.on ?? exercises.get(exercise).on}`]] : [];
  });
}

/** What was told of an exercise on the last day it was done or stopped, where it stops it. */
function hearOf(heed, exercises, { exercise, pain = {}, note = "" }, on, at = "") {
  const last = exercises.get(exercise);
  const sign = signIn(heed, note);
  const worst = Object.fromEntries(Object.entries(pain).filter(([, score]) => score > STOP || sign));
  const words = painWords(worst, sign);
  exercises.set(exercise, { words: words || (last?.on === on ? last.words : ""), on, at });
}

/** A row of the sheet after what she said; the same where nothing is different from the card. */
export function saidRow(session, row, stop) {
  const before = session.day.state.said;
  const slept = Boolean(session.said.short_sleep) - Boolean(before.short_sleep);
  const spare = isSpared(session, stop) && !isSpared({ said: before }, stop);
  return row && row.loads.length && (slept || spare) ? replanned(row, stop, slept * session.day.sheet.short_sleep, spare) : row;
}

/** The row with strength shifted, and with a joint spared: of written loads too, and of a test set. */
function replanned(row, stop, shift, spare) {
  const steps = new Map();
  const blocks = row.blocks.map((block) => {
    const alone = block.of == null;
    const held = alone && spare ? block.spare ?? 0 : alone && !block.fixed ? morning(row, block, shift) : block.follows?.[steps.get(block.of)] ?? block.held;
    steps.set(block.block, held);
    return { ...block, held, most: block.most + held - block.held, fixed: block.fixed || (alone && spare) };
  });
  const [first] = row.blocks;
  const lighter = first ? row.loads[first.held] - row.loads[steps.get(first.block)] : 0;
  const sets = row.sets.map((one) => {
    const tested = spare && stop.sets[one.key]?.test;
    const rung = one.rung == null ? null : steps.get(one.block) ?? (tested ? one.spare ?? 0 : atMost(row.loads, row.loads[one.rung] - lighter));
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

/** The step lighter for a sore joint: a fifth less, and less than now where there is less. */
export const sparing = (eased, rung) => Math.max(0, Math.min(eased?.spare ?? 0, rung - 1));

/** The heaviest step up to a load. */
const atMost = (loads, load) => Math.max(0, loads.filter((one) => one <= load).length - 1);
