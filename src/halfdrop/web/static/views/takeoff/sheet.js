// @ts-check
/** One install sheet on the page: its drawings, facts, tables, lists and cautions, in the order it is printed. */
import { html, nothing, parseSvg } from "../../lib/html.js";

/** @type {WeakMap<any, SVGSVGElement>} */
const drawn = new WeakMap();

/** @param {any} part @returns {SVGSVGElement} */
function svgOf(part) {
  let svg = drawn.get(part);
  if (!svg) {
    svg = parseSvg(part.svg);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    svg.style.width = `${Math.min(100, (part.width / 172) * 100)}%`;
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", part.caption || part.name);
    svg.querySelector("title")?.remove();
    svg.querySelector(":scope > rect.f-paper")?.remove();
    drawn.set(part, svg);
  }
  return svg;
}

/** @param {any} part */
const figure = (part) => html`<figure class="to-scale"><div class="ink" tabindex="0" role="group" aria-label=${part.name}>${svgOf(part)}</div><figcaption class="small quiet">${part.caption}</figcaption></figure>`;

/** @param {any} part */
const facts = (part) => html`${part.title ? html`<h3>${part.title}</h3>` : nothing}<dl class="facts">${part.facts.map((/** @type {[string, string]} */ [label, value]) => html`<dt>${label}</dt><dd>${value}</dd>`)}</dl>`;

/** @param {any} part */
function table(part) {
  const right = new Set(part.right);
  const of = (/** @type {number} */ i) => (right.has(i) ? "num sum" : "num");
  return html`${part.title ? html`<h3>${part.title}</h3>` : nothing}<div class="wide" tabindex="0" role="region" aria-label=${part.title || "Table"}><table><thead><tr>${part.head.map((/** @type {string} */ h, /** @type {number} */ i) => html`<th scope="col" class=${right.has(i) ? "sum" : ""}>${h}</th>`)}</tr></thead>
    <tbody>${part.rows.map((/** @type {string[]} */ row) => html`<tr>${row.map((cell, i) => (i ? html`<td class=${of(i)}>${cell}</td>` : html`<th scope="row" class=${of(i)}>${cell}</th>`))}</tr>`)}</tbody></table></div>${part.note ? html`<p class="small quiet">${part.note}</p>` : nothing}`;
}

/** @param {any} part */
function list(part) {
  const items = part.items.map((/** @type {string} */ item) => html`<li>${item}</li>`);
  return html`<h3>${part.title}</h3>${part.numbered ? html`<ol class="steps">${items}</ol>` : html`<ul class="lines">${items}</ul>`}`;
}

/** @param {any} part */
const cautions = (part) => html`<h3>Cautions</h3><dl class="facts">${part.cautions.map((/** @type {[string, string]} */ [title, text]) => html`<dt>${title}</dt><dd class="prose">${text}</dd>`)}</dl>`;

/** @type {Record<string, (part: any) => any>} */
const PARTS = { figure, facts, table, list, cautions };

/** @param {any} sheet */
export function sheetParts(sheet) {
  return sheet.parts.map((/** @type {any} */ part) => PARTS[part.kind](part));
}
