// The data that the page carries (Rust: handout::page::data), and numbers and problems in words.

/** @type {Protocol.PageData} */
const data = JSON.parse(by("data").textContent ?? "");

/**
 * What the page says, in its language (src/words/languages, script.ftl).
 * @param {string} key
 * @param {Record<string, string | number>} [given] what is put into it
 */
function phrase(key, given = {}) {
  const found = data.words[key];
  const form = () => new Intl.PluralRules(data.language).select(Number(given[/** @type {{ by: string }} */ (found).by]));
  const words = typeof found === "string" ? found : (found[form()] ?? found.other);
  return words.replace(/\{(\w+)\}/g, (_, /** @type {string} */ name) => String(given[name]));
}

/**
 * A number as it is written in the page's language.
 * @param {string | number} number
 */
function decimal(number) {
  return String(number).replace(".", data.decimalSign);
}

/**
 * Where the music of a line is on the page in one key.
 * @param {number} key
 * @param {number} of
 */
function placesOf(key, of) {
  return data.places[key]?.[of] ?? null;
}

/**
 * A length of time as on a player: 9:41, 1:02:03.
 * @param {number} seconds
 */
function clock(seconds) {
  const whole = Math.round(seconds);
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

/**
 * Problems as one text.
 * @param {Protocol.Problem[]} problems
 */
function inWords(problems) {
  const sentence = (/** @type {string | null} */ text) => (text ? `${text[0].toUpperCase()}${text.slice(1)}.` : "");
  return problems.map(({ message, hint }) => `${sentence(message)} ${sentence(hint)}`.trim()).join(" ");
}
