// @ts-check
/** How changes are signed: asked once on a device, at its first use; not to sign is an answer too. */
import { html, nothing } from "./lib/html.js";
import { redraw, say, state } from "./state.js";

const KEY = "halfdrop-author";

/** @param {string} name empty: not signed */
export function sign(name) {
  state.author = name.trim();
  localStorage.setItem(KEY, state.author);
  say(state.author ? `changes made here are signed ${state.author}` : "changes made here are not signed");
  redraw();
}

/** The question, until it is answered. */
export function askToSign() {
  if (state.author !== null) return nothing;
  return html`<form class="signing" aria-label="How changes are signed" @submit=${(/** @type {SubmitEvent} */ e) => { e.preventDefault(); const name = String(new FormData(/** @type {HTMLFormElement} */ (e.target)).get("name")); if (name.trim()) sign(name); }}>
    <label for="sign-with">So that two at one job know who did what: sign what you change here</label>
    <input class="blank" id="sign-with" name="name" size="16" maxlength="60" placeholder="your name" autocomplete="name">
    <button class="word">Sign with it</button><button type="button" class="word" @click=${() => sign("")}>Do not sign</button>
  </form>`;
}
