// @ts-check
/** Pictures of walls: kept on the device at once, sent after the measures before them. */
import { get, seg } from "../../api.js";
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
  return html`<span class="photos">${here.map((f) => html`<a href=${f.url} target="_blank" rel="noopener"><img src=${f.url} alt=${`${f.name}, wall ${what}`} width="34" height="34" loading="lazy"></a>`)}${waiting ? html`<span class="small quiet">${waiting} not sent yet</span>` : nothing}<label class="word small pic">picture<input class="unseen" type="file" accept="image/*" multiple aria-label=${`Add a picture of wall ${what}`} @change=${(/** @type {any} */ e) => attach(path, e)}></label></span>`;
}
