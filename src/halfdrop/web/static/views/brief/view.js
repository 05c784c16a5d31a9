// @ts-check
/** The brief: whose job it is, who lives there, what the rooms are for, the way in, what could be bought, which values count. */
import { get, query } from "../../api.js";
import { blank, choice, forget } from "../../lib/blanks.js";
import { html } from "../../lib/html.js";
import { documentNow, faulted, redraw, state } from "../../state.js";
import { delivery, people, practice, stock } from "./lists.js";
import { rooms } from "./rooms.js";

/** @type {any[]} */
let values = [];
let set = "";

async function load() {
  const wanted = state.job?.document.practice?.set || "us";
  if (set === wanted) return;
  try {
    values = (await get(`/api/practice${query({ set: wanted })}`)).values;
    set = wanted;
    redraw();
  } catch (error) {
    faulted(error);
  }
}

function job() {
  const currency = documentNow().job.currency || "USD";
  return html`<section aria-labelledby="job-head"><h2 id="job-head">The job</h2>
    <p>${blank("job/name", "name of the job", { size: 26, required: true })} for ${blank("job/client", "client", { size: 26, placeholder: "the client" })}, at ${blank("job/address", "address", { size: 30, placeholder: "the address" })}.</p>
    <p>By ${blank("job/decorator", "decorator", { size: 20, placeholder: "the decorator" })}, dated ${blank("job/date", "date", { size: 10, placeholder: "2030-05-31" })}, issue ${blank("job/revision", "issue", { size: 6, placeholder: "A" })} as the sheets say it.</p>
    <p>Drawn in ${choice("job/units", "units", [["imperial", "feet and inches"], ["metric", "meters"]], "imperial")}, priced in ${blank("job/currency", "currency", { size: 4, placeholder: "USD" })}. The budget is ${blank("job/budget", "budget", { size: 9, placeholder: `${currency} 9,500` })}.</p>
    <p class="text">${blank("job/brief", "the brief in words", { lines: 5, placeholder: "What the client wants, in words: what stays whatever happens, what never felt right." })}</p>
  </section>`;
}

function render() {
  const name = state.job?.document.job.name;
  return html`<div class="brief-sheet">
    <header><h1>Brief</h1><p class="quiet">${name}. Everything here is of the rooms as found, and can be undone.</p></header>
    <div class="two"><div>${job()}${rooms()}</div><div>${people()}${delivery()}${stock()}${practice(values)}</div></div>
  </div>`;
}

export default {
  id: "brief", title: "Brief", needs: "job", scrolls: true, css: ["brief.css"], render,
  enter: load,
  leave: forget,
  changed: load,
};
