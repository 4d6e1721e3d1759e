// Beside the sheet: the spot or link in hand, and the words of the page.

import { make, say } from "./words.js";

const at = (id) => document.getElementById(id);
let papers = [];

export function learn(told) {
  papers = told.papers;
}

// The spot or link in hand.
export function current(held, page, deeds) {
  const home = at("current");
  const spot = held?.spot && page.spots.find((each) => each.name === held.spot);
  const link = held?.link && page.links.find((each) => each.name === held.link);
  const key = JSON.stringify([page.page, spot || link || null, page.numbers]);
  if (home.dataset.key === key) return;
  home.dataset.key = key;
  if (spot) home.replaceChildren(spotCard(spot, page, deeds));
  else if (link) home.replaceChildren(make("h2", { text: say("place.side.link") }), make("p", { text: link.said }));
  else home.replaceChildren();
}

function spotCard(spot, page, deeds) {
  const name = field("place.side.name", make("input", { type: "text", value: spot.said, maxlength: 60, autocomplete: "off", spellcheck: "false" }));
  const input = name.querySelector("input");
  input.addEventListener("change", () => input.value.trim() && deeds.change({ do: "name", spot: spot.name, to: input.value.trim() }));
  const taken = new Set(page.spots.filter((each) => each.name !== spot.name).map((each) => each.given));
  const options = page.numbers.filter((number) => !taken.has(number)).map((number) => make("option", { value: number, text: number, selected: number === spot.given }));
  const given = field("place.side.given", make("select", {}, make("option", { value: "", text: say("place.side.given-none") }), ...options));
  const select = given.querySelector("select");
  select.addEventListener("change", () => deeds.change({ do: "give", spot: spot.name, number: select.value || null }));
  return make("form", { class: "card", onsubmit: (event) => event.preventDefault() }, make("h2", { text: say("place.side.spot") }), name, ...(page.numbers.length ? [given] : []));
}

// The words of the page, its place and its paper.
export function about(page, book, deeds) {
  const home = at("about");
  const key = JSON.stringify([page.page, page.texts, page.turn, page.position, page.places, page.lines, book?.paper, book?.order]);
  if (home.dataset.key === key) return;
  const open = home.querySelector("details")?.open ?? false;
  const focused = document.activeElement?.closest?.("#about") ? document.activeElement.dataset.of : null;
  home.dataset.key = key;
  const parts = [];
  if (page.lines !== null) parts.push(lines(page, deeds));
  parts.push(words(page, book, deeds, open));
  home.replaceChildren(...parts);
  if (focused) home.querySelector(`[data-of="${focused}"]`)?.focus();
}

function words(page, book, deeds, open) {
  const texts = ["name", "artist", "licence"].map((key) => textField(key, page, deeds, "input"));
  const more = make("details", { open }, make("summary", { text: say("place.side.more") }), ...texts, textField("description", page, deeds, "textarea"), position(page, book, deeds), ...order(page, book, deeds), turn(page, deeds), paper(book, deeds));
  return make("form", { class: "card", onsubmit: (event) => event.preventDefault() }, more);
}

function textField(key, page, deeds, tag) {
  const input = make(tag, { "data-of": key, maxlength: key === "description" ? 1000 : 200, autocomplete: "off", ...(tag === "input" ? { type: "text", value: page.texts[key] } : { rows: 4, text: page.texts[key] }) });
  input.addEventListener("change", () => deeds.change({ do: "write", key, text: input.value }));
  return field(key === "name" ? "place.side.page-name" : `place.side.${key}`, input);
}

function position(page, book, deeds) {
  const free = say(book?.order === "as-written" ? "place.side.as-written" : "place.side.by-work");
  const places = Array.from({ length: page.places }, (_, place) => make("option", { value: String(place + 1), text: String(place + 1), selected: page.position === place + 1 }));
  const select = make("select", { "data-of": "position" }, make("option", { value: "", text: free }), ...places);
  select.addEventListener("change", () => deeds.change({ do: "position", place: select.value ? Number(select.value) : null }));
  return field("place.side.position", select);
}

// Where pages stand as they are written, each can be moved among them.
function order(page, book, deeds) {
  if (book?.order !== "as-written" || page.places < 2) return [];
  const step = (key, by) => make("button", { type: "button", class: "slip small", text: say(key), onclick: () => deeds.change({ do: "order", by }) });
  return [make("p", { class: "pair" }, step("place.side.earlier", -1), step("place.side.later", 1))];
}

function turn(page, deeds) {
  const box = make("input", { type: "checkbox", "data-of": "turn", checked: page.turn });
  box.addEventListener("change", () => deeds.change({ do: "turn", on: box.checked }));
  return make("label", { class: "check" }, box, make("span", { text: say("place.side.turn") }));
}

function paper(book, deeds) {
  const options = papers.map((name) => make("option", { value: name, text: say(`place.paper.${name}`), selected: name === book?.paper }));
  const select = make("select", { "data-of": "paper" }, ...options);
  select.addEventListener("change", () => deeds.change({ do: "paper", paper: select.value }));
  return field("place.side.paper", select);
}

// What no button mends: the page's own lines.
function lines(page, deeds) {
  const text = make("textarea", { rows: 12, spellcheck: "false", "data-of": "lines", text: page.lines });
  const go = make("button", { type: "button", class: "slip", text: say("place.lines.go"), onclick: () => deeds.change({ do: "lines", text: text.value }) });
  return make("form", { class: "card lines", onsubmit: (event) => event.preventDefault() }, make("h2", { text: say("place.lines.title") }), make("p", { text: say("place.lines.help") }), make("label", {}, make("span", { class: "unseen", text: say("place.lines.title") }), text), go);
}

function field(key, input) {
  return make("label", { class: "field" }, make("span", { text: say(key) }), input);
}
