// @ts-check
/** Art on a wall: a work said as a sentence with the two numbers of its hooks; several hung together, each way drawn first. */
import { get, post, query } from "../../api.js";
import { freeId, html, nothing, sentence } from "../../lib/html.js";
import { faulted, redraw, say, state } from "../../state.js";
import { dropPreview, keep, load, look, looking, preview, roomPath, sheet, tried } from "../plan/sheet.js";
import { blank, choice, give } from "../plan/slip.js";
import { extras } from "./extras.js";

const KINDS = ["painting", "print", "photograph", "work on paper", "textile", "mirror", "object"];
const FORMS = /** @type {[string, string][]} */ ([["row", "a row"], ["cluster", "a cluster"], ["grid", "a grid"], ["stack", "a stack"]]);

/** The walls of this elevation: one, or those of a bay. */
function wallsHere() {
  const corners = (looking.wall || "").match(/[A-Z][0-9]{0,2}/g) || [];
  return corners.slice(1).map((corner, i) => corners[i] + corner);
}

/** What is asked: the works in order, as what, where (`over/sofa`, `wall/CD`). @type {{chosen: string[], form: string, where: string, gap: string}} */
const asked = { chosen: [], form: "row", where: "", gap: "" };
/** @type {any} */
let known = null;
let open = false;
let fault = "";
/** The ways found, with the job and room they are of. @type {{key: string, wall: string, ways: any[]} | null} */
let found = null;

const roomKey = () => `${state.place.job} ${state.place.room} ${state.place.scheme}`;

// ---------------------------------------------------------------- a work's own slip

/** @param {any} thing */
function back(thing) {
  const from = thing.document.hangs?.from;
  if (!from) return html`How it hangs is not known. <button class="word" @click=${() => hangsFrom(thing)}>It has a wire</button>`;
  return html`It hangs from ${choice(thing, "hangs/from", "hangs from", ["wire", "sawtooth"], ["a wire", "a sawtooth"])}, which comes to ${blank(thing, "hangs/drop", "drop of the wire, pulled up taut")} below the top of the frame.`;
}

/** A first drop that a person measures and types over: a tenth of the frame's height. @param {any} thing */
async function hangsFrom(thing) {
  const metric = state.job.document.job.units === "metric";
  const drop = metric ? `${Math.max(1, Math.round(thing.depth * 10))} cm` : `${Math.max(1, Math.round(thing.depth / 0.254))} in`;
  try {
    await keep([{ op: "add", path: `/${thing.path}/hangs`, value: { from: "wire", drop } }], { message: `${thing.name}: it hangs from a wire` });
    say(`the wire is taken to come to ${drop} below the top; measure it and type it over`);
  } catch {
    /* said by the outbox */
  }
}

/** @param {any} thing */
async function takeDown(thing) {
  const patch = [{ op: "remove", path: `/${thing.path}/at` }, ...["above", "group"].filter((key) => thing.document[key] !== undefined).map((key) => ({ op: "remove", path: `/${thing.path}/${key}` }))];
  try {
    await keep(patch, { message: `${thing.name} taken down` });
    say(`${thing.name} waits for a place`);
  } catch {
    /* said by the outbox */
  }
}

/** @param {any} thing */
function slip(thing) {
  const d = thing.document;
  const from = d.at.wall.match(/[A-Z][0-9]{0,2}/)?.[0];
  return html`<p>${sentence(choiceless(d.kind || "painting"))}, ${blank(thing, "width", "width, frame and all")} wide and ${blank(thing, "height", "height, frame and all")} high. It hangs ${blank(thing, "at/along", "along the wall")} from corner ${from}, its bottom ${blank(thing, "at/bottom", "bottom above the floor")} above the floor${d.group ? html`, one of <b>${d.group}</b>` : nothing}. ${back(thing)} It weighs ${blank(thing, "mass", "weight", 8)}, ${choice(thing, "glazing", "glazing", ["", "glass", "acrylic", "none"], ["its glazing not said", "behind glass", "behind acrylic", "not glazed"])}.</p>
    <p>Why they look at it: ${blank(thing, "reason", "why they look at it", 24)}</p>
    <dl class="hooks num">${(thing.facts || []).map((/** @type {string[]} */ [label, text]) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>
    ${d.group ? html`<label class="work small"><input type="checkbox" .checked=${sheet.whole} @change=${(/** @type {any} */ e) => { sheet.whole = e.target.checked; redraw(); }}> <span>It takes the whole group with it</span></label>` : nothing}
    <p class="ways small">${d.group ? html`<button class="word" @click=${() => anew(d.group)}>Hang the group anew</button><button class="word" @click=${() => give(thing, "group", "group", "")}>Leave the group</button>` : nothing}<button class="word" @click=${() => takeDown(thing)}>Take it down</button></p>`;
}

/** @param {string} kind */
const choiceless = (kind) => (/^[aeiou]/.test(kind) ? `an ${kind}` : `a ${kind}`);

// ---------------------------------------------------------------- several together

/** Open the dialog with the works of a group chosen. @param {string} group */
function anew(group) {
  const art = state.job.document.rooms[/** @type {string} */ (state.place.room)].art || {};
  const shown = sheet.things.filter((t) => t.kind === "art" && t.document.group === group).map((t) => t.id);
  asked.chosen = shown.length ? shown : Object.keys(art).filter((id) => art[id].group === group);
  return openArt();
}

async function openArt() {
  fault = "";
  try {
    known = await get(`${roomPath()}/art${query({ scheme: state.place.scheme })}`);
  } catch (error) {
    faulted(error);
    return;
  }
  asked.chosen = asked.chosen.filter((id) => known.works.some((/** @type {any} */ w) => w.id === id));
  if (!asked.chosen.length) asked.chosen = known.works.filter((/** @type {any} */ w) => !w.wall).map((/** @type {any} */ w) => w.id);
  const places = [...wallsHere().map((w) => `wall/${w}`), ...known.overs.map((/** @type {any} */ o) => `over/${o.id}`)];
  if (!places.includes(asked.where)) asked.where = places[0] || "";
  open = true;
  redraw();
  requestAnimationFrame(() => {
    const box = /** @type {HTMLDialogElement | null} */ (document.getElementById("art"));
    if (box && !box.open) box.showModal();
  });
}

function shut() {
  open = false;
  /** @type {any} */ (document.getElementById("art"))?.close();
  redraw();
}

/** @param {string} id @param {boolean} on */
function choose(id, on) {
  asked.chosen = on ? [...asked.chosen, id] : asked.chosen.filter((one) => one !== id);
  redraw();
}

/** Write down a work of one's own; it waits for a place. @param {SubmitEvent} event */
async function own(event) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  const data = new FormData(form);
  const text = (/** @type {string} */ key) => String(data.get(key) || "").trim();
  const room = /** @type {string} */ (state.place.room);
  const name = text("name"), holder = state.job.document.rooms[room].art;
  const id = freeId(name || text("kind"), known.works.map((/** @type {any} */ w) => w.id));
  const value = { ...(name ? { name } : {}), kind: text("kind"), width: text("width"), height: text("height"), ...(text("drop") ? { hangs: { from: "wire", drop: text("drop") } } : {}) };
  const patch = [...(holder || known.works.length ? [] : [{ op: "add", path: `/rooms/${room}/art`, value: {} }]), { op: "add", path: `/rooms/${room}/art/${id}`, value }];
  try {
    await tried({ patch, live: true });
    await keep(patch, { message: `${name || text("kind")} written down, to be hung` });
    known.works.push({ id, name: name || text("kind"), kind: value.kind, group: null, size_text: `${value.width} × ${value.height}`, wall: null });
    asked.chosen = [...asked.chosen, id];
    fault = "";
    form.reset();
  } catch (error) {
    fault = [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
  }
  redraw();
}

/** The same wall from its other corner. @param {string} wall */
const turned = (wall) => (wall.match(/[A-Z][0-9]{0,2}/g) || []).reverse().join("");

async function find() {
  try {
    const body = { scheme: state.place.scheme, art: asked.chosen, form: asked.form, [asked.where.split("/")[0]]: asked.where.split("/")[1], ...(asked.gap ? { gap: asked.gap } : {}) };
    const out = await post(`${roomPath()}/hang`, body);
    found = { key: roomKey(), wall: out.wall, ways: out.ways };
    fault = "";
    shut();
    if (!wallsHere().some((w) => w === out.wall || w === turned(out.wall))) {
      look("elevation", out.wall);
      await load();
    }
    await show(found.ways[0]);
    document.getElementById("art-ways")?.focus();
  } catch (error) {
    fault = [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
    redraw();
  }
}

/** @param {any} way */
async function show(way) {
  await preview(`hang ${way.id}`, way.patch);
  if (sheet.preview) say(`${way.title} ${way.said}; ${sheet.preview.findings.length} notes with it`);
}

/** @param {any} way */
async function take(way) {
  try {
    await keep(way.patch, { message: way.title.replace(/^Way \d+ of \d+: /, "") });
    found = null;
    dropPreview();
  } catch {
    /* said by the outbox */
  }
  redraw();
}

function leave() {
  found = null;
  dropPreview();
  redraw();
}

/** @param {any} way */
function one(way) {
  const shown = sheet.preview?.id === `hang ${way.id}`;
  return html`<li class=${shown ? "remedy shown" : "remedy"}>
    <p class="what">${way.title}</p>
    <p class="small quiet">${way.said}</p>
    ${shown ? way.notes.map((/** @type {string} */ note) => html`<p class="small">${note}</p>`) : nothing}
    ${shown ? html`<dl class="hooks num small">${way.works.map((/** @type {any} */ w) => html`<div><dt>${sentence(w.name)}</dt><dd>${w.hooks.length ? w.hooks.map((/** @type {any} */ h, /** @type {number} */ i) => html`${i ? html`<br>` : nothing}${h.said[0]}, ${h.said[1]} up`) : "its wire is not known"}</dd></div>`)}</dl>` : nothing}
    <p class="ways">${shown
      ? html`<button class="deed" @click=${() => take(way)}>Hang them so</button>`
      : html`<button class="word" @click=${() => show(way)} aria-label=${`Draw it: ${way.title}`}>Draw it</button>`}</p>
  </li>`;
}

function panel() {
  if (!found || found.key !== roomKey()) return nothing;
  const corner = sheet.view?.corners?.[0];
  return html`<section class="art-ways" id="art-ways" tabindex="-1" aria-label="Ways to hang them">
    <h2 class="small-head">${found.ways.length === 1 ? "One way to hang it" : `${found.ways.length} ways to hang them`}${corner ? html`<span class="quiet">: hooks from corner ${corner}, and up from the floor</span>` : nothing}</h2>
    <ol class="remedies">${found.ways.map(one)}</ol>
    <p class="ways"><button class="word" @click=${leave}>Hang none of them</button></p>
  </section>`;
}

function dialog() {
  if (!open || !known) return nothing;
  const metric = state.job.document.job.units === "metric";
  return html`<dialog id="art" class="put-in" aria-labelledby="art-head" @close=${() => { open = false; redraw(); }}>
    <h2 id="art-head">Hang art</h2>
    <p class="quiet">Heights, gaps and what they keep clear of are practice's; each way is drawn before it is taken.</p>
    ${fault ? html`<p class="put-fault" role="alert">${fault}</p>` : nothing}
    <fieldset class="works"><legend>Which works, in this order</legend>
      ${known.works.length ? nothing : html`<p>The room has none yet; write one down below.</p>`}
      ${known.works.map((/** @type {any} */ w) => html`<label class="work"><input type="checkbox" value=${w.id} .checked=${asked.chosen.includes(w.id)} @change=${(/** @type {any} */ e) => choose(w.id, e.target.checked)}> <span>${sentence(w.name)}</span> <span class="num quiet">${w.size_text}</span> <span class="quiet small">${w.wall ? `on wall ${w.wall}` : "waits"}</span></label>`)}
    </fieldset>
    <p>As <select class="blank" aria-label="form" @change=${(/** @type {any} */ e) => { asked.form = e.target.value; }}>${FORMS.map(([key, words]) => html`<option value=${key} .selected=${key === asked.form}>${words}</option>`)}</select>,
      <select class="blank" aria-label="where" @change=${(/** @type {any} */ e) => { asked.where = e.target.value; }}>${wallsHere().map((w) => html`<option value=${`wall/${w}`} .selected=${asked.where === `wall/${w}`}>on wall ${w}</option>`)}${known.overs.map((/** @type {any} */ o) => html`<option value=${`over/${o.id}`} .selected=${asked.where === `over/${o.id}`}>over the ${o.name}</option>`)}</select>,
      <input class="blank num" size="9" aria-label="gap between frames" placeholder="practice's" .value=${asked.gap} @change=${(/** @type {any} */ e) => { asked.gap = e.target.value.trim(); }} autocomplete="off"> between frames. <button class="deed" ?disabled=${!asked.chosen.length} @click=${find}>Find places</button></p>
    <form class="own" @submit=${own}>
      <h3>One of your own</h3>
      <p>A <select class="blank" name="kind" aria-label="kind">${KINDS.map((k) => html`<option>${k}</option>`)}</select> called <input class="blank" name="name" size="14" aria-label="name" autocomplete="off">, <input class="blank num" name="width" size="6" required aria-label="width" placeholder=${metric ? "40 cm" : "16 in"} autocomplete="off"> wide, <input class="blank num" name="height" size="6" required aria-label="height" placeholder=${metric ? "50 cm" : "20 in"} autocomplete="off"> high, its wire <input class="blank num" name="drop" size="6" aria-label="drop of the wire" placeholder=${metric ? "5 cm" : "2 in"} autocomplete="off"> below the top. <button class="word">Write it down</button></p>
    </form>
    <p class="ways"><button class="word" @click=${shut}>Hang nothing</button></p>
  </dialog>`;
}

extras.slips.art = slip;
extras.ways.push(() => html`<button class="word" @click=${() => openArt()} ?disabled=${!sheet.view}>Hang art</button>`);
extras.beside.push(dialog);
extras.heads.push(panel);
