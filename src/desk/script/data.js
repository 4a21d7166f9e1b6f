// What the page was made with.

/** @typedef {{ folder: string | null, words: Record<string, string>, version: string }} DeskData */

/** @type {DeskData} */
const desk = JSON.parse(by("data").textContent ?? "");
