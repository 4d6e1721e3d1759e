// What goes on from a choice of ours: easier, harder, one spot more, one fewer.

import { make, say } from "./words.js";

const at = (id) => document.getElementById(id);
let bands = [];

export function learn(told) {
  bands = told.bands;
}

export function close() {
  for (const each of document.querySelectorAll(".further")) each.hidden = true;
}

function open(home, label, ...inside) {
  close();
  home.setAttribute("role", "group");
  home.setAttribute("aria-label", label);
  home.replaceChildren(...inside);
  home.hidden = false;
}

// After links were chosen: other ones.
export function links(page, change) {
  const option = (text, band, on) => make("button", { type: "button", class: "slip small", text, "aria-pressed": on ? "true" : undefined, onclick: () => change({ do: "choose", band }) });
  open(
    at("choose-further"),
    say("place.choose.title"),
    option(say("place.choose.easier"), "easier"),
    option(say("place.choose.harder"), "harder"),
    option(say("place.choose.short"), ""),
    ...bands.map((band) => option(say(`band.${band}`), band, page.band === band)),
  );
}

// After spots were proposed: fewer or more of them.
export function spots(page, change) {
  const count = page.spots.length;
  const option = (key, n) => make("button", { type: "button", class: "slip small", text: say(key), disabled: n < 2 || n > 35, onclick: () => change({ do: "propose", count: n }) });
  open(
    at("propose-further"),
    say("place.propose.title"),
    make("p", { text: say("place.propose.count", { n: count }) }),
    option("place.propose.fewer", count - 1),
    option("place.propose.more", count + 1),
  );
}
