// @ts-check
/** The rendering library, under the names the page uses. */
export { html, svg, render, nothing } from "lit-html";
export { repeat } from "lit-html/directives/repeat.js";

/**
 * Parse a drawing of the server's; nothing in it is run (the policy allows no inline script).
 * @param {string} text
 * @returns {SVGSVGElement}
 */
export function parseSvg(text) {
  const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (root.nodeName !== "svg") throw new Error("the drawing could not be read");
  return /** @type {SVGSVGElement} */ (/** @type {unknown} */ (document.importNode(root, true)));
}

/**
 * A short id that is free among `taken`, from a person's words.
 * @param {string} words
 * @param {Iterable<string>} taken
 */
export function freeId(words, taken) {
  const known = new Set(taken);
  const base = words.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 32) || "thing";
  let id = base;
  for (let n = 2; known.has(id); n += 1) id = `${base}-${n}`;
  return id;
}

/** @param {string} text */
export function sentence(text) {
  return text ? text[0].toUpperCase() + text.slice(1) : text;
}

/**
 * A pointer's last steps: `rooms/living/pieces/sofa` → `sofa`.
 * @param {string} path
 */
export function lastOf(path) {
  return path.slice(path.lastIndexOf("/") + 1);
}
