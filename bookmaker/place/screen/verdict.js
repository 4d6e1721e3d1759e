// The verdict: what is certain of the page, and what is to be mended.

import * as sheet from "./sheet.js";
import { make } from "./words.js";

const status = document.getElementById("verdict");

// Show a page's verdict, with what can be said of the page among the others.
export function show(verdict, notes = []) {
  const faults = [...verdict.faults, ...notes.filter((note) => !verdict.faults.some((each) => each.code === note.code))];
  const state = verdict.state === "good" && notes.length ? "look" : verdict.state;
  const parts = [make("h2", { text: verdict.head })];
  if (faults.length) parts.push(make("ul", { class: "faults" }, ...faults.map(fault)));
  if (verdict.says.length) parts.push(make("ul", { class: "says" }, ...verdict.says.map((text) => make("li", { text }))));
  status.dataset.state = state;
  status.removeAttribute("aria-busy");
  const fresh = make("div", {}, ...parts);
  if (status.firstElementChild?.innerHTML !== fresh.innerHTML) status.replaceChildren(fresh);
}

export function waiting() {
  status.setAttribute("aria-busy", "true");
}

function fault(told) {
  const item = make("li", { class: told.severity, text: told.text });
  item.addEventListener("pointerenter", () => sheet.light(told.spots, told.links));
  item.addEventListener("pointerleave", () => sheet.light([], []));
  return item;
}

// What the problems mean is lit up without being asked for.
export function lightProblems(verdict) {
  const problems = verdict.faults.filter((each) => each.severity === "problem");
  sheet.light(problems.flatMap((each) => each.spots), problems.flatMap((each) => each.links));
}
