// When the signs of muscle breakdown are told: by sets the server knew, and those made here since.
import { localDay } from "./outbox.js";

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

/** What is to be heeded all day, emergencies all. */
export const dayCautions = (session, cards, entries) => [...session.day.cautions, ...(isDue(cards.care, entries, session.date) ? [cards.care.text] : [])];
