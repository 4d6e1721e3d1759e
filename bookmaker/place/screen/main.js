// The screen: what is asked of bookmaker, and what its answers change here.

import * as adding from "./adding.js";
import * as choices from "./choices.js";
import * as further from "./further.js";
import * as hands from "./hands.js";
import * as makes from "./makes.js";
import * as row from "./row.js";
import * as sheet from "./sheet.js";
import * as side from "./side.js";
import * as talk from "./talk.js";
import * as verdict from "./verdict.js";
import { learn, make, say } from "./words.js";

const at = (id) => document.getElementById(id);

let book = null;
let state = null;
let held = null; // the spot or link that has, or had, the focus
let picked = null; // the spot that was touched
let fresh = null; // a new spot, until it is put where it belongs
let linking = null; // {from} while two spots are being linked
let pending = new Map(); // places that arrow keys moved spots to, and were not sent yet
let asking = false;
let next = null;
let reread = null;

const deeds = {
  current: (thing) => {
    if (!thing) return;
    held = thing;
    if (fresh && thing.spot !== fresh) fresh = null;
    side.current(held, sheet.page(), deeds);
  },
  touchSpot,
  touchLink: (name) => {
    picked = null;
    sheet.pick(null);
    deeds.current({ link: name });
  },
  touchPaper,
  moving,
  moved: (name, to) => {
    if (fresh === name) fresh = null;
    next = null;
    talk.forget();
    change({ do: "move", spot: name, to: sheet.perCent(to) });
  },
  nudge,
  remove,
  linkFrom: (name) => {
    linking = { from: name };
    ready();
  },
  again: () => load(sheet.page().page),
  change,
};

start();

async function start() {
  try {
    const told = await talk.get("words");
    learn(told);
    side.learn(told);
    further.learn(told);
    wire();
    await look();
    if (state.left) {
      await choices.left(state);
      await look();
    }
    const wanted = Number(location.hash.slice(1));
    const first = book.pages.find((page) => page.page === wanted) ?? book.pages[0];
    if (first) await load(first.page);
    else empty();
    document.documentElement.dataset.ready = "yes";
    browse();
  } catch (error) {
    tell(error);
  }
}

function wire() {
  hands.lend(deeds);
  adding.lend({ chapter, say: hint, tell, added });
  at("undo").addEventListener("click", () => step("undo"));
  at("redo").addEventListener("click", () => step("redo"));
  at("save").addEventListener("click", save);
  at("make").addEventListener("click", () => makes.start("book", save, tell));
  at("add").addEventListener("click", addSpot);
  at("link").addEventListener("click", () => {
    linking = linking ? null : { from: picked };
    ready();
  });
  at("remove").addEventListener("click", () => remove(picked ? { spot: picked } : held));
  at("choose").addEventListener("click", () => chosen({ do: "choose", band: "" }));
  at("propose").addEventListener("click", () => proposed({ do: "propose", count: null }));
  addEventListener("keydown", shortcut);
  addEventListener("focus", watch);
  document.addEventListener("visibilitychange", () => !document.hidden && watch());
  setInterval(() => !document.hidden && watch(), 5000);
  addEventListener("hashchange", () => {
    const wanted = Number(location.hash.slice(1));
    if (wanted && wanted !== sheet.page()?.page) load(wanted).catch(tell);
  });
}

function shortcut(event) {
  if (event.key === "Escape") {
    linking = fresh = picked = null;
    sheet.pick(null);
    ready();
  }
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const writing = event.target.closest?.("input, textarea");
  if (key === "s") save();
  else if (key === "z" && !writing) step(event.shiftKey ? "redo" : "undo");
  else if (key === "y" && !writing) step("redo");
  else return;
  event.preventDefault();
}

// The row of pages anew.
async function look() {
  book = await talk.get("book");
  news(talk.newest(book.state));
  at("title").textContent = book.title;
  document.title = book.title;
  row.show(book, sheet.page()?.page, (page) => load(page).catch(tell));
  const faults = book.faults.map((each) => make("li", { text: each.text }));
  notice("book", faults.length ? [make("h2", { text: say("place.book.faults") }), make("ul", {}, ...faults)] : null);
}

function later() {
  clearTimeout(reread);
  reread = setTimeout(() => look().then(aside).catch(tell), 250);
}

// Where the order of pages has changed, this one may stand on the other side of the paper by now.
async function aside() {
  const page = sheet.page();
  if (!page) return;
  const side_ = book.pages.find((each) => each.page === page.page)?.side;
  const moved = side_ && String(side_) !== String(page.side);
  if (moved && !pending.size && !hands.dragged()) show(await talk.get(`page/${page.page}`));
  else shown(page);
}

async function load(page) {
  linking = fresh = picked = held = null;
  further.close();
  pending.clear();
  at("hint").textContent = say("place.hint.rest");
  show(await talk.get(`page/${page}`));
  row.turn(page);
  history.replaceState(null, "", `#${page}`);
  ready();
}

function show(page) {
  sheet.show(page);
  document.body.dataset.empty = "no";
  at("current").dataset.key = "";
  if (picked && !page.spots.some((each) => each.name === picked)) picked = null;
  sheet.pick(picked);
  if (held?.spot && !page.spots.some((each) => each.name === held.spot)) held = null;
  shown(page);
}

function shown(page) {
  const notes = book?.pages.find((each) => each.page === page.page)?.notes ?? [];
  verdict.show(page.verdict, notes);
  verdict.lightProblems(page.verdict);
  row.seen(page.page, page.verdict.state);
  side.current(held, page, deeds);
  side.about(page, book, deeds);
}

function empty() {
  document.body.dataset.empty = "yes";
  verdict.show({ state: "look", head: say("place.book.empty"), says: [], faults: [] });
}

// A change made: the page as it is then.
async function change(wanted, values = {}) {
  verdict.waiting();
  try {
    const page = sheet.page().page;
    const answer = await talk.post("change", { page, change: wanted, ...values });
    taken(answer, page);
    return answer;
  } catch (error) {
    await tell(error);
    return null;
  }
}

function taken(answer, page) {
  news(answer.state);
  if (answer.page && answer.page.page === (page ?? sheet.page()?.page) && !pending.size && !hands.dragged()) show(answer.page);
  later();
}

async function step(way) {
  try {
    pending.clear();
    const answer = await talk.post(way);
    news(answer.state);
    if (answer.page && answer.page.page !== sheet.page()?.page) row.turn(answer.page.page);
    if (answer.page) show(answer.page);
    else if (sheet.page()) await load(sheet.page().page).catch(() => look().then(() => book.pages[0] && load(book.pages[0].page)));
    later();
  } catch (error) {
    tell(error);
  }
}

async function save() {
  try {
    await flush();
    const answer = await talk.post("save");
    news(answer.state);
    hint(say("place.ui.saved-now"));
    return true;
  } catch (error) {
    if (error.error !== "elsewhere") {
      tell(error);
      return false;
    }
    return both();
  }
}

async function both() {
  const now = talk.newest(await talk.get("state"));
  if (!(await choices.elsewhere(now.elsewhere))) return false;
  await look();
  await again();
  return save();
}

async function again() {
  const here = sheet.page()?.page;
  const still = book.pages.find((each) => each.page === here) ?? book.pages[0];
  if (still) await load(still.page);
}

// While a spot is dragged: the newest place is asked for, older ones are let go.
function moving(name, to) {
  next = { do: "move", spot: name, to: sheet.perCent(to) };
  if (!asking) askNext();
}

async function askNext() {
  asking = true;
  while (next) {
    const wanted = next;
    next = null;
    try {
      const found = await talk.ask(sheet.page().page, wanted);
      const drag = hands.dragged();
      if (found && drag && drag.spot === wanted.spot) {
        verdict.show(found.verdict);
        if (String(found.art.box) === String(sheet.page().art.box)) {
          sheet.show(found);
          sheet.pick(picked);
          verdict.lightProblems(found.verdict);
          sheet.shift(drag.spot, drag.to);
        }
      }
    } catch (error) {
      if (error instanceof talk.Gone) tell(error);
    }
  }
  asking = false;
}

// An arrow key: seen at once, and sent as soon as the last one is answered.
function nudge(name, [dx, dy], repeat) {
  const from = pending.get(name)?.to ?? sheet.spot(name).at;
  const to = sheet.inside([from[0] + dx, from[1] + dy]);
  if (fresh === name) fresh = null;
  const waits = pending.size > 0;
  pending.set(name, { to, repeat });
  sheet.shift(name, to);
  if (!waits) flush();
}

async function flush() {
  while (pending.size) {
    const [name, { to, repeat }] = [...pending][0];
    const page = sheet.page().page;
    verdict.waiting();
    try {
      const answer = await talk.post("change", { page, change: { do: "move", spot: name, to: sheet.perCent(to) }, goesOn: repeat });
      if (pending.get(name)?.to === to) pending.delete(name);
      taken(answer, page);
    } catch (error) {
      pending.clear();
      await tell(error);
    }
  }
}

async function addSpot() {
  further.close();
  const before = new Set(sheet.page()?.spots.map((each) => each.name));
  const answer = await change({ do: "add" });
  const added = answer?.page?.spots.find((each) => !before.has(each.name));
  if (!added) return;
  linking = picked = null;
  sheet.pick(null);
  held = { spot: added.name };
  sheet.spotElement(added.name)?.focus({ preventScroll: true });
  fresh = added.name;
  ready();
}

function touchSpot(name) {
  if (linking) {
    join(name);
    return;
  }
  picked = picked === name ? null : name;
  fresh = null;
  sheet.pick(picked);
  deeds.current({ spot: name });
  ready();
}

async function join(name) {
  if (!linking.from || linking.from === name) {
    linking = { from: linking.from === name ? null : name };
    picked = linking.from;
    sheet.pick(picked);
    ready();
    return;
  }
  const from = linking.from;
  linking = picked = null;
  sheet.pick(null);
  ready();
  await change({ do: "link", a: from, b: name });
  sheet.spotElement(name)?.focus({ preventScroll: true });
}

function touchPaper(at_) {
  if (!fresh) {
    picked = null;
    sheet.pick(null);
    ready();
    return;
  }
  const name = fresh;
  fresh = null;
  change({ do: "move", spot: name, to: sheet.perCent(sheet.inside(at_)) }, { goesOn: true }).then(() => sheet.spotElement(name)?.focus({ preventScroll: true }));
  ready();
}

async function remove(thing) {
  if (!thing) {
    hint(say("place.hint.none"));
    return;
  }
  linking = picked = fresh = held = null;
  sheet.pick(null);
  ready();
  await change(thing.spot ? { do: "remove", spot: thing.spot } : { do: "unlink", link: thing.link });
}

async function chosen(wanted) {
  const answer = await change(wanted);
  if (answer?.page) further.links(answer.page, chosen);
}

async function proposed(wanted) {
  const answer = await change(wanted);
  if (answer?.page) further.spots(answer.page, proposed);
}

// The buttons and the hint as they go with what is in hand.
function ready() {
  at("link").setAttribute("aria-pressed", linking ? "true" : "false");
  document.body.dataset.linking = linking ? "yes" : "no";
  const name = linking?.from ?? picked;
  const said = name ? sheet.spot(name)?.said ?? name : "";
  if (linking) hint(linking.from ? say("place.hint.second", { name: said }) : say("place.hint.first"));
  else if (fresh) hint(say("place.hint.added"));
  else if (picked) hint(say("place.hint.picked", { name: said }));
  else hint(say("place.hint.rest"));
}

function hint(text) {
  at("hint").textContent = text;
  at("hint").classList.remove("alarm");
}

// What the state says: can be undone, is saved, was changed elsewhere.
function news(now) {
  state = now;
  for (const way of ["undo", "redo"]) at(way).setAttribute("aria-disabled", String(!now[way]));
  const unsaved = now.unsaved.length > 0;
  at("saved").textContent = say(!unsaved ? "place.ui.saved" : now.safe ? "place.ui.unsaved" : "place.ui.unsafe");
  at("save").classList.toggle("strong", unsaved);
  document.body.dataset.unsaved = unsaved ? "yes" : "no";
  const look_ = () => make("button", { type: "button", class: "slip small", text: say("place.else.look"), onclick: () => both().catch(tell) });
  notice("else", now.elsewhere.length ? [make("p", { text: say("place.else.noticed") }), look_()] : null);
}

async function watch() {
  if (!state) return;
  try {
    const now = await talk.get("state");
    notice("gone", null);
    if (now.revision !== state.revision && !pending.size && !hands.dragged()) {
      talk.newest(now);
      await look();
      await again();
    } else if (now.elsewhere.length !== state.elsewhere.length) news(now);
  } catch (error) {
    if (error instanceof talk.Gone) tell(error);
  }
}

// What went wrong, in words.
async function tell(error) {
  if (error instanceof talk.Gone) {
    notice("gone", [make("p", { text: say("place.gone.text") })]);
    return;
  }
  if (!(error instanceof talk.Refused)) {
    console.error(error);
    return;
  }
  at("hint").textContent = error.message;
  at("hint").classList.add("alarm");
  if (error.error === "outdated") {
    talk.newest(await talk.get("state"));
    await look();
    await again();
    at("hint").textContent = error.message;
  } else if (sheet.page()) show(sheet.page());
}

function notice(name, inside) {
  at("notices").querySelector(`[data-of="${name}"]`)?.remove();
  if (inside) at("notices").append(make("div", { "data-of": name, role: name === "gone" ? "alert" : undefined }, ...inside));
}

function chapter() {
  const here = sheet.page()?.page;
  return book.pages.find((each) => each.page === here)?.chapter ?? book.chapters.at(-1)?.chapter ?? "";
}

async function added(answer, name) {
  news(answer.state);
  await look();
  await load(answer.page.page);
  hint(say("place.drop.added", { name }));
}

// Once all is quiet each page is laid out, so that the row shows where something is wrong.
async function browse() {
  for (const page of book.pages.map((each) => each.page)) {
    await new Promise((done) => (window.requestIdleCallback ?? setTimeout)(done));
    const found = await talk.get(`page/${page}`).catch(() => null);
    if (found) row.seen(page, found.verdict.state);
  }
}
