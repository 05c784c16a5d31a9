// @ts-check
/**
 * What was typed and is not yet acknowledged, kept on this device in order and sent in order.
 *
 * An entry is in IndexedDB before the page says that it is kept, and leaves it only when the server has it on its
 * disk. Each carries its own mark, so that one sent twice (the answer was lost, not the change) is kept once.
 */
import { Offline, Refused, call, query, seg } from "./api.js";

/**
 * @typedef {{key?: number, job: string, change: string, base: number, what: "patch" | "photo", patch?: any[], message?: string,
 *   scheme?: string | null, schemeName?: string | null, kind?: string, finding?: string | null, cost?: string | null, inline?: boolean,
 *   blob?: Blob, name?: string, attached?: string}} Entry
 */

const NAME = "halfdrop-outbox";

/** @returns {Promise<IDBDatabase>} */
function open() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("entries", { keyPath: "key", autoIncrement: true });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

/** @template T @param {IDBDatabase} base @param {IDBTransactionMode} mode @param {(store: IDBObjectStore) => IDBRequest<T>} ask @returns {Promise<T>} */
function inStore(base, mode, ask) {
  return new Promise((resolve, reject) => {
    const turn = base.transaction("entries", mode, { durability: "strict" });
    const asked = ask(turn.objectStore("entries"));
    turn.oncomplete = () => resolve(asked.result);
    turn.onerror = turn.onabort = () => reject(turn.error);
  });
}

export class Outbox {
  /** @param {{author: () => string, changed: () => void, acknowledged: (entry: Entry, answer: any) => void, refused: (entry: Entry, error: Refused) => void, line: (up: boolean) => void}} on */
  constructor(on) {
    this.on = on;
    /** @type {Entry[]} */
    this.entries = [];
    /** @type {Map<Entry, {resolve: (v: any) => void, reject: (e: any) => void}>} */
    this.waiting = new Map();
    /** @type {Map<Entry, Promise<void>>} being written on the device */
    this.storing = new Map();
    this.sending = false;
    this.ready = this.#load();
    addEventListener("online", () => this.send());
    setInterval(() => this.entries.length && this.send(), 3000);
  }

  async #load() {
    try {
      this.base = await open();
      this.entries = [...(await inStore(this.base, "readonly", (store) => store.getAll())), ...this.entries];
    } catch (fault) {
      console.warn("this browser keeps nothing on the device; what is typed waits in the open page", fault);
    }
    setTimeout(() => {
      this.on.changed();
      this.send();
    }, 0);
  }

  /** What is under way of a job, the last typed included. @param {string} job */
  of(job) {
    return this.entries.filter((entry) => entry.job === job);
  }

  /** How many entries are on the device. @param {string} [job] */
  kept(job) {
    return this.entries.filter((entry) => entry.key !== undefined && (!job || entry.job === job)).length;
  }

  /**
   * Keep an entry: in the queue at once, so that what is typed next stands on it; then on the device; then sent.
   * Resolves when it is on the device; `sent` with the server's answer, whenever that comes.
   * @param {Omit<Entry, "change">} entry
   * @returns {Promise<{sent: Promise<any>}>}
   */
  async put(entry) {
    const whole = /** @type {Entry} */ ({ ...entry, change: mark() });
    this.entries.push(whole);
    const sent = new Promise((resolve, reject) => this.waiting.set(whole, { resolve, reject }));
    sent.catch(() => {});
    const stored = this.#store(whole);
    this.storing.set(whole, stored);
    await stored;
    this.storing.delete(whole);
    this.on.changed();
    this.send();
    return { sent };
  }

  /** @param {Entry} entry */
  async #store(entry) {
    await this.ready;
    if (!this.base) return;
    try {
      entry.key = Number(await inStore(this.base, "readwrite", (store) => store.add(entry)));
    } catch (fault) {
      console.warn("not kept on the device, only in the open page", fault);
    }
  }

  async send() {
    await this.ready;
    if (this.sending) return;
    this.sending = true;
    try {
      while (this.entries.length) {
        const entry = this.entries[0];
        await this.storing.get(entry);
        let answer;
        try {
          answer = await deliver(entry, this.on.author());
          this.on.line(true);
        } catch (fault) {
          if (fault instanceof Refused && (fault.status < 500 || fault.kind === "bug") && fault.status !== 401 && fault.status !== 429) {
            await this.#drop(entry);
            this.#settle(entry, null, fault);
            this.on.refused(entry, fault);
            continue;
          }
          if (!(fault instanceof Offline) && !(fault instanceof Refused)) throw fault;
          this.on.line(false);
          return;
        }
        await this.#drop(entry, () => {
          this.#advance(entry, answer);
          this.on.acknowledged(entry, answer);
        });
        this.#settle(entry, answer, null);
      }
    } finally {
      this.sending = false;
      this.on.changed();
    }
  }

  /** What follows was made on top of this entry, where nobody else came between. @param {Entry} entry @param {any} answer */
  #advance(entry, answer) {
    if (entry.what !== "patch" || answer.revision !== entry.base + 1) return;
    for (const later of this.entries) if (later.job === entry.job && later.base === entry.base) later.base = answer.revision;
  }

  /** @param {Entry} entry @param {any} answer @param {Refused | null} error */
  #settle(entry, answer, error) {
    const wait = this.waiting.get(entry);
    this.waiting.delete(entry);
    if (error) wait?.reject(error);
    else wait?.resolve(answer);
  }

  /** Let an entry go, and in the same breath do what follows from it. @param {Entry} entry @param {() => void} [then] */
  async #drop(entry, then) {
    const { base } = this, { key } = entry;
    if (base && key !== undefined) await inStore(base, "readwrite", (store) => store.delete(key));
    this.entries = this.entries.filter((other) => other !== entry);
    then?.();
  }
}

/** A mark of a change, so that one sent twice is kept once. */
export function mark() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
}

/** @param {Entry} entry @param {string} author */
function deliver(entry, author) {
  const job = `/api/jobs/${seg(entry.job)}`;
  if (entry.what === "photo") {
    const headers = {
      "Content-Type": entry.blob?.type || "image/jpeg",
      "Halfdrop-Name": encodeURIComponent(entry.name || "photo"),
      "Halfdrop-Attached": encodeURIComponent(entry.attached || ""),
    };
    return call("POST", `${job}/files`, { body: entry.blob, headers });
  }
  const headers = {
    "Content-Type": "application/json-patch+json",
    "If-Match": `"${entry.base}"`,
    "Halfdrop-Author": encodeURIComponent(author),
    "Halfdrop-Message": encodeURIComponent(entry.message || ""),
    "Halfdrop-Change": entry.change,
  };
  const asked = query({
    scheme: entry.scheme, scheme_name: entry.schemeName, kind: entry.kind || "edit", finding: entry.finding, cost: entry.cost,
  });
  return call("PATCH", job + asked, { json: entry.patch, headers });
}
