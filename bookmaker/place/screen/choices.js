// Two moments at which the teacher decides: what was left unsaved, and a file changed elsewhere.

import { get, post } from "./talk.js";
import { make, say } from "./words.js";

const dialog = document.getElementById("dialog");

function open(title, ...inside) {
  dialog.setAttribute("aria-labelledby", "dialog-title");
  dialog.replaceChildren(make("h2", { id: "dialog-title", text: title }), ...inside);
  if (!dialog.open) dialog.showModal();
}

function button(key, kind, done) {
  return make("button", { type: "button", class: `slip ${kind}`, text: say(key), onclick: done });
}

// What was left unsaved the last time; resolves when it is decided.
export function left(state) {
  return new Promise((decided) => {
    const decide = async (take) => {
      dialog.close();
      decided(await post("left", { take }));
    };
    const parts = [make("p", { text: say("place.left.text", { when: state.left.when, files: state.left.files.join(", ") }) })];
    if (state.left.elsewhere) parts.push(make("p", { text: say("place.left.elsewhere") }));
    dialog.addEventListener("cancel", (event) => event.preventDefault(), { once: true });
    open(say("place.left.title"), ...parts, make("p", { class: "pair" }, button("place.left.take", "strong", () => decide(true)), button("place.left.let", "", () => decide(false))));
  });
}

// Files changed elsewhere: page by page, which of the two holds; resolves to true when settled.
export function elsewhere(pages) {
  return new Promise((decided) => {
    const mine = new Map(pages.map((each) => [each.page, each.where !== "there"]));
    const settle = async () => {
      dialog.close();
      await post("settle", { mine: Object.fromEntries(mine) });
      decided(true);
    };
    const later = () => {
      dialog.close();
      decided(false);
    };
    dialog.addEventListener("cancel", () => decided(false), { once: true });
    const shown = pages.filter((each) => each.where !== "here"); // what was changed here alone stays
    const list = make("div", { class: "both" }, ...shown.map((each) => both(each, mine)));
    open(say("place.else.title"), make("p", { text: say("place.else.text") }), list, make("p", { class: "pair" }, button("place.else.go", "strong", settle), button("place.else.later", "", later)));
  });
}

function both(each, mine) {
  const box = make("fieldset", {}, make("legend", { text: "…" }));
  const side = (here) => {
    const radio = make("input", { type: "radio", name: `page-${each.page}`, checked: mine.get(each.page) === here, onchange: () => mine.set(each.page, here) });
    const little = make("div", { class: "little" });
    fill(box, little, `${here ? "page" : "theirs"}/${each.page}`);
    return make("label", {}, radio, make("span", { text: say(here ? "place.else.mine" : "place.else.theirs") }), little);
  };
  box.append(side(true), side(false));
  return box;
}

async function fill(box, little, path) {
  try {
    const page = await get(path);
    if (page.name) box.querySelector("legend").textContent = page.name;
    const drawn = new DOMParser().parseFromString(page.svg, "image/svg+xml").documentElement;
    drawn.removeAttribute("width");
    drawn.removeAttribute("height");
    drawn.setAttribute("aria-hidden", "true");
    const sheet = document.importNode(drawn, true);
    sheet.querySelector(".art")?.replaceWith(picture(page.art));
    little.replaceChildren(sheet);
  } catch {
    little.replaceChildren(make("p", { text: say("place.else.gone") }));
  }
}

function picture(art) {
  const image = document.createElementNS("http://www.w3.org/2000/svg", "image");
  const [x, y, width, height] = art.box;
  const attributes = { x, y, width, height, preserveAspectRatio: "none", ...(art.picture ? { href: `picture/${art.picture}` } : {}) };
  for (const [name, value] of Object.entries(attributes)) image.setAttribute(name, String(value));
  return image;
}
