// A class's drawings looked through: each on its page, a yes or a no, rings put right.

import * as makes from "./makes.js";
import * as talk from "./talk.js";
import { learn, make, say } from "./words.js";

const SVG = "http://www.w3.org/2000/svg";
const at = (id) => document.getElementById(id);
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const RADIUS = 10; // millimetres, as children draw them

let all = [];
let shown = null;
let drag = null;

start();

async function start() {
  try {
    learn(await talk.get("words"));
    at("undo").addEventListener("click", () => step("undo"));
    at("redo").addEventListener("click", () => step("redo"));
    at("make").addEventListener("click", () => makes.start("book", async () => true, tell));
    wireRings();
    await look();
    const first = all.find((each) => !each.use) ?? all[0];
    if (first) await open(first.drawing);
    else at("verdict").replaceChildren(make("h2", { text: say("place.review.none") }));
    document.documentElement.dataset.ready = "yes";
  } catch (error) {
    tell(error);
  }
}

async function look() {
  const found = await talk.get("drawings");
  all = found.drawings;
  at("title").textContent = found.title;
  document.title = found.title;
  news(found.state);
  const focused = document.activeElement?.closest?.("#pages button")?.dataset.drawing;
  at("pages").replaceChildren(...all.map(card));
  mark();
  if (focused) at("pages").querySelector(`[data-drawing="${focused}"]`)?.focus();
}

function card(row) {
  const picture = make("img", { src: `little/${row.drawing}`, alt: "", loading: "lazy", width: 84, height: 62 });
  const said = say(row.use ? `place.review.${row.use}` : "place.review.unsaid");
  const name = say("place.review.said", { number: row.drawing, pupil: row.pupil });
  const button = make("button", { type: "button", "data-drawing": row.drawing, "data-use": row.use, "aria-label": `${name}, ${said}`, onclick: () => open(row.drawing).catch(tell) }, picture, make("span", { class: "name", text: row.pupil || row.drawing }), make("span", { class: "mark" }));
  return make("li", {}, button);
}

function mark() {
  for (const button of at("pages").querySelectorAll("button")) {
    if (button.dataset.drawing === shown?.drawing) button.setAttribute("aria-current", "page");
    else button.removeAttribute("aria-current");
  }
}

async function open(drawing) {
  show(await talk.get(`drawing/${drawing}`));
}

function show(record) {
  shown = record;
  const [wide, high] = record.size;
  const [x, y, width, height] = record.box;
  at("sheet").setAttribute("viewBox", `0 0 ${wide} ${high}`);
  at("paper").style.setProperty("--shape", String(wide / high));
  set(at("ground"), { x: 0, y: 0, width: wide, height: high });
  set(at("picture"), { x, y, width, height, href: record.picture ? `picture/${record.picture}` : "" });
  ink(record);
  rings(record);
  at("hint").textContent = record.rings.length ? say("place.review.rings") : "";
  const parts = [make("h2", { text: say("place.review.said", { number: record.drawing, pupil: record.pupil }) }), make("p", { text: say("place.review.page", { page: record.page }) }), make("p", { text: record.quality.charAt(0).toUpperCase() + record.quality.slice(1) })];
  if (record.strip) parts.push(make("img", { id: "strip", src: `picture/${record.strip}`, alt: say("place.review.strip") }));
  const waiting = all.filter((each) => !each.use).length;
  parts.push(make("p", { text: waiting ? say("place.review.left", { n: waiting }) : say("place.review.done") }));
  at("verdict").dataset.state = record.faulty ? "look" : "good";
  at("verdict").replaceChildren(...parts);
  const focused = document.activeElement?.closest?.("#answers button")?.dataset.use;
  const answer = (use) => make("button", { type: "button", class: "slip", "data-use": use || "unsaid", "aria-pressed": String(record.use === use), text: say(`place.review.${use || "unsaid"}`), onclick: () => decide(use) });
  at("answers").replaceChildren(answer("yes"), answer("no"), answer(""));
  if (focused) at("answers").querySelector(`[data-use="${focused}"]`)?.focus();
  mark();
}

function ink(record) {
  const drawn = record.svg ? new DOMParser().parseFromString(record.svg, "image/svg+xml").documentElement : null;
  const groups = drawn ? [...drawn.children].filter((each) => each.localName === "g" && each.getAttribute("class") !== "art") : [];
  at("ink").replaceChildren(...groups);
}

function rings(record) {
  at("rings").replaceChildren(
    ...record.rings.map(([x, y], place) => {
      const name = say("place.review.ring", { n: place + 1 });
      const group = set(document.createElementNS(SVG, "g"), { role: "button", tabindex: "0", "aria-label": name, "data-ring": place });
      const circle = set(document.createElementNS(SVG, "circle"), { class: "ring", cx: x, cy: y, r: RADIUS });
      const text = set(document.createElementNS(SVG, "text"), { x, y: y + 2, "text-anchor": "middle" });
      text.textContent = String(place + 1);
      group.append(circle, text);
      return group;
    }),
  );
}

function wireRings() {
  const sheet = at("sheet");
  const point = (event) => new DOMPoint(event.clientX, event.clientY).matrixTransform(sheet.getScreenCTM().inverse());
  sheet.addEventListener("pointerdown", (event) => {
    const ring = event.target.closest("[data-ring]");
    if (!ring) return;
    const start = point(event);
    drag = { place: Number(ring.dataset.ring), from: shown.rings[Number(ring.dataset.ring)], start };
    sheet.setPointerCapture(event.pointerId);
    ring.focus();
    event.preventDefault();
  });
  sheet.addEventListener("pointermove", (event) => {
    if (!drag) return;
    const now = point(event);
    move(drag.place, [drag.from[0] + now.x - drag.start.x, drag.from[1] + now.y - drag.start.y]);
  });
  sheet.addEventListener("pointerup", () => {
    if (drag) keep();
    drag = null;
  });
  sheet.addEventListener("keydown", (event) => {
    const ring = event.target.closest("[data-ring]");
    const way = STEPS[event.key];
    if (!ring || !way) return;
    const size = event.shiftKey ? 0.2 : 1;
    const place = Number(ring.dataset.ring);
    move(place, [shown.rings[place][0] + way[0] * size, shown.rings[place][1] + way[1] * size]);
    keep();
    event.preventDefault();
  });
}

function move(place, [x, y]) {
  const to = [Math.min(Math.max(x, 0), shown.size[0]), Math.min(Math.max(y, 0), shown.size[1])];
  shown.rings[place] = to;
  const group = at("rings").children[place];
  set(group.firstElementChild, { cx: to[0], cy: to[1] });
  set(group.lastElementChild, { x: to[0], y: to[1] + 2 });
}

async function keep() {
  try {
    const answer = await talk.post("rings", { drawing: shown.drawing, rings: shown.rings });
    news(answer.state);
  } catch (error) {
    tell(error);
  }
}

// A yes or a no; then the next drawing that waits for one.
async function decide(use) {
  try {
    const answer = await talk.post("said", { drawing: shown.drawing, use });
    news(answer.state);
    await look();
    const here = all.findIndex((each) => each.drawing === shown.drawing);
    const next = [...all.slice(here + 1), ...all.slice(0, here)].find((each) => !each.use);
    if (use && next) await open(next.drawing);
    else show(answer.drawing);
  } catch (error) {
    tell(error);
  }
}

async function step(way) {
  try {
    const answer = await talk.post(way);
    news(answer.state);
    await look();
    show(answer.drawing);
  } catch (error) {
    tell(error);
  }
}

function news(state) {
  for (const way of ["undo", "redo"]) at(way).setAttribute("aria-disabled", String(!state[way]));
}

function tell(error) {
  const gone = error instanceof talk.Gone;
  if (!gone && !(error instanceof talk.Refused)) console.error(error);
  const text = gone ? say("place.gone.text") : error.message;
  at("notices").replaceChildren(make("div", { role: "alert" }, make("p", { text })));
}

function set(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  return element;
}
