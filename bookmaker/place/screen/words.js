// The words of the screen: they come from the same tables as the printed ones.

let table = {};
let rules = new Intl.PluralRules("en");
let shown = new Intl.NumberFormat("en");

export function learn(told) {
  table = told.words;
  rules = new Intl.PluralRules(told.language);
  shown = new Intl.NumberFormat(told.language);
  for (const each of document.querySelectorAll("[data-word]")) each.textContent = say(each.dataset.word);
  for (const each of document.querySelectorAll("[data-label]")) each.setAttribute("aria-label", say(each.dataset.label));
}

// The words for a key; values.n chooses the form where there are several.
export function say(key, values = {}) {
  const forms = table[key] ?? [key];
  const form = forms.length > 1 && rules.select(values.n ?? 0) !== "one" ? forms[1] : forms[0];
  return form.replace(/\{(\w+)\}/g, (place, name) => {
    const value = values[name];
    return value === undefined ? place : typeof value === "number" ? shown.format(value) : String(value);
  });
}

// An element with text and attributes; what is undefined or false is left out.
export function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false || value === null) continue;
    if (name === "text") element.textContent = value;
    else if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...inside);
  return element;
}
