// @ts-check
/** The rooms of the brief: what each is called and used for, who sits in it, what it looks at; one more, or one less. */
import { blank, choice, faultAt, keepAt, tick } from "../../lib/blanks.js";
import { freeId, html, nothing, sentence } from "../../lib/html.js";
import { documentNow, edit, go, hashOf, redraw, say } from "../../state.js";

export const USES = [["living", "living room"], ["dining", "dining room"], ["bedroom", "bedroom"], ["kitchen", "kitchen"], ["bath", "bath"], ["hall", "hall"], ["study", "study"]];
const WISHES = ["talk", "screen", "read", "dine", "sleep", "work", "play", "dress"];

let leaving = "";

/** What a room may look at, each with its name. @param {any} room @returns {[string, string][]} */
function focals(room) {
  const out = /** @type {[string, string][]} */ ([["", "nothing in particular"]]);
  for (const kind of ["fittings", "openings", "pieces", "art"]) {
    for (const [id, thing] of Object.entries(room[kind] || {})) out.push([`${kind}/${id}`, `the ${thing.name || (thing.kind === id ? id : `${thing.kind || thing.type || "work"} ${id}`)}`.replaceAll("-", " ")]);
  }
  return out;
}

/** @param {string} id @param {any} room */
function one(id, room) {
  const path = `rooms/${id}`;
  return html`<li class="room" aria-labelledby=${`brief-${id}`}>
    <h3 id=${`brief-${id}`}>${blank(`${path}/name`, "the room's name", { size: 20, required: true, name: "room" })}</h3>
    <p class="ticks" role="group" aria-label=${`${room.name} is a`}>${USES.map(([use, words]) => tick(`${path}/use/${use}`, words, room.name))}</p>
    <p>For ${blank(`${path}/wishes/people`, `people in ${room.name}`, { size: 3, whole: true })} people. It looks at ${choice(`${path}/wishes/focal`, `${room.name} looks at`, focals(room))}.</p>
    <p class="ticks" role="group" aria-label=${`What ${room.name} is for`}>${WISHES.map((use) => tick(`${path}/wishes/uses/${use}`, use, room.name))}</p>
    <p>The floor is ${choice(`${path}/floor`, `floor of ${room.name}`, ["hard", "carpet"], "hard")}, the walls are ${choice(`${path}/wall_build`, `walls of ${room.name}`, [["stud", "boards on studs"], ["masonry", "solid"], ["unknown", "of unknown build"]], "unknown")}.</p>
    <p class="ways">${leaving === id
      ? html`<span>With all that stands in it? Undo brings it back.</span><button class="word" @click=${() => { leaving = ""; keepAt(path, [{ op: "remove", path: `/${path}` }], `${room.name} left out`); }}>Leave it out</button><button class="word" @click=${() => { leaving = ""; redraw(); }}>Keep it</button>`
      : html`<a class="word" href=${hashOf({ view: "plan", room: id })}>Plan</a><a class="word" href=${hashOf({ view: "survey", room: id })}>Survey</a><button class="word" aria-label=${`Leave it out: ${room.name}`} @click=${() => { leaving = id; redraw(); }}>Leave it out</button>`}${faultAt(path)}</p>
  </li>`;
}

/** @param {SubmitEvent} event */
async function another(event) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  const data = new FormData(form);
  const use = String(data.get("use"));
  const name = String(data.get("name")).trim() || sentence(USES.find(([u]) => u === use)?.[1] || use);
  const rooms = documentNow().rooms;
  const id = freeId(name, Object.keys(rooms || {}));
  const value = { name, use: { [use]: true }, survey: { corners: ["A", "B", "C", "D"], walls: {} } };
  const patch = [...(rooms ? [] : [{ op: "add", path: "/rooms", value: {} }]), { op: "add", path: `/rooms/${id}`, value }];
  const { sent } = await edit({ patch, message: `room ${name} begun, nothing measured yet` });
  form.reset();
  sent.then(() => go({ view: "survey", room: id }), () => {});
  say(`${name} is begun; its survey is next`);
}

export function rooms() {
  const all = Object.entries(documentNow().rooms || {});
  return html`<section aria-labelledby="rooms-head"><h2 id="rooms-head">Rooms, and what they are for</h2>
    ${all.length ? html`<ol class="rooms-of">${all.map(([id, room]) => one(id, room))}</ol>` : html`<p class="quiet">No room yet.</p>`}
    <form class="more" @submit=${another}><p>Another room, a <select class="blank" name="use" aria-label="what the room is">${USES.map(([use, words]) => html`<option value=${use}>${words}</option>`)}</select> called <input class="blank" name="name" size="16" maxlength="120" aria-label="name of the new room" autocomplete="off" placeholder="its name, if it has one"> <button class="deed">Begin it, and survey it</button></p></form>
    ${nothing}
  </section>`;
}
