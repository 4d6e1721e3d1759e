// The row of pages: they stand on the climb, each as high as it is hard.

import { make, say } from "./words.js";

const SVG = "http://www.w3.org/2000/svg";
const at = (id) => document.getElementById(id);
const BANDS = ["gentle", "steady", "steep", "sheer"];
const RISE = 34; // pixels between the lowest and the highest page
const ready = new Map();

// What was seen of a page when it was laid out: whether it would print.
export function seen(page, state) {
  ready.set(page, state);
  mark(page);
}

export function show(book, current, open) {
  const works = book.pages.map((page) => page.work).filter((work) => work !== null);
  const low = Math.log(Math.max(Math.min(...works), 1));
  const high = Math.log(Math.max(...works, 2));
  const rise = (work) => (work === null || high <= low ? 0 : (Math.log(Math.max(work, 1)) - low) / (high - low));
  const titles = new Map(book.chapters.map((each) => [each.chapter, each.title]));
  const list = at("pages");
  const focused = document.activeElement?.closest?.("#pages button")?.dataset.page;
  let before = "";
  const items = book.pages.map((page, place) => {
    const item = card(page, place, book.pages.length, open);
    item.style.setProperty("--rise", `${Math.round(rise(page.work) * RISE)}px`);
    if (page.chapter !== before) item.append(make("span", { class: "chapter", text: titles.get(page.chapter) ?? page.chapter }));
    before = page.chapter;
    return item;
  });
  list.replaceChildren(...items);
  for (const page of book.pages) mark(page.page);
  turn(current);
  hills(book.pages.map((page) => rise(page.work)));
  if (focused) list.querySelector(`[data-page="${focused}"]`)?.focus({ preventScroll: true });
}

export function turn(current) {
  for (const button of at("pages").querySelectorAll("button")) {
    const mine = Number(button.dataset.page) === current;
    if (mine) button.setAttribute("aria-current", "page");
    else button.removeAttribute("aria-current");
    if (mine) near(button);
  }
}

function near(button) {
  const slope = at("slope");
  const left = button.parentElement.offsetLeft - (slope.clientWidth - button.offsetWidth) / 2;
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  slope.scrollTo({ left, behavior: calm ? "instant" : "smooth" });
}

function card(page, place, of, open) {
  const picture = page.picture
    ? make("img", { src: `little/${page.picture}`, alt: "", loading: "lazy", decoding: "async", width: 84, height: 60 })
    : make("span", { class: "nothing" });
  const name = page.name || "…";
  const button = make("button", { type: "button", "data-page": page.page, onclick: () => open(page.page) }, picture, make("span", { class: "name", text: name }), bars(page.band), make("span", { class: "mark" }));
  button.dataset.said = say("place.ui.page-said", { name, n: place + 1, of });
  button.dataset.band = page.band;
  button.dataset.notes = page.notes.some((note) => note.severity === "problem") ? "mend" : page.notes.length ? "look" : "";
  return make("li", {}, button);
}

function bars(band) {
  const steps = BANDS.indexOf(band) + 1;
  return make("span", { class: "bars" }, ...BANDS.map((_, place) => make("i", { class: place < steps ? "on" : "off" })));
}

function mark(page) {
  const button = at("pages").querySelector(`[data-page="${page}"]`);
  if (!button) return;
  const known = ready.get(page) ?? (button.dataset.band ? "good" : "mend");
  const state = known === "mend" || button.dataset.notes === "mend" ? "mend" : known === "look" || button.dataset.notes ? "look" : "good";
  button.dataset.state = state;
  const band = button.dataset.band ? say(`band.${button.dataset.band}`) : "";
  const said = state === "good" ? "" : say(`place.ui.page-${state}`);
  button.setAttribute("aria-label", [button.dataset.said, band, said].filter(Boolean).join(", "));
}

// The climb as a hillside under the pages, its ridge the line of their work.
function hills(rises) {
  const svg = at("hills");
  const step = 104;
  const high = 96;
  const wide = Math.max(rises.length * step, 1);
  svg.setAttribute("viewBox", `0 0 ${wide} ${high}`);
  svg.style.setProperty("width", `${wide}px`);
  const ridge = rises.map((rise, place) => [place * step + step / 2, high - 44 - rise * RISE]);
  const line = smooth([[0, ridge[0]?.[1] ?? high], ...ridge, [wide, ridge.at(-1)?.[1] ?? high]]);
  const behind = smooth([[0, high - 60], ...ridge.map(([x, y], place) => [x + 40, y - (place % 3) * 5 - 4]), [wide, high - 70]]);
  svg.replaceChildren(
    path("far", `${behind} L${wide},${high} L0,${high} Z`),
    path("near", `${line} L${wide},${high} L0,${high} Z`),
    path("ridge", line),
  );
}

function path(kind, d) {
  const element = document.createElementNS(SVG, "path");
  element.setAttribute("class", kind);
  element.setAttribute("d", d);
  return element;
}

function smooth(points) {
  return points.reduce((d, [x, y], place) => {
    if (!place) return `M${x},${y}`;
    const [px, py] = points[place - 1];
    const middle = (px + x) / 2;
    return `${d} C${middle},${py} ${middle},${y} ${x},${y}`;
  }, "");
}
