// @ts-check
/** A photograph dropped in: it stays on this machine and is not kept; its colors are lifted, its white picked by a press. */
import { call, query } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, redraw, say } from "../../state.js";

/** The picture on the sheet. */
export const picture = {
  /** @type {Blob | null} */
  blob: null,
  url: "",
  name: "",
  /** @type {any} its palette as the server lifted it */
  palette: null,
  /** @type {[number, number] | null} where its white is, in its own pixels */
  white: null,
  recorded: false,
  busy: false,
  picking: false,
  /** @type {[number, number]} where the marker stands while it is moved by keys, 0 to 1 */
  marker: [0.5, 0.5],
};

/** Side of the patch that is taken for white, as a share of the picture's longer side. */
const PATCH = 0.02;

/** @param {Blob} blob @param {string} name */
export async function open(blob, name) {
  if (picture.url) URL.revokeObjectURL(picture.url);
  Object.assign(picture, { blob, name, url: URL.createObjectURL(blob), palette: null, white: null, recorded: false, picking: false, marker: [0.5, 0.5] });
  redraw();
  await lift();
}

export function put() {
  if (picture.url) URL.revokeObjectURL(picture.url);
  Object.assign(picture, { blob: null, url: "", name: "", palette: null, white: null, picking: false });
  redraw();
}

let turn = 0;

async function lift() {
  if (!picture.blob) return;
  const mine = ++turn;
  picture.busy = true;
  redraw();
  try {
    const known = picture.palette;
    let white = null;
    if (picture.white && known) {
      const side = Math.max(4, Math.round(Math.max(known.width, known.height) * PATCH));
      const left = Math.max(0, Math.min(known.width - side, Math.round(picture.white[0] - side / 2)));
      const top = Math.max(0, Math.min(known.height - side, Math.round(picture.white[1] - side / 2)));
      white = [left, top, Math.min(side, known.width), Math.min(side, known.height)].join(",");
    }
    const found = await call("POST", `/api/palette${query({ white, recorded: picture.recorded ? 1 : null })}`, { body: picture.blob, headers: { "Content-Type": picture.blob.type || "image/jpeg" } });
    if (mine !== turn) return;
    picture.palette = found;
    say(`${found.colors.length} colors lifted; white ${found.white.how}: ${found.white.why}`);
  } catch (error) {
    if (mine !== turn) return;
    const refused = /** @type {any} */ (error);
    if (refused.status === 422 && picture.white) {
      picture.white = null;
      say(refused.message);
    } else {
      if (refused.status === 422) put();
      faulted(error);
    }
  } finally {
    if (mine === turn) picture.busy = false;
    redraw();
  }
}

/** @param {number} x @param {number} y 0 to 1 */
function pick(x, y) {
  const { width, height } = picture.palette;
  picture.white = [x * width, y * height];
  picture.recorded = false;
  picture.picking = false;
  lift();
}

/** @param {MouseEvent} event */
function pressed(event) {
  if (!picture.picking || !picture.palette) return;
  const box = /** @type {HTMLElement} */ (event.currentTarget).getBoundingClientRect();
  if (event.detail === 0) pick(picture.marker[0], picture.marker[1]); // by Enter or Space
  else pick((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height);
}

/** @param {KeyboardEvent} event */
function moved(event) {
  const step = event.shiftKey ? 0.1 : 0.02;
  const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
  if (!picture.picking || !by) return;
  event.preventDefault();
  event.stopPropagation();
  picture.marker = /** @type {[number, number]} */ (picture.marker.map((v, i) => Math.max(0, Math.min(1, v + by[i]))));
  say(`marker at ${Math.round(picture.marker[0] * 100)}% from the left, ${Math.round(picture.marker[1] * 100)}% from the top`);
}

/** @param {any} event */
function chosen(event) {
  const file = event.target.files[0];
  event.target.value = "";
  if (file) open(file, file.name);
}

/** @param {DragEvent} event */
export function dropped(event) {
  const file = [...(event.dataTransfer?.files || [])].find((f) => f.type.startsWith("image/"));
  if (!file) return;
  event.preventDefault();
  open(file, file.name);
}

/** Put the marker where it stands; the policy allows no style in the markup. */
export function drawn() {
  const mark = /** @type {HTMLElement | null} */ (document.querySelector(".white-mark"));
  if (!mark || !picture.palette) return;
  const at = picture.picking ? picture.marker : picture.white ? [picture.white[0] / picture.palette.width, picture.white[1] / picture.palette.height] : null;
  mark.hidden = !at;
  if (at) {
    mark.style.left = `${at[0] * 100}%`;
    mark.style.top = `${at[1] * 100}%`;
  }
}

/** @param {any} white */
function saidWhite(white) {
  if (white.how === "given") return `White is what you pointed out; a white moves by ${white.shifts} (CIEDE2000).`;
  if (white.how === "estimated") return `White is estimated ${white.why.replace(/: an estimate$/, "")}; a white moves by ${white.shifts} (CIEDE2000). Point out paper or a grey card where there is one.`;
  return `Colors are taken as recorded: ${white.why}.`;
}

/**
 * The picture's panel.
 * @param {(color: any, n: number) => any} row what stands beside each color
 */
export function panel(row) {
  if (!picture.blob) {
    return html`<div class="drop-field" @dragover=${(/** @type {Event} */ e) => e.preventDefault()} @drop=${dropped}>
      <p class="prose">Drop a photograph of the art, a cloth or a corner of the room, or <label class="word choose">choose one<input class="unseen" type="file" accept="image/jpeg,image/png,image/webp" aria-label="Choose a photograph" @change=${chosen}></label>.</p>
      <p class="small quiet">It stays on this machine. Only its colors are taken; the picture is not kept, nor where and when it was taken.</p></div>`;
  }
  const found = picture.palette;
  return html`<div class="pictured" @dragover=${(/** @type {Event} */ e) => e.preventDefault()} @drop=${dropped}>
    <button class=${`photo ${picture.picking ? "picking" : ""}`} ?disabled=${!picture.picking} aria-label=${picture.picking ? "Press on paper or a grey card; arrows move the marker, Enter takes it" : `The picture ${picture.name}`} @click=${pressed} @keydown=${moved}>
      <img src=${picture.url} alt=${picture.picking ? "" : picture.name}><span class="white-mark" hidden></span></button>
    <p class="ways">${picture.picking
      ? html`<span class="small">Press on what is white or grey in it.</span><button class="word" @click=${() => { picture.picking = false; redraw(); }}>Leave it</button>`
      : html`<button class="word" ?disabled=${!found} @click=${() => { picture.picking = true; redraw(); requestAnimationFrame(() => /** @type {any} */ (document.querySelector(".photo"))?.focus()); }}>Point out its white</button>
        ${found && found.white.how !== "as recorded" ? html`<button class="word" @click=${() => { picture.white = null; picture.recorded = true; lift(); }}>As recorded</button>` : nothing}
        <button class="word" @click=${put}>Put it away</button>`}</p>
    ${found ? html`<p class="small quiet">${saidWhite(found.white)}</p><ul class="lifted">${found.colors.map(row)}</ul>` : html`<p class="quiet" role="status">Lifting its colors…</p>`}
  </div>`;
}
