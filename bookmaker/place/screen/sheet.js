// The sheet: the page as bookmaker laid it out, with spots and links that can be taken hold of.

import { say } from "./words.js";

const SVG = "http://www.w3.org/2000/svg";
const at = (id) => document.getElementById(id);
const sheet = at("sheet");

let shown = null;

export function page() {
  return shown;
}

export function spotElement(name) {
  return [...at("spots").children].find((each) => each.dataset.spot === name);
}

export function linkElement(name) {
  return [...at("links").children].find((each) => each.dataset.link === name);
}

export function spot(name) {
  return shown?.spots.find((each) => each.name === name);
}

// Show a page; what stays keeps its element, and with it the focus.
export function show(record) {
  const fresh = !shown || shown.page !== record.page;
  shown = record;
  const [wide, high] = record.size;
  sheet.setAttribute("viewBox", `0 0 ${wide} ${high}`);
  at("paper").style.setProperty("--shape", String(wide / high));
  box(at("ground"), [0, 0, wide, high]);
  sheet.setAttribute("aria-label", record.name);
  picture(record.art);
  const drawn = new DOMParser().parseFromString(record.svg, "image/svg+xml").documentElement;
  place(drawn, record, fresh);
}

function picture(art) {
  const image = at("picture");
  box(at("window").firstElementChild, art.window);
  box(image, art.box);
  const from = art.picture ? `picture/${art.picture}` : "";
  if (image.getAttribute("href") === from) return;
  if (from) image.setAttribute("href", from);
  else image.removeAttribute("href");
}

function place(drawn, record, fresh) {
  const under = [], over = [];
  const found = { link: [], tag: [], spot: [] };
  for (const group of [...drawn.children]) {
    const kind = group.getAttribute("class");
    if (group.localName !== "g" || kind === "art") continue;
    if (kind in found) found[kind].push(group);
    else (found.spot.length ? over : under).push(group);
  }
  at("under").replaceChildren(...under);
  at("over").replaceChildren(...over);
  const links = new Map(record.links.map((each) => [each.name, each]));
  const spots = new Map(record.spots.map((each) => [each.name, each]));
  keep(at("links"), found.link, "link", fresh, (element) => dressLink(element, links.get(element.dataset.link)));
  keep(at("spots"), found.spot, "spot", fresh, (element) => dressSpot(element, spots.get(element.dataset.spot), record));
  for (const tag of found.tag) {
    tag.dataset.tag = tag.dataset.link;
    tag.removeAttribute("data-link");
  }
  at("tags").replaceChildren(...found.tag);
  gaps(record.tight);
}

// Put groups into a layer: an element that was there before is filled anew and not exchanged.
function keep(layer, groups, kind, fresh, dress) {
  const before = new Map(fresh ? [] : [...layer.children].map((each) => [each.dataset[kind], each]));
  const now = groups.map((group) => {
    const known = before.get(group.dataset[kind]);
    if (!known) return document.importNode(group, true);
    known.replaceChildren(...group.children);
    return known;
  });
  const staying = new Set(now);
  for (const each of [...layer.children]) if (!staying.has(each)) each.remove();
  now.forEach((element, place) => {
    if (layer.children[place] !== element) layer.insertBefore(element, layer.children[place] ?? null);
    dress(element);
  });
}

function dressSpot(element, spot, record) {
  if (!spot) return;
  const name = spot.given ? say("place.ui.spot-given", { name: spot.said, number: spot.given }) : say("place.ui.spot", { name: spot.said });
  set(element, { role: "button", tabindex: "0", "aria-label": name });
  element.prepend(circle("halo", spot.at, record.radius + 2));
  element.append(circle("hold", spot.at, record.radius), label(spot, record));
}

function circle(kind, [x, y], radius) {
  return set(document.createElementNS(SVG, "circle"), { class: kind, cx: x, cy: y, r: radius });
}

function label(spot, record) {
  const text = set(document.createElementNS(SVG, "text"), { class: "called", "text-anchor": "middle" });
  text.textContent = spot.said;
  const below = spot.at[1] + record.radius + 7 < record.size[1] - 4;
  text.dataset.drop = String(below ? record.radius + 6.4 : -record.radius - 3);
  set(text, { x: spot.at[0], y: spot.at[1] + Number(text.dataset.drop) });
  return text;
}

function dressLink(element, link) {
  if (!link) return;
  set(element, { role: "button", tabindex: "0", "aria-label": say("place.ui.link-said", { name: link.said }) });
  const line = [...element.querySelectorAll("path")].at(-1);
  if (!line) return;
  const d = line.getAttribute("d");
  element.prepend(set(document.createElementNS(SVG, "path"), { class: "halo", d }));
  element.prepend(set(document.createElementNS(SVG, "path"), { class: "hold", d }));
}

function gaps(tight) {
  at("gaps").replaceChildren(
    ...tight.map(([x1, y1, x2, y2]) => set(document.createElementNS(SVG, "line"), { x1, y1, x2, y2 })),
  );
}

// Move a spot in sight, before bookmaker has answered: its links follow it straight.
export function shift(name, [x, y]) {
  const element = spotElement(name);
  const known = spot(name);
  if (!element || !known) return;
  for (const each of element.querySelectorAll("circle")) set(each, { cx: x, cy: y });
  const text = element.querySelector("text.called");
  if (text) set(text, { x, y: y + Number(text.dataset.drop) });
  at("gaps").replaceChildren();
  for (const link of shown.links) {
    if (link.a !== name && link.b !== name) continue;
    const other = spot(link.a === name ? link.b : link.a);
    straighten(link.name, [x, y], other.at);
  }
  carry(known.at, [x, y]);
}

function straighten(name, from, to) {
  const element = linkElement(name);
  const away = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const step = [((to[0] - from[0]) / away) * shown.radius, ((to[1] - from[1]) / away) * shown.radius];
  const d = `M${from[0] + step[0]},${from[1] + step[1]} L${to[0] - step[0]},${to[1] - step[1]}`;
  for (const path of element?.querySelectorAll("path") ?? []) path.setAttribute("d", d);
  const tag = [...at("tags").children].find((each) => each.dataset.tag === name);
  tag?.remove();
}

// The number in a spot goes with it.
function carry(from, to) {
  for (const group of at("over").children) {
    const text = group.querySelector("text");
    if (!text) continue;
    text.dataset.home ??= `${text.getAttribute("x")} ${text.getAttribute("y")}`;
    const [x, y] = text.dataset.home.split(" ").map(Number);
    if (Math.hypot(x - from[0], y - from[1]) > shown.radius) continue;
    set(text, { x: x + to[0] - from[0], y: y + to[1] - from[1] });
  }
}

// Light up what a sentence means.
export function light(spots, links) {
  for (const each of at("spots").children) each.classList.toggle("lit", spots.includes(each.dataset.spot));
  for (const each of at("links").children) each.classList.toggle("lit", links.includes(each.dataset.link));
}

export function pick(name) {
  for (const each of at("spots").children) {
    const mine = each.dataset.spot === name;
    each.classList.toggle("picked", mine);
    if (mine) each.setAttribute("aria-pressed", "true");
    else each.removeAttribute("aria-pressed");
  }
}

// A place on the screen in millimetres of the sheet, and millimetres in per cent of the picture.
export function millimetres(event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(sheet.getScreenCTM().inverse());
  return [point.x, point.y];
}

export function perCent([x, y], art = shown.art) {
  const [left, top, wide, high] = art.box;
  return [((x - left) / wide) * 100, ((y - top) / high) * 100];
}

export function inside([x, y]) {
  const [left, top, wide, high] = shown.art.box;
  return [Math.min(Math.max(x, left), left + wide), Math.min(Math.max(y, top), top + high)];
}

function box(element, [x, y, width, height]) {
  set(element, { x, y, width, height });
}

function set(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  return element;
}
