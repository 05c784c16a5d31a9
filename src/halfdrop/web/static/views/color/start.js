// @ts-check
/** Three schemes from a picture, side by side on the drawing: what each thing wears, how the room measures, and one to keep. */
import { post } from "../../api.js";
import { freeId, html, nothing, sentence } from "../../lib/html.js";
import { priced } from "../../lib/money.js";
import { edit, faulted, go, redraw, say, state } from "../../state.js";
import { Drawing } from "../plan/drawing.js";
import { board, percent } from "./board.js";
import { chip, known, library } from "./library.js";
import { picture } from "./picture.js";
import { drawWall, room, roomPath } from "./room.js";
import { tint, WITHOUT } from "./tint.js";

export const start = {
  /** @type {any[] | null} */
  schemes: null,
  busy: false,
  from: "",
  why: "",
};

/** @type {Map<string, Drawing>} */
const drawings = new Map();

/** Where schemes can start from: the picture on the sheet, or art whose colors are recorded. */
export function sources() {
  const art = (room.colors?.art || []).filter((/** @type {any} */ a) => a.colors.length);
  return [
    ...(picture.palette ? [{ id: "picture", name: `the picture ${picture.name}` }] : []),
    ...art.map((/** @type {any} */ a) => ({ id: a.id, name: a.name })),
  ];
}

/** @param {string} from */
export async function begin(from) {
  start.busy = true;
  start.from = from;
  start.why = "";
  start.schemes = null;
  redraw();
  const source = from === "picture" ? { name: picture.name.replace(/\.[a-z]+$/i, ""), palette: picture.palette.colors.map((/** @type {any} */ c) => ({ lab: c.lab, share: Math.max(c.share, 0.0001) })) } : { art: from };
  try {
    await known;
    const out = await post(`${roomPath()}/color-schemes`, { scheme: state.place.scheme, library: library.sha || null, ...source });
    start.schemes = out.schemes;
    requestAnimationFrame(() => document.getElementById("sheet")?.scrollTo({ top: 0 }));
    say(`three schemes from ${sources().find((s) => s.id === from)?.name || "the picture"}`);
  } catch (error) {
    if (/** @type {any} */ (error).status === 422) start.why = [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
    else faulted(error);
  }
  start.busy = false;
  redraw();
}

export function shut() {
  start.schemes = null;
  start.why = "";
  drawings.clear();
  redraw();
}

/** Keep one as a scheme of the job. @param {any} one */
async function keep(one) {
  const schemes = state.job.document.schemes;
  const name = `${sentence(one.style)}, from ${one.from}`;
  const id = freeId(name, Object.keys(schemes || {}));
  const value = { name, steps: one.steps };
  const { sent } = await edit({ patch: [...(schemes ? [] : [{ op: "add", path: "/schemes", value: {} }]), { op: "add", path: `/schemes/${id}`, value }], message: `scheme ${name} begun` });
  await sent;
  for (let n = 0; n < 60 && !state.job.document.schemes?.[id]; n += 1) await new Promise((done) => setTimeout(done, 50));
  shut();
  go({ view: "color", scheme: id });
}

/** @param {any} one */
function column(one) {
  return html`<li class="color-column">
    <h2>${sentence(one.style)}</h2>
    <div class="tinted small-plan" data-style=${one.style} role="img" aria-label=${`${room.wall ? `Wall ${room.wall}` : "The plan"} in the colors of the ${one.style} scheme`}></div>
    ${board(one.board, { width: 300, height: 110, label: one.board.map((/** @type {any} */ b) => `${b.no} ${b.name} ${percent(b.share)}`).join(", ") })}
    <ol class="key-list">${one.board.map((/** @type {any} */ b) => html`<li><span class="num">${b.no}</span> ${b.name} <span class="quiet num">${b.code} ${percent(b.share)}</span></li>`)}</ol>
    <ul class="worn">${one.worn.map((/** @type {any} */ w) => html`<li>${chip(w.hex)}<span>${sentence(w.what)}: ${w.swatch} <span class="quiet">${w.code}</span><span class="small quiet why">${w.said}</span></span></li>`)}</ul>
    <details class="marks"><summary>How it measures: ${Math.round(one.score.total)} of 100</summary><dl>${one.score.marks.map((/** @type {any} */ m) => html`<div><dt>${m.name}</dt><dd>${m.measured}<span class="quiet">; wanted ${m.wanted}</span></dd></div>`)}</dl>
      <p class="small quiet">${sentence(one.sureness)}.</p></details>
    ${one.cost ? html`<p class="small">Known cost ${priced(one.cost)}</p>` : nothing}${one.unpriced?.length ? html`<p class="small quiet">No price for ${one.unpriced.join("; ")}.</p>` : nothing}
    ${one.findings.length ? html`<ul class="lines">${one.findings.map((/** @type {any} */ f) => html`<li>${sentence(f.grade)}: ${f.message}</li>`)}</ul>` : html`<p class="small quiet">Brings no new hazard or fault, and no note on color.</p>`}
    <p><button class="deed" @click=${() => keep(one)}>Keep the ${one.style} one</button></p>
  </li>`;
}

/** Which drawing wears the colors. */
export function drawnOn() {
  return html`<p class="small">Drawn: <select class="blank" aria-label="Which drawing wears the colors" @change=${(/** @type {any} */ e) => drawWall(e.target.value)}><option value="" ?selected=${!room.wall}>the plan</option>${room.colors.walls.map((/** @type {string} */ w) => html`<option value=${w} ?selected=${room.wall === w}>wall ${w}</option>`)}</select></p>`;
}

/** The schemes, or how to begin them. */
export function schemes() {
  if (start.why) return html`<div class="begin"><p class="prose" role="alert">${sentence(start.why)}.</p><p><button class="word" @click=${shut}>Put away</button></p></div>`;
  if (start.busy) return html`<p class="quiet" role="status">Choosing colors…</p>`;
  if (!start.schemes) return nothing;
  return html`<section class="started" aria-labelledby="started-head"><h1 id="started-head">Three schemes from ${start.schemes[0]?.from}</h1>
    <p class="prose quiet">Long-lived pieces stay neutral, what the client keeps stays as it is. On the boards: left by day, right of an evening.</p>
    ${drawnOn()}
    <ol class="columns">${start.schemes.map(column)}</ol>
    <p><button class="word" @click=${shut}>Keep none of them</button></p></section>`;
}

export function drawn() {
  for (const host of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".small-plan.tinted[data-style]"))) {
    const one = start.schemes?.find((s) => s.style === host.dataset.style);
    if (!one || !room.plan || /** @type {any} */ (host).shown === room.plan) continue;
    const drawing = drawings.get(one.style) || new Drawing();
    drawings.set(one.style, drawing);
    drawing.show(host, { ...room.plan, things: [] }, WITHOUT);
    tint(drawing, new Map(Object.entries(one.colors)), room.colors.outline, room.wall);
    /** @type {any} */ (host).shown = room.plan;
  }
}
