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
  for (let ago = 0; ago <= for_days; ago += 1) {
    const day = before(date, ago);
    const row = days[day];
    const week = here.filter((one) => before(day, 7) < one && one <= day).length;
    const first = here.every((one) => one >= day);
    if (row && here.includes(day) && ((row.jump !== null && week >= row.jump) || (row.back && first))) return true;
  }
  return false;
}

/** What is to be heeded all day, emergencies all. */
export const dayCautions = (session, cards, entries) => [...session.day.cautions, ...(isDue(cards.care, entries, session.date) ? [cards.care.text] : [])];
