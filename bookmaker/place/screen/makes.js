// The PDF: begun, watched, and looked at.

import { get, post } from "./talk.js";
import { make, say } from "./words.js";

const home = document.getElementById("after");
const KINDS = ["book", "children", "key"];
let chosen = null;

// Make a document; what is unsaved is saved first by `save`, which says whether it could be.
export async function start(what, save, tell) {
  if (!(await save())) return;
  card(say("place.make.making"), make("progress", { "aria-label": say("place.make.making") }), what, save, tell);
  try {
    await watch(await post("make", { what, paper: chosen }), what, save, tell);
  } catch (error) {
    tell(error);
    home.replaceChildren();
  }
}

async function watch(job, what, save, tell) {
  let now = job;
  while (now.state === "making") {
    await new Promise((done) => setTimeout(done, 150));
    now = await get(`making/${job.job}`);
    const bar = home.querySelector("progress");
    if (bar && now.share) bar.value = now.share;
  }
  if (now.state === "failed") {
    card(say("place.make.failed"), make("ul", {}, ...now.told.map((text) => make("li", { text }))), what, save, tell);
    return;
  }
  const link = make("a", { class: "slip strong", href: `made/${now.job}/${encodeURIComponent(now.file)}`, target: "_blank", rel: "noopener", text: say("place.make.see") });
  card(say("place.make.made", { file: now.file, folder: now.folder }), link, what, save, tell);
}

function card(text, below, what, save, tell) {
  const others = KINDS.filter((kind) => kind !== what).map((kind) => make("button", { type: "button", class: "slip small", text: say(`place.make.${kind}`), onclick: () => start(kind, save, tell) }));
  const close = make("button", { type: "button", class: "slip small", text: say("place.ui.close"), onclick: () => home.replaceChildren() });
  home.replaceChildren(make("div", { class: "card made" }, make("h2", { text: say("place.make.title") }), make("p", { text }), below, make("p", { class: "pair" }, ...others, close)));
  home.scrollIntoView({ block: "nearest" });
}
