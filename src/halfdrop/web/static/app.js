// @ts-check
/** The frame: the drawer of sheets along the top edge, the sheet, the title strip along the bottom. */
import { keepPage } from "./api.js";
import { html, nothing, render } from "./lib/html.js";
import { closeJob, go, hashOf, onChange, onRedraw, openJob, outbox, placeOf, faulted, redraw, state, turnBack, documentNow } from "./state.js";
import { askToSign } from "./signing.js";
import { strip } from "./strip.js";
import { views } from "./views/index.js";

const root = /** @type {HTMLElement} */ (document.getElementById("app"));
/** @type {any} */
let current = null;
let placed = "";

for (const view of views) {
  for (const css of view.css || []) {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = `views/${view.id}/${css}`;
    document.head.append(link);
  }
}

function inked() {
  const root = document.documentElement;
  if (state.ink === "auto") delete root.dataset.ground;
  else root.dataset.ground = state.ink;
}

async function arrive() {
  const place = placeOf(location.hash);
  const view = views.find((v) => v.id === place.view) || views[0];
  state.fault = null;
  try {
    if (place.job) {
      state.place = place;
      await openJob(place.job);
    } else closeJob();
  } catch (error) {
    faulted(error);
    state.place = { view: "jobs", job: null, room: null, scheme: null };
    closeJob();
    return show(views[0]);
  }
  const rooms = Object.keys(state.job?.document?.rooms || {});
  if (state.job && (!place.room || !rooms.includes(place.room))) place.room = state.place.room && rooms.includes(state.place.room) ? state.place.room : rooms[0] || null;
  if (place.scheme && !(state.job?.document?.schemes || {})[place.scheme] && !outbox.entries.some((e) => e.scheme === place.scheme)) place.scheme = null;
  state.place = place;
  await show(view);
}

/** @param {any} view */
async function show(view) {
  const now = `${view.id} ${state.place.job} ${state.place.room} ${state.place.scheme}`;
  const changed = current !== view;
  if (changed) current?.leave?.();
  current = view;
  if (changed) for (const pane of document.querySelectorAll("#sheet, #sheet .margin")) pane.scrollTop = 0;
  document.title = [view.title, state.job?.document?.job?.name, "halfdrop"].filter(Boolean).join(" · ");
  redraw();
  if (now !== placed || changed) {
    placed = now;
    try {
      await view.enter?.();
    } catch (error) {
      faulted(error);
    }
    redraw();
    if (changed) document.querySelector(".drawer li.front")?.scrollIntoView({ inline: "center", block: "nearest" });
    if (changed && document.activeElement === document.body) arrived();
  }
}

/** The sheet takes the keys when it opens; it is outlined only where a key brought one there. */
function arrived() {
  const sheet = document.getElementById("sheet");
  if (!sheet) return;
  sheet.dataset.arrived = "";
  const touched = () => delete sheet.dataset.arrived;
  sheet.addEventListener("blur", touched, { once: true });
  sheet.focus({ preventScroll: true });
}

function drawer() {
  return html`<header class="drawer">
    <nav aria-label="Sheets of this job">
      <ol>
        ${views.map((view, n) => {
          const here = current === view;
          const shut = view.needs !== "nothing" && !state.job;
          return html`<li class=${here ? "front" : ""}>
            ${shut
              ? html`<span class="edge shut"><span class="no">${n}</span>${view.title}</span>`
              : html`<a class="edge" href=${view.id === "jobs" ? "#/" : hashOf({ view: view.id })} aria-current=${here ? "page" : nothing}><span class="no" aria-hidden="true">${n}</span>${view.title}</a>`}
          </li>`;
        })}
      </ol>
    </nav>
  </header>`;
}

function fault() {
  const f = state.fault;
  if (!f) return nothing;
  const away = () => {
    state.fault = null;
    redraw();
  };
  return html`<section class="refusal" role="alert">
    <p>${f.message}</p>
    ${f.hint ? html`<p class="hint">${f.hint}</p>` : nothing}
    <p class="ways">
      ${f.again
        ? html`<button class="word" @click=${() => { const again = f.again; away(); again?.(); }}>Keep mine all the same</button>
            <button class="word" @click=${away}>Leave theirs</button>`
        : html`<button class="word" @click=${away}>Put away</button>`}
    </p>
  </section>`;
}

function page() {
  render(
    html`<a class="skip" href="#sheet" @click=${(/** @type {Event} */ e) => { e.preventDefault(); document.getElementById("sheet")?.focus(); }}>To the sheet</a>
      ${drawer()}
      <main id="sheet" class="sheet ${current?.id || ""}" tabindex=${current?.scrolls ? "0" : "-1"}>${fault()}${current ? current.render() : nothing}</main>
      ${askToSign()}
      ${strip()}
      <div class="unseen" role="status" aria-live="polite">${state.said?.message || ""}</div>`,
    root,
  );
  current?.drawn?.();
}

onRedraw(page);
onChange((news) => current?.changed?.(news));
addEventListener("hashchange", arrive);
addEventListener("keydown", (event) => {
  const typing = event.target instanceof HTMLElement && event.target.closest("input, textarea, select, dialog");
  const command = event.ctrlKey || event.metaKey;
  if (!typing && command && event.key.toLowerCase() === "z") {
    event.preventDefault();
    turnBack(event.shiftKey ? "redo" : "undo");
  } else if (!typing && command && event.key.toLowerCase() === "y") {
    event.preventDefault();
    turnBack("redo");
  } else if (!typing && (!command || event.key.startsWith("Arrow"))) current?.key?.(event);
});
addEventListener("resize", () => redraw("resize"));
inked();
document.fonts?.addEventListener("loadingdone", () => redraw("letters"));
export { go, documentNow };
page();
arrive();
keepPage();
/* Where no job is open nothing follows the line: look whether it is back. */
setInterval(() => {
  if (state.online || state.job) return;
  fetch("/api/about").then((answer) => {
    if (!answer.ok) return;
    state.online = true;
    arrive();
  }, () => {});
}, 3000);
