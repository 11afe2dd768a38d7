// What the phone keeps: entries she made, until the records have them, and the cards it took along.

const NAME = "pennate";
const BATCH = 200;
const FORM = 4; // of the cards: those of another release are not used

const asked = (request) =>
  new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

const finished = (transaction) =>
  new Promise((done, failed) => {
    transaction.oncomplete = () => done();
    transaction.onabort = transaction.onerror = () => failed(transaction.error);
  });

/** An identifier of version 7 (RFC 9562): milliseconds, then chance. */
export function uuid7(now = Date.now()) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let rest = now;
  for (let i = 5; i >= 0; i -= 1) {
    bytes[i] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** A date of the phone's own calendar. */
export function localDay(now = new Date()) {
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** A moment as the log writes it: the local time without its zone. */
export function localTime(now = new Date()) {
  return `${localDay(now)}T${now.toTimeString().slice(0, 8)}`;
}

export class Outbox {
  constructor(base) {
    this.base = base;
    this.latest = 0;
    this.position = 0; // of the records, as far as they were heard of
    this.channel = "BroadcastChannel" in self ? new BroadcastChannel(NAME) : null;
  }

  /** Open the store; it is made where there is none. */
  static async open() {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "id" });
      request.result.createObjectStore("kept");
    };
    return new Outbox(await asked(request));
  }

  /** A new entry; each is made later than the one before, whatever the clock does. */
  entry(kind, day, body, replaces = null) {
    this.latest = Math.max(Date.now(), this.latest + 1);
    const made = new Date(this.latest).toISOString();
    return { id: uuid7(this.latest), kind, day, made_at: made, replaces, body, sent: 0 };
  }

  /** Store entries; the write is handed over before this returns, and resolves when it is kept. */
  add(...entries) {
    const transaction = this.base.transaction("entries", "readwrite", { durability: "strict" });
    for (const entry of entries) transaction.objectStore("entries").put(entry);
    transaction.commit?.();
    const tell = () => this.channel?.postMessage("entries");
    tell(); // with the write, since this tab may die now; and after it, since word may come first
    return finished(transaction).then(tell);
  }

  /** Every entry on the phone, in the order made. */
  async entries() {
    const all = await asked(this.base.transaction("entries").objectStore("entries").getAll());
    this.latest = Math.max(this.latest, ...all.map((one) => Date.parse(one.made_at)));
    return all.sort((a, b) => (a.made_at < b.made_at ? -1 : 1));
  }

  /** Something kept under a name. */
  get(name) {
    return asked(this.base.transaction("kept").objectStore("kept").get(name));
  }

  /** Keep something under a name. */
  put(name, value) {
    const transaction = this.base.transaction("kept", "readwrite");
    transaction.objectStore("kept").put(value, name);
    return finished(transaction);
  }

  /** Send what waits, one sender at a time; gives what now stands twice, or null out of reach. */
  send() {
    const work = () => this.sendAll();
    return navigator.locks ? navigator.locks.request("pennate-send", work) : work();
  }

  async sendAll() {
    let told = null;
    const waiting = (await this.entries()).filter((one) => !one.sent && !one.refused);
    for (let at = 0; at < waiting.length; at += BATCH) {
      const batch = waiting.slice(at, at + BATCH);
      told = await this.post(batch.map(bare));
      if (!told) return null;
      await this.answered(batch, told);
    }
    told ??= await this.ask();
    if (told) await this.put("doubled", told.doubled);
    this.position = told?.position ?? this.position;
    return told?.doubled ?? null;
  }

  /** Nothing waits here: hear whether another device made something stand twice. */
  async ask() {
    const { position } = fits(await this.get("cards")) ?? { position: 0 };
    return this.fetched(`/api/entries?limit=1&after=${position}`);
  }

  post(entries) {
    const headers = { "content-type": "application/json" };
    return this.fetched("/api/entries", { method: "POST", headers, body: JSON.stringify({ entries }) });
  }

  /** What the server answers; null out of reach: everything stays here and is tried again. */
  async fetched(path, how) {
    if (navigator.onLine === false) return null;
    try {
      const reply = await fetch(path, how);
      this.forgotten = reply.status === 403; // not paired, or no longer
      return reply.ok ? await reply.json() : null;
    } catch {
      return null;
    }
  }

  async answered(batch, { answers, position }) {
    const transaction = this.base.transaction("entries", "readwrite");
    batch.forEach((entry, i) => {
      const { fate, why } = answers[i];
      const answer = fate === "refused" ? { refused: why } : { sent: 1, at: position };
      transaction.objectStore("entries").put({ ...entry, ...answer });
    });
    await finished(transaction);
    this.channel?.postMessage("entries");
  }

  /** Get fresh cards and put them by as the next ones to use; null out of reach. */
  async fetchCards(days) {
    const whole = await this.fetched(`/api/cards?days=${days}`);
    if (!fits(whole)) return null;
    const old = fits(await this.get("next")) ?? fits(await this.get("cards"));
    if (old?.generation === whole.generation && whole.position < old.position) return null; // overtaken: its entries may be gone here
    if (old && days < 7) whole.days = merged(old.days, whole);
    await this.put("next", whole);
    return whole;
  }

  /** Begin to use the cards put by, and forget the entries they contain. */
  async adopt() {
    const next = fits(await this.get("next"));
    if (!next) return fits(await this.get("cards"));
    const old = await this.get("cards");
    const transaction = this.base.transaction(["entries", "kept"], "readwrite");
    const entries = transaction.objectStore("entries");
    for (const one of await asked(entries.getAll())) {
      if (old && old.generation !== next.generation) entries.put({ ...one, sent: 0 });
      else if (one.sent && one.at <= next.position) entries.delete(one.id);
    }
    transaction.objectStore("kept").put(next, "cards");
    transaction.objectStore("kept").delete("next");
    await finished(transaction);
    return next;
  }

  /** Refused entries go back to waiting, to be sent again after what was wrong is mended. */
  async retry() {
    const refused = (await this.entries()).filter((one) => one.refused);
    if (refused.length) await this.add(...refused.map(({ refused: _, ...one }) => one));
  }
}

const fits = (cards) => (cards?.form === FORM ? cards : null);

function merged(old, fresh) {
  const days = new Set(fresh.days.map((one) => one.day));
  return [...fresh.days, ...old.filter((one) => !days.has(one.day) && one.day > fresh.today)];
}

const bare = ({ id, kind, day, made_at, replaces, body }) => ({ id, kind, day, made_at, replaces, body });

const COLUMNS = (
  "id,date,session,set,exercise,kind,load,unit,reps,rir,rest_s,seconds,side,load_is,group,round," +
  "equipment,variant,style,aids,pain,as_asked,body_mass_kg,settings,note,card_key"
).split(",");

/** Sets that wait, as a training log that `pennate import` takes. */
export function asLog(entries) {
  const gone = new Set(entries.map((one) => one.replaces).filter(Boolean));
  const sets = entries.filter((one) => one.kind === "set" && !gone.has(one.id));
  const lines = sets.map((one) => COLUMNS.map((name) => cell(column(one, name))).join(","));
  return [COLUMNS.join(","), ...lines, ""].join("\r\n");
}

function column({ id, body }, name) {
  if (name === "id") return id;
  if (name === "card_key") return body.extra?.card_key ?? "";
  if (name === "as_asked") return body.as_asked ? "1" : "";
  if (name === "aids") return (body.aids ?? []).join(";");
  if (name === "pain") return Object.entries(body.pain ?? {}).map((pair) => pair.join(":")).join(";");
  return body[name] ?? "";
}

function cell(value) {
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
