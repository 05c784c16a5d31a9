// @ts-check
/** The jobs, each with what it waits for; and the three ways to begin one. */
import { call, get, post, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, go, redraw, say, signature, state } from "../../state.js";
import { sign } from "../../signing.js";
import { bring, comesBack } from "./comesback.js";

/** @type {any[] | null} */
let jobs = null;
/** @type {"" | "new" | string} */
let asking = "";
let busy = false;

async function load() {
  const out = await get("/api/jobs");
  jobs = out.jobs;
  redraw();
  if (out.jobs.some((/** @type {any} */ j) => !j.waits)) {
    const again = await get("/api/jobs");
    jobs = again.jobs;
    redraw();
  }
}

/** @param {any} body @param {Partial<import("../../state.js").Place>} [then] */
async function begin(body, then = {}) {
  if (busy) return;
  busy = true;
  redraw();
  try {
    const { id, revision } = await post("/api/jobs", body, undefined, { "Halfdrop-Author": encodeURIComponent(signature()) });
    if (body.start === "new") await emptied(id, revision);
    go({ job: id, view: "plan", room: null, scheme: null, ...then });
  } catch (error) {
    faulted(error);
  }
  busy = false;
  redraw();
}

/** A new job's file has measures to type over; here they are typed, so the walk begins with none. @param {string} id @param {number} revision */
async function emptied(id, revision) {
  const { document } = await get(`/api/jobs/${seg(id)}`);
  const patch = Object.keys(document.rooms).flatMap((room) => [
    { op: "replace", path: `/rooms/${room}/survey`, value: { corners: ["A", "B", "C", "D"], walls: {} } },
    { op: "replace", path: `/rooms/${room}/openings`, value: {} },
  ]);
  const headers = { "Content-Type": "application/json-patch+json", "If-Match": `"${revision}"`, "Halfdrop-Message": encodeURIComponent("rooms begun, nothing measured yet"), "Halfdrop-Author": encodeURIComponent(signature()) };
  await call("PATCH", `/api/jobs/${seg(id)}`, { json: patch, headers });
}

/** @param {SubmitEvent} event */
function beginNew(event) {
  event.preventDefault();
  const form = new FormData(/** @type {HTMLFormElement} */ (event.target));
  const rooms = form.getAll("room");
  begin({ start: "new", name: String(form.get("name")).trim(), client: String(form.get("client") || "").trim() || null, units: form.get("units"), rooms: rooms.length ? rooms : ["living"] }, { view: "survey" });
}

/** @param {any} event */
async function fromFile(event) {
  const file = event.target.files[0];
  event.target.value = "";
  if (file) begin({ start: "file", name: file.name, text: await file.text() });
}

/** @param {any} job */
async function remove(job) {
  try {
    await call("DELETE", `/api/jobs/${seg(job.id)}`);
    say(`${job.name} is removed`);
    asking = "";
    await load();
  } catch (error) {
    faulted(error);
  }
}

const day = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short", year: "numeric" });

/** @param {any} job */
function row(job) {
  const view = /survey/.test(job.waits) ? "survey" : "plan";
  return html`<li class="job">
    <h2><a href=${`#/${seg(job.id)}/${view}`}>${job.name}</a></h2>
    <p class="who quiet">${[job.client, `${job.rooms.length} ${job.rooms.length === 1 ? "room" : "rooms"}`].filter(Boolean).join(" · ")}</p>
    <p class="waits">${job.waits === "ready to print" ? "Ready to print." : job.waits ? html`Waits: ${job.waits}.` : nothing}</p>
    <p class="when quiet num">${day.format(new Date(job.changed))}, revision ${job.revision}
      ${asking === job.id
        ? html`<span class="sure" role="alert">Remove it with its history? <button class="word" @click=${() => remove(job)}>Remove it</button> <button class="word" @click=${() => { asking = ""; redraw(); }}>Keep it</button></span>`
        : html`<a class="word small" href=${`/api/jobs/${seg(job.id)}/file`} download aria-label=${`Job file of ${job.name}`}>job file</a> ${bring(job)} <button class="word small" aria-label=${`Remove ${job.name}`} @click=${() => { asking = job.id; redraw(); }}>remove</button>`}</p>
    ${comesBack(job, load)}
  </li>`;
}

const ROOMS = [["living", "living room"], ["dining", "dining room"], ["bedroom", "bedroom"], ["kitchen", "kitchen"], ["bath", "bath"], ["hall", "hall"], ["study", "study"]];

function newForm() {
  return html`<form class="new" @submit=${beginNew}>
    <p><label for="new-name">The job is called</label> <input class="blank" id="new-name" name="name" required maxlength="120" size="22" autocomplete="off"></p>
    <p><label for="new-client">for</label> <input class="blank" id="new-client" name="client" maxlength="120" size="22" placeholder="the client's name, if you like" autocomplete="off">,</p>
    <p><label for="new-units">measured in</label> <select class="blank" id="new-units" name="units"><option value="imperial">feet and inches</option><option value="metric">meters</option></select>.</p>
    <fieldset><legend>It begins with</legend>${ROOMS.map(([use, name], i) => html`<label class="tick"><input type="checkbox" name="room" value=${use} ?checked=${i === 0}> ${name}</label>`)}</fieldset>
    <p class="ways"><button class="deed" ?disabled=${busy}>Begin, and survey the first room</button><button type="button" class="word" @click=${() => { asking = ""; redraw(); }}>Not now</button></p>
  </form>`;
}

function render() {
  const first = jobs !== null && jobs.length === 0;
  return html`<div class="jobs-sheet">
    <div class="list">
      <h1>${first ? "No job yet" : "Jobs"}</h1>
      ${first ? html`<p class="prose">Tape a room, enter what you read off the tape, and halfdrop draws it, judges it and says what would put it right. Look at the demo first, or begin with your own room: a name and one room are enough.</p>` : nothing}
      ${jobs === null ? html`<p class="quiet">Reading…</p>` : html`<ol>${jobs.map(row)}</ol>`}
    </div>
    <section class="begin" aria-labelledby="begin-head">
      <h2 id="begin-head">Begin</h2>
      ${asking === "new" ? newForm() : html`<ul>
        <li><button class=${first ? "word" : "deed"} @click=${() => { asking = "new"; redraw(); requestAnimationFrame(() => document.getElementById("new-name")?.focus()); }}>A new job</button><p class="quiet">A name, the units, the rooms; then the first room's survey.</p></li>
        <li><button class=${first ? "deed" : "word"} ?disabled=${busy} @click=${() => begin({ start: "demo" })}>The demo job</button><p class="quiet">An invented flat, with a blunder in one survey and a rug that is too small.</p></li>
        <li><label class="word file">From a job file<input class="unseen" type="file" accept=".yaml,.yml,.json" @change=${fromFile}></label><p class="quiet">YAML or JSON, as the command line reads it.</p></li>
      </ul>`}
      ${state.author === null ? nothing : html`<p class="signed"><label for="signed">Changes made here are signed</label> <input class="blank" id="signed" maxlength="60" size="14" placeholder="not at all" autocomplete="name" .value=${state.author || ""} @change=${(/** @type {any} */ e) => sign(e.target.value)}></p>`}
    </section>
  </div>`;
}

export default {
  id: "jobs", title: "Jobs", needs: "nothing", css: ["jobs.css"], render,
  enter: async () => {
    asking = "";
    await load();
  },
};
