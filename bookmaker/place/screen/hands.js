// Hands on the sheet: pointer, finger and keyboard take hold of spots and links.

import * as sheet from "./sheet.js";

const STEP = 1;
const FINE = 0.2;
const STILL = 4; // pixels within which a press is a touch and no drag
const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

const area = document.getElementById("sheet");
let drag = null;

// What is in hand while the pointer is down: the spot's name and where it is now, or null.
export function dragged() {
  return drag?.moved ? { spot: drag.spot, to: drag.to } : null;
}

// `deeds` says what is done: touchSpot, touchLink, touchPaper, moving, moved, nudge, remove, linkFrom, current.
export function lend(deeds) {
  area.addEventListener("pointerdown", (event) => press(event, deeds));
  area.addEventListener("pointermove", (event) => move(event, deeds));
  area.addEventListener("pointerup", (event) => release(event, deeds));
  area.addEventListener("pointercancel", () => cancel(deeds));
  area.addEventListener("keydown", (event) => key(event, deeds));
  area.addEventListener("focusin", (event) => deeds.current(thing(event.target)));
}

function thing(target) {
  const spot = target.closest?.("#spots > [data-spot]");
  if (spot) return { spot: spot.dataset.spot };
  const link = target.closest?.("#links > [data-link]");
  return link ? { link: link.dataset.link } : null;
}

function press(event, deeds) {
  if (event.button > 0 || !event.isPrimary) return;
  const held = thing(event.target);
  const start = sheet.millimetres(event);
  if (!held?.spot) {
    drag = { start, link: held?.link, client: [event.clientX, event.clientY] };
    return;
  }
  const known = sheet.spot(held.spot);
  drag = { start, spot: held.spot, from: known.at, to: known.at, client: [event.clientX, event.clientY], moved: false };
  area.setPointerCapture(event.pointerId);
  sheet.spotElement(held.spot)?.focus({ preventScroll: true });
  deeds.current(held);
  event.preventDefault();
}

function move(event, deeds) {
  if (!drag?.spot || !event.isPrimary) return;
  const far = Math.hypot(event.clientX - drag.client[0], event.clientY - drag.client[1]);
  if (!drag.moved && far < STILL) return;
  drag.moved = true;
  area.classList.add("dragging");
  const [x, y] = sheet.millimetres(event);
  drag.to = sheet.inside([drag.from[0] + x - drag.start[0], drag.from[1] + y - drag.start[1]]);
  sheet.shift(drag.spot, drag.to);
  deeds.moving(drag.spot, drag.to);
}

function release(event, deeds) {
  if (!drag || !event.isPrimary) return;
  const done = drag;
  drag = null;
  area.classList.remove("dragging");
  if (done.spot && done.moved) deeds.moved(done.spot, done.to);
  else if (done.spot) deeds.touchSpot(done.spot);
  else if (Math.hypot(event.clientX - done.client[0], event.clientY - done.client[1]) < STILL * 2) {
    if (done.link) {
      sheet.linkElement(done.link)?.focus({ preventScroll: true });
      deeds.touchLink(done.link);
    } else deeds.touchPaper(sheet.millimetres(event));
  }
}

function cancel(deeds) {
  const done = drag;
  drag = null;
  area.classList.remove("dragging");
  if (done?.moved) deeds.again();
}

function key(event, deeds) {
  const held = thing(event.target);
  if (!held || event.ctrlKey || event.metaKey || event.altKey) return;
  const way = WAYS[event.key];
  if (held.spot && way) {
    const step = event.shiftKey ? FINE : STEP;
    deeds.nudge(held.spot, [way[0] * step, way[1] * step], event.repeat);
  } else if (event.key === "Enter" || event.key === " ") {
    if (held.spot) deeds.touchSpot(held.spot);
    else deeds.touchLink(held.link);
  } else if (event.key === "Delete" || event.key === "Backspace") deeds.remove(held);
  else if (event.key.toLowerCase() === "l" && held.spot) deeds.linkFrom(held.spot);
  else return;
  event.preventDefault();
}
