// What is heeded all day: warning signs in notes made here, and signs of muscle breakdown, by sets
// the server knew and those made here since.
import { localDay } from "./outbox.js";
import { foundIn } from "./said.js";

const before = (date, days) => {
  const noon = new Date(`${date}T12:00:00`);
  noon.setDate(noon.getDate() - days);
  return localDay(noon);
};

/** Days of the working sets made here that the cards do not hold yet. */
function daysHere(entries) {
  const gone = new Set(entries.map((one) => one.replaces).filter(Boolean));
  return entries.filter((one) => one.kind === "set" && !gone.has(one.id) && !one.refused && one.body.kind !== "warm-up").map((one) => one.day);
}

/** Whether they are told on a date: new work on it, or up to so many days before. */
export function isDue({ for_days, days }, entries, date) {
  if (days[date]?.due) return true;
  const here = daysHere(entries);
  const oldest = before(date, for_days);
  return [...new Set(here)].some((day) => oldest <= day && day <= date && isNew(days[day], here, day));
}

/** Whether a day is new work by the sets made here: the week up to it, or the first after a break. */
function isNew(row, here, day) {
  const from = before(day, 7);
  const week = here.filter((one) => from < one && one <= day).length;
  return Boolean(row) && ((row.jump !== null && week >= row.jump) || (row.back && here.every((one) => one >= day)));
}

/** Whether a note of the day, written here, names a warning sign. */
function isFlagged({ day, date, note }, entries) {
  const gone = new Set(entries.map((one) => one.replaces).filter(Boolean));
  const sets = entries.filter((one) => one.kind === "set" && one.day === date && !gone.has(one.id) && !one.refused);
  return [note, ...sets.map((one) => one.body.note)].some((words) => foundIn(day.heed.signs, words));
}

/** What is to be heeded all day, emergencies all. */
export const dayCautions = (session, cards, entries) => [
  ...new Set([
    ...(isFlagged(session, entries) ? [session.day.heed.help] : []),
    ...session.day.cautions,
    ...(isDue(cards.care, entries, session.date) ? [cards.care.text] : []),
  ]),
];
