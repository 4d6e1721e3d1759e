// Pictures added: dropped on the page, or chosen.

import { upload } from "./talk.js";
import { say } from "./words.js";

const at = (id) => document.getElementById(id);

// `deeds` says chapter(): where new pages go, added(answer), say(text), tell(error).
export function lend(deeds) {
  let depth = 0;
  const hasFiles = (event) => [...(event.dataTransfer?.types ?? [])].includes("Files");
  const done = () => {
    depth = 0;
    at("drop").hidden = true;
  };
  addEventListener("dragenter", (event) => {
    if (!hasFiles(event)) return;
    depth += 1;
    at("drop").hidden = false;
  });
  addEventListener("dragleave", () => {
    depth = Math.max(depth - 1, 0);
    if (!depth) done();
  });
  addEventListener("dragover", (event) => hasFiles(event) && event.preventDefault());
  addEventListener("drop", (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    done();
    take([...event.dataTransfer.files], deeds);
  });
  at("more").addEventListener("click", () => at("files").click());
  at("files").addEventListener("change", () => {
    take([...at("files").files], deeds);
    at("files").value = "";
  });
}

async function take(files, deeds) {
  for (const file of files) {
    deeds.say(say("place.drop.looking", { name: file.name }));
    try {
      await deeds.added(await upload(file, deeds.chapter()), file.name);
    } catch (error) {
      deeds.tell(error);
    }
  }
}
