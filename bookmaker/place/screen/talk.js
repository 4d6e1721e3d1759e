// Talking with bookmaker: questions and changes as JSON, one change after the other.

export class Refused extends Error {
  constructor(error, say) {
    super(say || error);
    this.error = error;
  }
}

export class Gone extends Error {}

const windowName = crypto.randomUUID();
let revision = 0;
let turn = 0;
let line = Promise.resolve();

export function newest(state) {
  revision = state.revision;
  return state;
}

export async function get(path) {
  return answer(() => fetch(path, { headers: { accept: "application/json" } }));
}

// A change waits for those before it, so that each is made of what the last one left.
export function post(path, values = {}) {
  const mine = line.then(() => sent(path, { revision, ...values }));
  line = mine.catch(() => undefined);
  return mine;
}

// How a page would be with a change: only the newest question of this window is answered.
export async function ask(page, change) {
  turn += 1;
  const mine = turn;
  const found = await answer(() => fetch("ask", body({ revision, page, change, window: windowName, turn: mine })));
  return found.dropped || mine !== turn ? null : found;
}

export function forget() {
  turn += 1;
}

export async function upload(file, chapter) {
  const where = `pictures?${new URLSearchParams({ name: file.name, chapter })}`;
  const found = await answer(() =>
    fetch(where, { method: "POST", headers: { "content-type": "application/octet-stream" }, body: file }),
  );
  newest(found.state);
  return found;
}

async function sent(path, values) {
  const found = await answer(() => fetch(path, body(values)));
  if (found.state) newest(found.state);
  return found;
}

function body(values) {
  return { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(values) };
}

async function answer(asking) {
  let response;
  try {
    response = await asking();
  } catch {
    throw new Gone();
  }
  const found = await response.json().catch(() => ({ error: "fault" }));
  if (!response.ok) throw new Refused(found.error, found.say);
  return found;
}
