// The Floor on the phone: what is touched becomes an entry at once, kept here and sent when it can be.
import { dayCautions } from "./care.js";
import { countRest, countUp, keepAwake, readySignal, switchSignal, wantsSignal } from "./comfort.js";
import { render } from "./dom.js";
import { ALARM, chosen, drawAlarm, drawCare, drawSet, valueOf } from "./draw.js";
import { asLog, localDay, localTime, Outbox } from "./outbox.js";
import { hurting, painWords, SHARP, signIn, sparing } from "./said.js";
import { fold, indexOf, lastDone, nextKey, nextNumber, setOf, stopOf } from "./session.js";
import { toFit } from "./time.js";
import { ASKING, drawNothing, drawSession } from "./today.js";
import { beatsOf, rowBlock, setNow, viewOf } from "./views.js";

const PAUSE_MS = 1000;
const PAINT_MS = 150;
const AGAIN_MS = 30000;
const HEAR_MS = 4000; // longest that Start waits to hear whether the records have gone on
const WAIT_MS = 11000; // and then for fresh loads, where those carried are old
const LATE_S = 20; // a shorter rest where half a minute or more was asked: a set written down late
const LONG_S = 30;
const OPENING = new Set(["set", "decision", "readiness"]); // what begins a session
const page = document.getElementById("page");
const care = document.getElementById("care");
const stand = document.getElementById("stand");

const ui = { mode: "floor", panel: "", stop: null, effort: null, rung: null, pain: null, wrong: "", typed: null, stopCount: null, counted: null, used: 0 };
const state = { outbox: null, cards: null, entries: [], doubled: [], made: 0, reached: true, asks: false, chosen: null, closedAt: -Infinity };

function clear() {
  ui.stop = null;
  if (ui.touched) ui.used += 1; // what she opened is shut again for the next set
  ui.touched = false;
  ui.stopCount?.();
  Object.assign(ui, { panel: "", effort: null, rung: null, pain: null, wrong: "", typed: null, stopCount: null, counted: null });
}

/** The session she is in, or would be in today; folded anew only when something changed. */
function current() {
  const today = localDay();
  const stand = [state.entries, state.entries.length, state.cards, state.chosen, today];
  if (!state.folded || stand.some((one, i) => one !== state.folded.stand[i])) {
    state.folded = { stand, session: folded(today) };
  }
  return state.folded.session;
}

function folded(today) {
  const begun = state.entries.findLast((one) => one.kind === "session" && one.day === today)?.body.weekday;
  const weekday = begun ?? (state.chosen?.day === today ? state.chosen.weekday : null);
  const days = state.cards?.days ?? [];
  const day = weekday
    ? days.find((one) => one.weekday === weekday && one.day === today) ?? days.find((one) => one.weekday === weekday)
    : days.find((one) => one.day === today);
  return day ? fold(day, state.entries, today) : null;
}

function make(session, kind, body, replaces = null) {
  return state.outbox.entry(kind, session.date, kind === "decision" || kind === "session" ? { weekday: session.day.weekday, ...body } : body, replaces);
}

/** Keep entries: handed to the store before anything is drawn. */
function keep(session, ...entries) {
  if (!session.opened && entries.some((one) => OPENING.has(one.kind))) {
    entries.unshift(make(session, "session", { event: "opened" }));
  }
  const kept = state.outbox.add(...entries);
  state.made += 1;
  state.entries.push(...entries);
  stand.textContent = "Saving on this phone";
  kept.then(() => setTimeout(() => (tell(), sync()), PAINT_MS)); // the next set is painted first
}

function decide(what, body = {}) {
  const session = current();
  keep(session, make(session, "decision", { what, ...body }));
  clear();
  draw();
}

/** Decide about a stop, and keep the focus there. */
function at(stop, decision) {
  decision();
  document.getElementById(`stop${stop}`)?.focus({ preventScroll: true });
}

const act = {
  session: () => show("session"),
  floor: () => show("floor"),
  finish: () => {
    const session = current();
    keep(session, make(session, "session", { event: "finished", note: valueOf("a-note") }));
    show("session");
  },
  lookBack: () => {
    show("session");
    ui.after = true;
    draw();
    scrollTo(0, 0);
  },
  openStop: (stop) => {
    ui.stop = ui.stop === stop ? null : stop;
    draw();
  },
  panel: (name) => {
    ui.panel = ui.panel === name ? "" : name;
    draw();
    document.querySelector("#ask h2")?.focus({ preventScroll: true });
    document.getElementById("ask")?.scrollIntoView();
  },
  effort: (value) => (ui.effort = value),
  opened: (event) => event.target.open && (ui.touched = true),
  moveTo: (rung) => {
    ui.rung = rung;
    draw();
  },
  signal: () => {
    switchSignal();
    draw();
  },
  close: (said) => closeSet(said),
  undo: () => {
    const session = current();
    const last = lastDone(session);
    const stop = last && indexOf(last.key);
    const again = session.skipped.has(stop) ? [make(session, "decision", { what: "take up", stop })] : [];
    if (last) keep(session, make(session, "retraction", { why: "undone at once" }, last.id), ...again);
    clear();
    draw();
  },
  keep: () => decide("keep load", { key: nextKey(current()) }),
  skip: () => {
    const stop = indexOf(nextKey(current()));
    const exercise = stopOf(current(), stop).exercise;
    const { where, score, alarming } = ui.pain ?? {};
    const pain = where && where !== "muscle" ? { [where]: score } : {};
    const told = ui.pain ? { exercise, pain, note: remarks() } : {};
    if (where && where !== "muscle") act.say(hurting(current(), pain, alarming)); // counts for the others too
    decide("skip", { stop, ...told });
  },
  skipStop: (stop) => at(stop, () => decide("skip", { stop })),
  takeUp: (stop) => at(stop, () => decide("take up", { stop })),
  move: (stop, by) => at(stop, () => moveStop(stop, by)),
  later: () => moveStop(indexOf(nextKey(current())), 1),
  swap: (one, reason = "taken") => decide("swap", { stop: one.stop.index, exercise: one.exercise, item: one.item, reason }),
  ask: (what) => {
    ui.panel = ui.panel === what ? "" : what;
    draw();
    document.querySelector("#ask")?.scrollIntoView({ block: "nearest" });
  },
  say: (more, panel = "") => {
    const session = current();
    if (more.ill !== undefined) state.place = ""; // the sets themselves are others then: fresh cards
    keep(session, spoken(session, more));
    ui.panel = panel;
    draw();
  },
  correct: (joint, stop) => at(stop, () => act.say(hurting(current(), { [joint]: Number(chosen(`was ${joint}`)) }, document.getElementById(`sharp ${joint}`).checked, true))),
  instead: (one) => at(one.stop.index, () => act.swap(one, "taste")),
  plannedAgain: (stop) => at(stop.index, () => decide("swap", { stop: stop.index, exercise: stop.exercise, item: "", reason: "" })),
  shorten: (minutes, said = {}) => {
    const session = current();
    if ("ill" in said && session.said.ill) state.place = "";
    const keys = minutes === null ? [] : toFit(session, minutes);
    const fit = keys.length || session.leftOut.size ? [make(session, "decision", { what: "leave out", keys })] : [];
    keep(session, make(session, "readiness", { ...session.said, ...said, minutes }), ...fit);
    clear();
    show("session"); // where she sees what is left out
  },
  notes: (said) => {
    const session = current();
    const stop = stopOf(session, indexOf(nextKey(session)));
    keep(session, make(session, "note", { exercise: stop.exercise, item: stop.item, ...said }));
    Object.assign(stop, { settings: Object.entries(said.settings), own_cue: said.cue, cue: said.cue || stop.cue, next_time: said.next_time });
    ui.panel = "";
    draw();
  },
  hurts: ({ where, score, alarming }) => {
    if (!where || score === "") return;
    const words = state.cards.pain;
    const bad = alarming || Number(score) > 5;
    const rule = bad ? words.stop : Number(score) >= 3 ? words.reduce : words.go_on;
    ui.pain = { where, score: Number(score), bad, alarming, words: `${where[0].toUpperCase()}${where.slice(1)}: ${rule}` };
    draw();
    const answer = document.getElementById("answer");
    answer.focus({ preventScroll: true });
    answer.scrollIntoView({ block: "nearest" });
  },
  spare: () => {
    const { session, key, planned, rung } = setNow(current(), ui);
    if (rung !== null) ui.rung = sparing(rowBlock(session, key) ?? planned, rung);
    ui.panel = "";
    draw();
  },
  alarm: () => {
    const session = current();
    keep(session, make(session, "session", { event: "finished", note: ALARM }));
    clear();
    show("alarm");
  },
  mistake: () => {
    const session = current();
    keep(session, make(session, "session", { event: "opened" }));
    show("floor");
  },
  count: () => {
    if (ui.stopCount) {
      ui.counted = ui.stopCount();
      ui.stopCount = null;
      draw();
    } else {
      ui.stopCount = () => 0;
      draw();
      ui.stopCount = countUp(document.getElementById("count"), beatsOf(setNow(current(), ui).set));
    }
  },
  takeBack: (one, id) => {
    keep({ ...current(), date: one.day, opened: true }, state.outbox.entry("retraction", one.day, { why: "logged on two devices" }, id));
    act.bothDone(one);
  },
  again: () => {
    stand.textContent = "Trying to reach the server";
    sync().then(() => fetching).then(draw);
  },
  bothDone: (one) => {
    const seen = [...(JSON.parse(localStorage.getItem("seen") ?? "[]")), one.ids.join()];
    localStorage.setItem("seen", JSON.stringify(seen));
    tell();
  },
  saveFile: () => {
    const waiting = state.entries.filter((one) => !one.sent);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([asLog(waiting)], { type: "text/csv" }));
    link.download = `waiting-${localDay()}.csv`;
    link.click();
    URL.revokeObjectURL(link.href);
  },
};

function closeSet({ amount, typed, load, unit, counts, note = valueOf("o-note") }) {
  if (performance.now() - state.closedAt < PAUSE_MS) return;
  const at = setNow(current(), ui);
  const { session, key, set, stop } = at;
  if (!key) return;
  const held = set.closing.unit === "seconds";
  const wrong = wrongly(typed, load, held ? 3600 : 200);
  if (wrong) {
    Object.assign(ui, { wrong, typed: { typed, load, note } });
    draw();
    return;
  }
  state.closedAt = performance.now();
  readySignal();
  const body = { ...set.entry, date: localTime(), set: nextNumber(session), exercise: stop.exercise, extra: { card_key: key } };
  if (stop.item) body.equipment = stop.item;
  putLoad(body, at.load);
  if (load) Object.assign(body, { load: load.replace(",", ".").replace("−", "-"), unit, load_is: counts });
  const number = typed ? Number(typed) : amount ?? (held ? ui.counted : null);
  if (number != null) body[held ? "seconds" : "reps"] = held ? String(number) : number;
  if (number != null || load || at.byHand) delete body.as_asked;
  putRest(body, session, set);
  if (ui.effort) body.rir = ui.effort;
  const over = putPain(body, session, key, note);
  const done = make(session, "set", body);
  const told = body.pain ? [spoken(session, { ...hurting(session, body.pain, Boolean(signIn(session.day.heed, body.note))), set: done.id })] : []; // counts for the others too
  keep(session, done, ...told, ...over);
  if (scrollY) scrollTo(0, 0); // the next load is what she looks for
  clear();
  adoptReady();
  draw();
}

function wrongly(typed, load, most) {
  if (typed && !(/^\d{1,4}$/.test(typed) && Number(typed) <= most)) return `“${typed}” is not a whole number up to ${most}, like 8`;
  if (load && !/^[-−]?\d{1,4}([.,]\d{1,4})?$/.test(load)) return `“${load}” is not a load, like 42.5`;
  return "";
}

function putLoad(body, load) {
  if (!load.amount || !load.form_unit) return;
  Object.assign(body, { load: load.amount, unit: load.form_unit });
  if (load.load_is !== "total") body.load_is = load.load_is;
}

/** What hurt, with her note; where the pain rule says stop, what is left of the exercise is over. */
function putPain(body, session, key, note) {
  const { where, score, bad } = ui.pain ?? {};
  if (where && where !== "muscle") body.pain = { [where]: score };
  const remark = remarks(note);
  if (remark) body.note = remark;
  const sign = signIn(session.day.heed, remark);
  const because = painWords(body.pain, sign) || remark;
  return bad || sign ? [make(session, "decision", { what: "skip", stop: indexOf(key), because })] : [];
}

/** Her note, and what of the pain no number of a joint says. */
function remarks(note = "") {
  const { where, score, alarming } = ui.pain ?? {};
  return [note, where === "muscle" && `muscle pain ${score} of 10`, alarming && SHARP].filter(Boolean).join("; ");
}

/** What she said before, and more. */
function spoken(session, more) {
  const { short_sleep = false, low_energy = false, ill = "", sore = [], pain = {}, alarming = [], corrected = [] } = session.said;
  return make(session, "readiness", { short_sleep, low_energy, ill, sore, pain, alarming, corrected, ...more, minutes: session.minutes });
}

/** The rest really taken, by this phone's clock; not known where the set was written down late. */
function putRest(body, session, set) {
  const last = lastDone(session)?.at;
  const took = body.seconds ? Number(body.seconds) : body.reps * set.rep_s;
  const rest = last?.includes("T") ? Math.round((Date.now() - new Date(last)) / 1000 - took) : null;
  if (rest === null || (set.rest_s >= LONG_S && rest < LATE_S)) return;
  body.rest_s = String(Math.max(0, rest));
}

function moveStop(stop, by) {
  const session = current();
  const at = session.order.findIndex((run) => run.includes(stop));
  const to = at + by;
  if (to < 0 || to >= session.order.length) return;
  const order = [...session.order];
  [order[at], order[to]] = [order[to], order[at]];
  decide("order", { stops: order.flat() });
}

// Drawing ----------------------------------------------------------------------

function show(mode) {
  ui.mode = mode;
  ui.panel = "";
  ui.after = false;
  draw();
  page.querySelector("h1")?.focus();
}

function draw() {
  const session = current();
  const key = session && nextKey(session);
  const onFloor = ui.mode === "floor" && key && !session.finished;
  const inHand = document.activeElement?.closest(".closing");
  const byKeys = inHand && document.activeElement.matches(":focus-visible");
  document.getElementById("main").classList.toggle("has-hands", Boolean(onFloor));
  if (inHand && !byKeys) document.activeElement.blur(); // now, while nothing is to be laid out anew
  if (ui.mode === "alarm") render(page, drawAlarm(act), "alarm");
  else if (onFloor) render(page, drawSet(viewOf(session, { ...ui, signal: wantsSignal(), heed: heed(session) }, state.cards), act), "set");
  else render(page, whole(session), "session");
  const title = `${page.querySelector("h1")?.textContent ?? "Floor"} · pennate`;
  if (document.title !== title) document.title = title;
  if (byKeys && !document.activeElement?.closest(".closing")) afterPaint(() => page.querySelector(".closing button")?.focus());
  keepAwake(Boolean(onFloor));
  if (onFloor) countRest(document.getElementById("clock"), lastDone(session)?.at, setOf(session, key).rest_s);
}

const afterPaint = (act) => requestAnimationFrame(() => setTimeout(act));

const heed = (session) => dayCautions(session, state.cards, state.entries);

function whole(session) {
  const days = (state.cards?.days ?? []).filter((one) => one.weekday !== session?.day.weekday);
  const choose = (one) => () => {
    state.chosen = { day: localDay(), weekday: one.weekday };
    state.outbox.put("chosen", state.chosen);
    show("session");
  };
  const others = days.map((one) => [one.title, choose(one)]);
  return session ? drawSession(session, state, { ...ui, heed: heed(session) }, act, others) : drawNothing(state, others, act);
}

// Keeping and sending ------------------------------------------------------------

/** The one line at the top; what is to be seen to is named here and told in full at the foot. */
function standWords(waiting, doubled, refused) {
  const counted = (doubled && `${doubled} ${waiting ? "" : "logged "}twice`) || (refused && `${refused} refused`); // one line at 320 px
  if (state.asks) return ASKING;
  const wrong = state.outbox.forgotten ? `${waiting ? "" : "This phone is "}not paired` : counted;
  if (wrong) return `${waiting ? `${waiting} waiting; ` : ""}${wrong}: see below`;
  if (waiting) return `Saved on this phone, ${waiting} waiting`;
  return state.cards ? "Everything is in the records" : "Nothing is stored here yet";
}

/** Say where things stand; the words change, the layout does not. */
function tell() {
  const waiting = state.entries.filter((one) => !one.sent && !one.refused).length;
  const refused = state.entries.filter((one) => one.refused);
  const seen = JSON.parse(localStorage.getItem("seen") ?? "[]");
  const doubled = state.doubled.filter((one) => !seen.includes(one.ids.join()));
  stand.textContent = standWords(waiting, doubled.length, refused.length);
  render(care, drawCare({ doubled, refused: refused.map((one) => one.refused), waiting: waiting + refused.length, forgotten: state.outbox.forgotten }, act));
}

let syncing = null;
let again = false;

/** Send what waits; what is made meanwhile is sent right after, never with the next touch only. */
function sync() {
  again = syncing !== null;
  syncing ??= run().finally(() => {
    syncing = null;
    if (again) sync();
  });
  return syncing;
}

async function run() {
  const told = await state.outbox.send();
  state.reached = told !== null;
  if (told) state.doubled = told;
  await reload();
  tell();
  if (ui.mode === "session" && current()?.finished) draw(); // what leads to the records
  if (told) Promise.resolve(freshCards()).then(freshWeek);
}

let fetching = null;

/** Fresh cards take the server a while: nothing that is sent or said waits for them. */
function freshCards() {
  if (needsCards()) fetching ??= fetchCards().finally(() => (fetching = null));
  return fetching;
}

async function fetchCards() {
  state.ready = Boolean(await state.outbox.fetchCards(1)) || state.ready;
  if (!state.cards || waits()) await adoptReady();
}

/** Whether she looks at a session not begun, of sets that do not know yet whether she is or was ill. */
function waits() {
  const session = current();
  return ui.mode === "session" && session?.done.size === 0 && (session.said.ill ?? "") !== (session.day.state.said.ill ?? "");
}

/** Fresh cards are asked for when none are here, of another day, or an exercise is over. */
function needsCards() {
  const session = current();
  const key = session && nextKey(session);
  const place = `${session?.date} ${key ? indexOf(key) : "end"}`;
  const moved = place !== state.place;
  state.place = place;
  return !state.cards || moved;
}

/** Read the entries anew; once more if she made one meanwhile, so that none is out of sight. */
async function reload() {
  let entries;
  let made;
  do {
    made = state.made;
    entries = await state.outbox.entries();
  } while (made !== state.made);
  state.entries = entries;
}

const soon = (one, limit) => Promise.race([one, new Promise((late) => setTimeout(late, limit))]);

/** Whether a session is to be begun with loads of another day, or from before the records went on. */
function isOld() {
  const { made_at, position } = state.cards;
  return made_at.slice(0, 10) !== localDay() || state.outbox.position > position;
}

/** Opened or come back to: loads that may be old are asked for anew, and Start waits for them. */
async function askFirst() {
  const session = current();
  state.asks = ui.mode === "session" && Boolean(session) && !session.opened && !session.done.size;
  if (state.asks) state.place = "";
  draw();
  tell();
  await soon(sync(), HEAR_MS);
  if (state.asks && state.reached && isOld()) await soon(fetching, WAIT_MS);
  state.asks = false;
  if (ui.mode === "session") await adoptReady();
  draw();
  tell();
}

/** Begin to use fresh cards where they are there: at a touch of hers, never under her thumb. */
async function adoptReady() {
  if (!state.ready) return;
  state.ready = false;
  const cards = await state.outbox.adopt();
  await reload();
  state.cards = cards;
  draw(); // what is shown is what a touch records
  tell();
  if (state.entries.some((one) => !one.sent && !one.refused)) sync(); // records of another kind: all goes again
}

/** See what another tab did. */
const follow = () => reload().then(draw).then(tell);

async function begin() {
  state.outbox = await Outbox.open();
  state.cards = (await state.outbox.adopt()) ?? null;
  state.doubled = (await state.outbox.get("doubled")) ?? [];
  state.chosen = (await state.outbox.get("chosen")) ?? null;
  await reload();
  if (!lastDone(current() ?? { done: new Map() })) ui.mode = "session";
  draw();
  tell();
  page.dataset.ready = "1";
  document.getElementById("plain").hidden = isSecureContext;
  state.outbox.channel?.addEventListener("message", follow);
  addEventListener("online", sync);
  document.addEventListener("visibilitychange", () => follow().then(document.hidden ? sync : askFirst));
  setInterval(sync, AGAIN_MS);
  navigator.storage?.persist?.(); // may ask her; nothing waits for her answer
  if ("serviceWorker" in navigator) await navigator.serviceWorker.register("/sw.js");
  await askFirst();
  await fetching;
  if (ui.mode === "session") await adoptReady();
  draw();
  await freshWeek();
  if (state.ready && ui.mode === "session") await adoptReady();
}

let weekly = null;

/** All seven days, once a day, so that the phone can be out of reach for a week; where it failed,
 *  or the page stays open over days, with the next that is sent. */
function freshWeek() {
  weekly ??= fetchWeek().finally(() => (weekly = null));
  return weekly;
}

async function fetchWeek() {
  if (state.reached && (await state.outbox.get("week")) !== localDay() && (await state.outbox.fetchCards(7))) {
    await state.outbox.put("week", localDay());
    state.ready = true;
    if (ui.mode === "session") await adoptReady();
  }
  page.dataset.week = (await state.outbox.get("week")) ?? "";
}

begin();
