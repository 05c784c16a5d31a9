// @ts-check
/** Pictures of walls: kept on the device at once, sent after the measures before them. */
import { call, get, query, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, outbox, redraw, say, state } from "../../state.js";

/** @type {any[]} */
let files = [];

export async function loadPhotos() {
  if (!state.job) return;
  try {
    files = (await get(`/api/jobs/${seg(state.job.id)}/files`)).files;
    redraw();
  } catch (error) {
    faulted(error);
  }
}

/** @type {{file: any, what: string, sure: boolean} | null} the picture that is looked at */
let looked = null;

/** @param {any} file @param {string} what */
function look(file, what) {
  looked = { file, what, sure: false };
  redraw();
  requestAnimationFrame(() => /** @type {any} */ (document.getElementById("picture"))?.showModal());
}

function shut() {
  /** @type {any} */ (document.getElementById("picture"))?.close();
  looked = null;
  redraw();
}

async function takeDown() {
  if (!looked || !state.job) return;
  const { file } = looked;
  try {
    await call("DELETE", `/api/jobs/${seg(state.job.id)}/files/${seg(file.sha256)}${query({ attached: file.attached })}`);
    shut();
    say(`${file.name} is taken down`);
  } catch (error) {
    shut();
    if (/** @type {any} */ (error).status === 404) say("that picture is gone already");
    else faulted(error);
  }
  loadPhotos();
}

/** The picture that is looked at, large; it can be taken down. */
export function picture() {
  if (!looked) return nothing;
  const { file, what, sure } = looked;
  return html`<dialog id="picture" class="picture" aria-labelledby="picture-head" @close=${() => { looked = null; redraw(); }}>
    <h2 id="picture-head">Wall ${what}</h2>
    <p class="small quiet">${file.name}. Where and when it was taken is not kept with it.</p>
    <img src=${file.url} alt=${`${file.name}, wall ${what}, large`}>
    ${sure
      ? html`<p class="ways" role="alert"><span>No undo brings a picture back.</span><button class="word" @click=${takeDown}>Take it down for good</button><button class="word" @click=${() => { looked = { file, what, sure: false }; redraw(); }}>Keep it</button></p>`
      : html`<p class="ways"><button class="deed" @click=${shut}>Close</button><button class="word" @click=${() => { looked = { file, what, sure: true }; redraw(); }}>Take it down</button></p>`}
  </dialog>`;
}

/** @param {string} path @param {any} event */
async function attach(path, event) {
  const picked = [...event.target.files];
  event.target.value = "";
  for (const file of picked) {
    const { sent } = await outbox.put({ job: state.job.id, what: "photo", base: 0, blob: file, name: file.name, attached: `/${path}`, message: `picture of ${path.split("/").pop()}` });
    say(`${file.name} is kept on this device`);
    sent.then(() => { say(`${file.name} is kept`); loadPhotos(); }, () => {});
  }
}

/** @param {string} path @param {string} what */
export function photosOf(path, what) {
  const here = files.filter((f) => f.attached === `/${path}`);
  const waiting = outbox.of(state.job?.id || "").filter((e) => e.what === "photo" && e.attached === `/${path}`).length;
  return html`<span class="photos">${here.map((f) => html`<button class="thumb" @click=${() => look(f, what)}><img src=${f.url} alt=${`${f.name}, wall ${what}`} width="34" height="34" loading="lazy"></button>`)}${waiting ? html`<span class="small quiet">${waiting} not sent yet</span>` : nothing}<label class="word small pic">picture<input class="unseen" type="file" accept="image/*" multiple aria-label=${`Add a picture of wall ${what}`} @change=${(/** @type {any} */ e) => attach(path, e)}></label></span>`;
}
