// @ts-check
/** A library of swatches kept with the job: brought in as CSV, searched by nearness, taken from into the job's own. */
import { call, get, query, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, redraw, say, state } from "../../state.js";
import { keep, room, swatch, take } from "./room.js";

export const library = {
  /** @type {any[]} the job's libraries */
  all: [],
  sha: "",
  near: "",
  words: "",
  /** @type {any[] | null} */
  found: null,
  fault: "",
  /** @type {string[]} faults of a file that could not be read */
  faults: [],
};

let turn = 0;

/** Libraries, as far as they are known. @type {Promise<void>} */
export let known = Promise.resolve();

export function loadLibraries() {
  known = listed();
  return known;
}

async function listed() {
  if (!state.place.job) return;
  try {
    library.all = (await get(`/api/jobs/${seg(state.place.job)}/libraries`)).libraries;
    if (!library.all.some((l) => l.sha256 === library.sha)) library.sha = library.all.at(-1)?.sha256 || "";
    redraw();
  } catch (error) {
    faulted(error);
  }
}

/** @param {any} event */
async function bring(event) {
  const file = event.target.files[0];
  event.target.value = "";
  if (!file) return;
  library.faults = [];
  try {
    const kept = await call("POST", `/api/jobs/${seg(state.place.job || "")}/libraries`, { body: file, headers: { "Content-Type": "text/csv", "Halfdrop-Name": encodeURIComponent(file.name) } });
    library.sha = kept.sha256;
    say(`${kept.name}: ${kept.swatches.toLocaleString("en-US")} swatches`);
    await loadLibraries();
    await find();
  } catch (error) {
    const refused = /** @type {any} */ (error);
    if (refused.status !== 422) return faulted(error);
    const told = refused.errors?.length ? refused.errors : [refused];
    library.faults = told.map((/** @type {any} */ e) => `${e.at?.line ? `row ${e.at.line}${e.at.path ? `, ${e.at.path}` : ""}: ` : ""}${e.message}`);
    say(`${file.name} is not taken in: ${library.faults[0]}`);
  }
}

/** Search by what is typed. */
export async function find() {
  if (!library.sha || (!library.near && !library.words)) {
    library.found = null;
    return redraw();
  }
  const mine = ++turn;
  try {
    const out = await get(`/api/jobs/${seg(state.place.job || "")}/libraries/${library.sha}/swatches${query({ near: library.near, words: library.words, count: 12 })}`);
    if (mine !== turn) return;
    library.found = out.found;
    library.fault = "";
    say(out.found.length ? `${out.found.length} swatches, the nearest ${out.found[0].name}` : "none has these words");
  } catch (error) {
    if (mine !== turn) return;
    if (/** @type {any} */ (error).status === 422) library.fault = /** @type {any} */ (error).message;
    else faulted(error);
  }
  redraw();
}

/** Look for what is nearest to a color. @param {string} hex */
export function nearest(hex) {
  library.near = hex;
  library.words = "";
  find();
}

/** @param {any} one */
async function takeIn(one) {
  const [id] = await keep([{ name: one.name, code: one.code, hex: one.hex, price: one.price }], `${one.name} taken into the job's swatches`);
  for (let n = 0; n < 60 && !swatch(id); n += 1) await new Promise((done) => setTimeout(done, 50));
  if (room.hand !== id && swatch(id)) take(id);
}

/** The library's panel. */
export function shelf() {
  const faults = library.faults.length ? html`<ul class="lines faulty" role="alert">${library.faults.map((f) => html`<li>${f}</li>`)}</ul>` : nothing;
  const bringIn = html`<label class="word choose">${library.all.length ? "Bring another in" : "Bring a library in"}<input class="unseen" type="file" accept=".csv,text/csv" aria-label="Bring a swatch library in, a CSV file" @change=${bring}></label>`;
  if (!library.all.length) {
    return html`<p class="prose">A library is a CSV file: name, code, a color (sRGB, Lab or a spectrum), price. ${bringIn}</p>${faults}`;
  }
  return html`<form class="seek" @submit=${(/** @type {Event} */ e) => { e.preventDefault(); find(); }}>
      ${library.all.length > 1 ? html`<label>From <select class="blank" @change=${(/** @type {any} */ e) => { library.sha = e.target.value; find(); }}>${library.all.map((l) => html`<option value=${l.sha256} ?selected=${l.sha256 === library.sha}>${l.name}, ${l.swatches.toLocaleString("en-US")}</option>`)}</select></label>` : html`<p class="small quiet">${library.all[0].name}, ${library.all[0].swatches.toLocaleString("en-US")} swatches</p>`}
      <p>Near <input class="blank num" size="9" maxlength="60" aria-label="Near this color" placeholder="#7a8b6f" .value=${library.near} @change=${(/** @type {any} */ e) => { library.near = e.target.value.trim(); find(); }}> named <input class="blank" size="12" maxlength="120" aria-label="With these words" .value=${library.words} @change=${(/** @type {any} */ e) => { library.words = e.target.value.trim(); find(); }}> <button class="word">Look</button></p>
    </form>
    ${library.fault ? html`<p class="faulty" role="alert">${library.fault}</p>` : nothing}
    ${library.found ? html`<ul class="found">${library.found.map((one) => html`<li>${chip(one.hex)}<span class="name">${one.name} <span class="quiet">${one.code}</span></span><span class="num quiet">LRV ${Math.round(one.lrv)}${one.off === null ? "" : `, ${one.off.toFixed(1)} off`}</span><button class="word" aria-label=${`Take ${one.name} ${one.code}`} @click=${() => takeIn(one)}>Take</button></li>`)}</ul>` : nothing}
    <p>${bringIn}</p>${faults}`;
}

/** A small patch of a color. @param {string} hex */
export const chip = (hex) => html`<svg class="chip" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true"><rect x="0.5" y="0.5" width="19" height="19" fill=${hex}></rect></svg>`;
