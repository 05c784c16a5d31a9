// @ts-check
/** A dialog over the list of types that can be put into a room: opened, filled by the server, shut; what it puts in is tried first. */
import { get, query } from "../../api.js";
import { freeId, html } from "../../lib/html.js";
import { faulted, redraw, state } from "../../state.js";
import { keep, pickThing, sheet, tried } from "./sheet.js";

export class TypesDialog {
  /** @param {string} id of its element */
  constructor(id) {
    this.id = id;
    /** @type {any} */
    this.types = null;
    this.open = false;
    /** What stands in the way of what was chosen. */
    this.fault = "";
  }

  async show() {
    this.open = true;
    this.fault = "";
    redraw();
    try {
      this.types = await get(`/api/types${query({ units: state.job.document.job.units })}`);
    } catch (error) {
      this.open = false;
      faulted(error);
    }
    redraw();
    requestAnimationFrame(() => {
      const box = /** @type {HTMLDialogElement | null} */ (document.getElementById(this.id));
      if (box && !box.open) box.showModal();
    });
  }

  shut() {
    this.open = false;
    /** @type {any} */ (document.getElementById(this.id))?.close();
    redraw();
  }

  /** It was shut by a key. */
  closed() {
    this.open = false;
    redraw();
  }

  /**
   * Put a thing into a collection of the room, and pick it; whether it went in.
   * @param {string} collection @param {string} words @param {any} value
   */
  async put(collection, words, value) {
    const room = /** @type {string} */ (state.place.room);
    const holder = state.job.document.rooms[room][collection];
    const taken = [...Object.keys(holder || {}), ...sheet.things.filter((t) => t.path.startsWith(`rooms/${room}/${collection}/`)).map((t) => t.id)];
    const path = `rooms/${room}/${collection}/${freeId(words, taken)}`;
    const patch = [...(holder || taken.length ? [] : [{ op: "add", path: `/rooms/${room}/${collection}`, value: {} }]), { op: "add", path: `/${path}`, value }];
    this.fault = "";
    try {
      await tried({ patch, live: true });
      this.shut();
      await keep(patch, { message: `${words} put in` });
      sheet.thing = path;
      setTimeout(() => pickThing(path), 0);
    } catch (error) {
      this.fault = [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
    }
    redraw();
    return !this.fault;
  }

  /** @param {string} name of a blank or a list in the dialog */
  chosen(name) {
    return /** @type {HTMLInputElement | HTMLSelectElement | null} */ (document.getElementById(name))?.value || "";
  }

  /** Openings and fittings, to be put in one of these walls. @param {string[]} walls */
  inWall(walls) {
    const metric = state.job.document.job.units === "metric";
    const own = this.id.split("-")[0];
    const put = (/** @type {string} */ collection, /** @type {any} */ kind) => {
      const wall = this.chosen(`${own}-wall`);
      const value = { ...kind.document, wall, along: this.chosen(`${own}-along`) };
      if (kind.kind === "door") value.hinge = wall.match(/[A-Z][0-9]{0,2}/)?.[0];
      this.put(collection, kind.kind, value);
    };
    const one = (/** @type {string} */ collection, /** @type {any} */ kind) => html`<li><button @click=${() => put(collection, kind)}><span>${kind.kind}</span><span class="num quiet">${sizeOf(kind)}</span></button></li>`;
    return html`<h3>In a wall</h3>
      <p>In wall <select class="blank" id=${`${own}-wall`} aria-label="wall">${walls.map((w) => html`<option>${w}</option>`)}</select>, <input id=${`${own}-along`} class="blank num" size="6" value=${metric ? "50 cm" : "20 in"} aria-label="along the wall" autocomplete="off"> from its first corner:</p>
      <ul class="types">${(this.types.openings || []).map((/** @type {any} */ k) => one("openings", k))}${(this.types.fittings || []).map((/** @type {any} */ k) => one("fittings", k))}</ul>`;
  }
}

/** @param {any} type */
export function sizeOf({ document: d }) {
  return [d.width, d.depth || d.length, d.height].filter(Boolean).join(" × ").replace(/ (in|mm|cm|m)(?= ×)/g, "");
}
