// After the session: what was learned and what changes next time, by look-up; never a grade.
import { h } from "./dom.js";
import { field, quiet } from "./draw.js";
import { against, forecast, indexOf, isRamp, keysOf, setOf, shiftsOf, standing, stepOf, stopOf } from "./session.js";
import { onBands, plural } from "./views.js";

/** Every exercise done: what its sets said, and the step it goes to. */
export function afterwards(session, cards) {
  const { shifts, surprises } = shiftsOf(session);
  return session.order.flat().flatMap((index) => {
    const stop = stopOf(session, index);
    const done = keysOf(session).filter((key) => indexOf(key) === index && !isRamp(key) && session.done.has(key)).map((key) => session.done.get(key));
    if (!done.length) return [];
    const known = session.day.after;
    const name = onBands(stop.item) ? `${stop.name} · ${stop.on}` : stop.name; // a scale of its own
    if (!done.some((one) => one.local)) return [{ name, learned: known.learned[stop.exercise], next: known.next[stop.exercise] }];
    const told = done.filter((one) => surprises.has(one.key)); // holds have nothing likely to be over
    const over = told.reduce((sum, one) => sum + surprises.get(one.key).over, 0);
    const next = session.swaps.has(index) ? {} : nextTime(session, index, shifts.get(`${index}.next`) ?? 0, cards);
    return [{ name, over, learned: told.length ? learnedWords(over, told.length) : "", ...next }];
  });
}

/** What was seen, as it was; how strong that makes her is worked out in the records. */
function learnedWords(over, count) {
  const sets = plural(count, "set");
  return over ? `${sets}: ${plural(Math.abs(over), "rep")} ${over > 0 ? "over" : "under"} what was likely, in all` : `${sets}, in all as was likely`;
}

/** The step of its first working sets the next time: held, or moved by the rule of the morning. */
function nextTime(session, index, shift, cards) {
  const [row, stop] = [session.day.rows[index], stopOf(session, index)];
  const block = row.blocks.find((one) => one.of == null);
  const sets = block ? row.sets.filter((one) => one.block === block.block) : [];
  const first = sets.find((one) => session.done.get(one.key)?.local);
  if (!first?.limits || block.fixed) return {};
  const held = stepOf(stop.steps, first, session.done.get(first.key).body);
  const open = sets.filter((one) => one.limits).map((one) => {
    const { limits, ...rest } = against(row, one, shift, false);
    return { ...rest, limits: { ...limits, light: limits.passed } };
  });
  const step = forecast({ ...block, held, most: block.most + held - block.held }, open, held, "enough");
  const way = step > held ? "heavier" : step < held ? "lighter" : "the same";
  const words = `${stop.steps[step].line}, ${way}${step === held ? "" : ` than ${stop.steps[held].line}`}`;
  return { step, held, next: [words, cards.next[way]] };
}

/** How long it took and how much of it was done: “18 of 20 working sets · 64 min, planned 60 min”. */
export function took(session) {
  const hard = keysOf(session).filter((key) => setOf(session, key).kind !== "warm-up");
  const done = hard.filter((key) => standing(session, key) === "done").length;
  const times = [...session.done.values()].filter((one) => one.at.includes("T")).map((one) => Date.parse(one.at));
  const minutes = Math.round((Math.max(...times) - Math.min(...times)) / 60000);
  const sets = `${done} of ${plural(hard.length, "working set")}`;
  return times.length > 1 ? `${sets} · ${minutes} min, planned ${session.day.minutes} min` : sets;
}

/** What is news row by row, and all that is as before in one. */
function newsOf(title, news, calm, still) {
  const rows = news.map(([name, ...lines]) => h("li", {}, h("h3", {}, name), lines.map((line, i) => h("p", i ? { class: "s" } : {}, line))));
  if (still.length) rows.push(h("li", {}, h("h3", {}, calm), h("p", {}, still.join(", "))));
  return rows.length > 0 && [h("h2", {}, title), h("ul", { class: "list" }, rows)];
}

/** The look back, before it is closed and after. */
export function drawAfter(session, cards, reached) {
  const seen = afterwards(session, cards);
  const [next, learned] = [seen.filter((one) => one.next), seen.filter((one) => one.learned)];
  const same = (one) => one.next[0].endsWith(", the same");
  return [
    h("p", { class: "s" }, took(session)),
    newsOf("Next time", next.filter((one) => !same(one)).map((one) => [one.name, ...one.next]), "The same load", next.filter(same).map((one) => `${one.name} ${one.next[0].split(", ")[0]}`)),
    newsOf("Learned", learned.filter((one) => one.over !== 0).map((one) => [one.name, one.learned]), "As was likely", learned.filter((one) => one.over === 0).map((one) => one.name)),
    session.finished
      ? session.note && [h("h2", {}, "Your note"), h("p", {}, session.note)]
      : field("a-note", "A note on the session, if you like"),
    session.finished && reached
      ? h("p", { class: "gap" }, h("a", { class: "quiet", href: `/review/${session.date}` }, "look back, with how sure each is"))
      : session.finished && h("p", { class: "s gap" }, "How sure each of these is, the records say once they are in reach."),
  ];
}
