// @ts-check
/** A cloth of one's own, written down where it is wanted: kept with the job, and given to the treatment. */
import { freeId, html, nothing } from "../../lib/html.js";
import { redraw, state } from "../../state.js";
import { keep, tried } from "../plan/sheet.js";

/** What stands in the way of what was written, and of which treatment. */
let fault = "";
let faultOf = "";

/** @param {SubmitEvent} event @param {any} thing */
async function write(event, thing) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  const data = new FormData(form);
  const text = (/** @type {string} */ key) => String(data.get(key) || "").trim();
  const { fabrics, job } = state.job.document;
  const id = freeId(text("name"), Object.keys(fabrics || {}));
  const price = /^[\d.,]+$/.test(text("price")) ? `${job.currency || "USD"} ${text("price")}` : text("price");
  const cloth = { name: text("name"), width: text("width"), ...(text("repeat") ? { repeat: text("repeat"), match: text("match") } : {}), ...(price ? { price } : {}), ...(job.units === "metric" ? { sale: "meter" } : {}) };
  const patch = [
    ...(fabrics ? [] : [{ op: "add", path: "/fabrics", value: {} }]),
    { op: "add", path: `/fabrics/${id}`, value: cloth },
    { op: thing.document.fabric === undefined ? "add" : "replace", path: `/${thing.path}/fabric`, value: id },
  ];
  faultOf = thing.path;
  try {
    await tried({ patch, live: true });
    await keep(patch, { message: `${thing.name}: made in ${cloth.name}` });
    fault = "";
    form.reset();
    const fold = /** @type {HTMLDetailsElement | null} */ (form.closest("details"));
    if (fold) fold.open = false;
  } catch (error) {
    fault = [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
  }
  redraw();
}

/** @param {any} thing a treatment */
export function ownCloth(thing) {
  const { units, currency } = state.job.document.job;
  const metric = units === "metric";
  const sum = !currency || currency === "USD" ? "$38" : `38 ${currency}`;
  return html`<details class="leave"><summary class="small">Write down a cloth</summary>
    ${fault && faultOf === thing.path ? html`<p class="put-fault" role="alert">${fault}</p>` : nothing}
    <form class="cloth" @submit=${(/** @type {SubmitEvent} */ e) => write(e, thing)}>
      <p>Called <input class="blank" name="name" size="14" maxlength="80" required aria-label="name of the cloth" autocomplete="off">, <input class="blank num" name="width" size="6" required aria-label="width of the cloth, selvages off" placeholder=${metric ? "137 cm" : "54 in"} autocomplete="off"> wide between its selvages, <input class="blank num" name="price" size="6" aria-label="price" placeholder=${sum} autocomplete="off"> a ${metric ? "meter" : "yard"}. Its pattern repeats every <input class="blank num" name="repeat" size="6" aria-label="repeat, up the cloth" placeholder="plain" autocomplete="off"> up, in a <select class="blank" name="match" aria-label="match"><option value="straight">straight match</option><option value="half-drop">half drop</option></select>.</p>
      <p class="ways"><button class="word">Make it in this</button></p>
    </form></details>`;
}
