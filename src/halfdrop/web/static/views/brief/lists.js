// @ts-check
/** The lists of the brief: who lives here, the way in from the street, what could be bought, the house's own values. */
import { blank, choice, faultAt, keepAt, setting } from "../../lib/blanks.js";
import { freeId, html, nothing } from "../../lib/html.js";
import { documentNow } from "../../state.js";

const AGES = /** @type {[string, string][]} */ ([["child", "a child"], ["adult", "grown up"], ["elder", "elderly"]]);

/** @param {string} place @param {string} message @param {string} label */
const less = (place, message, label) => html`<button class="word small" aria-label=${`leave out: ${label}`} @click=${() => keepAt(place, [{ op: "remove", path: `/${place}` }], message)}>leave out</button>`;

/** Add to a map of the job. @param {string} map @param {string} name @param {any} value @param {string} message */
function add(map, name, value, message) {
  const document = documentNow();
  const id = freeId(name, Object.keys(document[map] || {}));
  keepAt(map, setting(document, `${map}/${id}`, value), message);
}

/** @param {(data: FormData) => void} then @returns {(event: SubmitEvent) => void} */
const sent = (then) => (event) => {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  then(new FormData(form));
  form.reset();
};

export function people() {
  const all = Object.entries(documentNow().people || {});
  return html`<section aria-labelledby="people-head"><h2 id="people-head">Who lives here</h2>
    <p class="small quiet">Children and elderly people change what is safe: cords, glass, heights, rugs.</p>
    ${all.length ? html`<ul class="rows">${all.map(([id, one]) => html`<li>${blank(`people/${id}/name`, `name of ${one.name || id}`, { size: 16, name: "name" })}, ${choice(`people/${id}/age`, `${one.name || id}`, AGES, "adult")}. ${blank(`people/${id}/note`, `note on ${one.name || id}`, { size: 26, placeholder: "a note", name: "note" })} ${less(`people/${id}`, `${one.name || id} left out`, one.name || id)}</li>`)}</ul>` : nothing}
    <form class="more" @submit=${sent((data) => add("people", String(data.get("name")), { name: String(data.get("name")).trim(), ...(data.get("age") === "adult" ? {} : { age: data.get("age") }) }, `${data.get("name")} lives here`))}>
      <p>Add <input class="blank" name="name" required maxlength="120" size="14" aria-label="name of one more" autocomplete="off">, <select class="blank" name="age" aria-label="age of one more">${AGES.map(([v, words]) => html`<option value=${v} ?selected=${v === "adult"}>${words}</option>`)}</select> <button class="word">Add</button>${faultAt("people")}</p></form>
  </section>`;
}

const WAYS = /** @type {[string, string][]} */ ([["door", "door"], ["corridor", "corridor"], ["turn", "turn"], ["stairs", "stairs"], ["lift", "lift"]]);
/** What a station of the way has beside its width and height. @type {Record<string, [string, string][]>} */
const MORE = { corridor: [["length", "long"]], turn: [["width_after", "wide after it"]], stairs: [["landing", "of landing"]], lift: [["car_width", "car width"], ["car_depth", "car depth"], ["car_height", "car height"]] };

/** @param {any} one @param {number} n @param {number} count */
function station(one, n, count) {
  const path = `delivery/${n}`, name = one.name || one.kind;
  const measure = (/** @type {string} */ key, /** @type {string} */ words) => html`${blank(`${path}/${key}`, `${name}: ${words}`, { size: 7, name: `${name}, ${words}` })} ${words}`;
  return html`<li>${one.kind[0].toUpperCase() + one.kind.slice(1)}, ${blank(`${path}/name`, `name of ${name}`, { size: 18, required: true })}: ${measure("width", "wide")}, ${measure("height", "high")}${(MORE[one.kind] || []).map(([key, words]) => html`, ${measure(key, words)}`)}.
    ${n ? html`<button class="word small" aria-label=${`earlier: ${name}`} @click=${() => keepAt(path, [{ op: "move", from: `/${path}`, path: `/delivery/${n - 1}` }], `${name} comes earlier`)}>earlier</button>` : nothing}
    ${less(path, `${name} left out of the way in`, name)}${faultAt(path)}<span class="unseen">${n + 1} of ${count}</span></li>`;
}

/** @param {FormData} data */
function addStation(data) {
  const text = (/** @type {string} */ key) => String(data.get(key) || "").trim();
  const kind = text("kind"), width = text("width"), height = text("height");
  /** @type {any} */
  const value = { kind, name: text("name") || kind, width, height };
  if (kind === "turn") value.width_after = width;
  if (kind === "lift") Object.assign(value, { car_width: width, car_depth: width, car_height: height });
  const document = documentNow();
  keepAt("delivery", document.delivery ? [{ op: "add", path: "/delivery/-", value }] : [{ op: "add", path: "/delivery", value: [value] }], `${value.name} is on the way in`);
}

export function delivery() {
  const all = documentNow().delivery || [];
  const metric = documentNow().job.units === "metric";
  return html`<section aria-labelledby="way-head"><h2 id="way-head">The way in</h2>
    <p class="small quiet">From the street to the rooms, in the order it is walked. Each new piece is tried on it before it is bought.</p>
    ${all.length ? html`<ol class="rows numbered">${all.map((/** @type {any} */ one, /** @type {number} */ n) => station(one, n, all.length))}</ol>` : nothing}
    <form class="more" @submit=${sent(addStation)}><p>Then a <select class="blank" name="kind" aria-label="what comes next on the way">${WAYS.map(([v, words]) => html`<option value=${v}>${words}</option>`)}</select> called <input class="blank" name="name" size="14" maxlength="120" aria-label="its name" autocomplete="off">, <input class="blank num" name="width" required size="6" aria-label="its width" autocomplete="off" placeholder=${metric ? "85 cm" : "34 in"}> wide, <input class="blank num" name="height" required size="6" aria-label="its height" autocomplete="off" placeholder=${metric ? "2.0 m" : "6' 8\""}> high <button class="word">Add</button>${faultAt("delivery")}</p></form>
  </section>`;
}

/** What is said of a thing to buy, by its kind. @type {Record<string, [string, string, number][]>} */
const SAID = {
  rug: [["width", "wide", 5], ["length", "long", 5], ["pile", "of pile", 6], ["fiber", "fiber", 7], ["price", "each", 8]],
  pad: [["thickness", "thick", 6], ["price", "for", 7], ["per_area", "of it", 7]],
  anchor: [["price", "each", 7]],
  piece: [["width", "wide", 6], ["length", "deep or long", 6], ["height", "high", 6], ["price", "each", 8]],
  rod: [["shortest", "at the shortest", 6], ["length", "at the longest", 6], ["price", "each", 8]],
};

export function stock() {
  const all = Object.entries(documentNow().stock || {});
  return html`<section aria-labelledby="stock-head"><h2 id="stock-head">What could be bought</h2>
    <p class="small quiet">Remedies choose from these before anything else, with their prices.</p>
    ${all.length ? html`<ul class="rows">${all.map(([id, one]) => html`<li>${one.kind[0].toUpperCase() + one.kind.slice(1)}, ${blank(`stock/${id}/name`, `name of ${id}`, { size: 20, required: true })}: ${(SAID[one.kind] || []).map(([key, words, size], n) => html`${n ? ", " : ""}${blank(`stock/${id}/${key}`, `${one.name}: ${words}`, { size, name: `${one.name}, ${words}` })} ${words}`)}${one.kind === "rug" ? html`, ${choice(`stock/${id}/pattern`, `pattern of ${one.name}`, [["", "pattern not said"], "plain", "patterned"])}` : nothing}. ${less(`stock/${id}`, `${one.name} is not to be bought`, one.name)}${faultAt(`stock/${id}`)}</li>`)}</ul>` : nothing}
    <form class="more" @submit=${sent((data) => add("stock", String(data.get("name")), { kind: data.get("kind"), name: String(data.get("name")).trim() }, `${data.get("name")} could be bought`))}>
      <p>Add a <select class="blank" name="kind" aria-label="what could be bought">${Object.keys(SAID).map((kind) => html`<option>${kind}</option>`)}</select> called <input class="blank" name="name" required size="18" maxlength="120" aria-label="what it is called" autocomplete="off"> <button class="word">Add</button>${faultAt("stock")}</p></form>
  </section>`;
}

/** @param {any[]} values the set's own */
export function practice(values) {
  const document = documentNow();
  const own = Object.entries(document.practice?.values || {});
  const known = new Map(values.map((v) => [v.key, v]));
  return html`<section aria-labelledby="practice-head"><h2 id="practice-head">Practice</h2>
    <p>Judged by ${choice("practice/set", "practice set", [["us", "the values in feet and inches"], ["metric", "the values in meters"]], "us")}. ${own.length ? "This house works to its own in:" : "Any of them can be this house's own."}</p>
    ${own.length ? html`<ul class="rows">${own.map(([key]) => html`<li><span class="key">${key}</span> ${blank(`practice/values/${key}`, `this house's ${key}`, { size: 10, required: true, name: key })} <span class="quiet">instead of ${known.get(key)?.text || "no value of the set"}</span> ${less(`practice/values/${key}`, `${key} is the set's again`, key)}</li>`)}</ul>` : nothing}
    <form class="more" @submit=${sent((data) => { const key = String(data.get("key")).trim(); keepAt("practice/values", setting(document, `practice/values/${key}`, String(data.get("value")).trim()), `this house works to ${data.get("value")} for ${key}`); })}>
      <p>Work to <input class="blank num" name="value" required size="8" aria-label="this house's value" autocomplete="off"> for <input class="blank" name="key" required size="30" list="practice-keys" aria-label="which value" autocomplete="off" placeholder="such as rugs.beyond_table"> <button class="word">Set it</button>${faultAt("practice/values")}</p>
      <datalist id="practice-keys">${values.map((v) => html`<option value=${v.key}>${v.text}, ${v.what}</option>`)}</datalist></form>
  </section>`;
}
