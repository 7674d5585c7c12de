// A head unit with one audio-video input goes into a vehicle with rear entertainment, from the first draft to ready.
import { check, hookup, print } from "./service.js";

const drafts: [what: string, file: string][] = [
  ["first draft", "rear-entertainment/check-1-first-draft.json"],
  ["isolator behind the sleeve", "rear-entertainment/check-2-isolator-after-sleeve.json"],
  ["isolator before the sleeve", "rear-entertainment/check-3-ready.json"],
];
for (const [what, file] of drafts) {
  print(what, await check(hookup(file)));
}
