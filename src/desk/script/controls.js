// The controls of a line and of the head: each shows an entry of the text and writes it.

/**
 * @typedef {object} Field
 * @property {string} key of the entry
 * @property {"text" | "words" | "number" | "list" | "choice" | "walk"} kind
 * @property {string[]} [choices]
 * @property {string} [hint] what holds where nothing is written
 */

/** @type {Field[]} */
const LINE_FIELDS = [
  { key: "tempo", kind: "list" },
  { key: "times", kind: "number", hint: "1" },
  { key: "half_steps", kind: "walk", hint: "0" },
  { key: "tubes", kind: "walk" },
  { key: "articulation", kind: "choice", choices: ["as written", "slurred", "tongued", "slurred, tongued", "tongued, slurred"] },
  { key: "rest", kind: "text", hint: "same" },
  { key: "drone", kind: "text" },
  { key: "on", kind: "choice", choices: ["horn", "mouthpiece", "air"] },
];

/** What is often written. */
const OFTEN = /** @type {Record<string, string[]>} */ ({
  rest: ["same", "2 bars", "8 beats", "20 s", "none"],
  drone: ["tonic", "tonic and fifth", "off"],
  tempo: ["60", "72", "84", "96", "60, 72, 84"],
  half_steps: ["0, -1, -2", "0, -1, -2, -3, -4, -5, -6", "0, 1, 2"],
  tubes: ["0, 2, 1, 1-2, 2-3, 1-3, 1-2-3", "0, 2, 1"],
});

/**
 * What was typed, as a value of the text; null for none.
 * @param {Field} field
 * @param {string} typed
 */
function rawFrom(field, typed) {
  const text = typed.trim();
  if (text === "") return null;
  const items = text.split(/[\s,;]+/).filter(Boolean);
  const isNumber = (/** @type {string} */ item) => /^[+-]?\d+(\.\d+)?$/.test(item);
  if (field.kind === "number") return isNumber(text) ? text : quotedText(text);
  if (field.kind === "list") return items.length > 1 ? `[${items.join(", ")}]` : isNumber(text) ? text : quotedText(text);
  if (field.key === "half_steps") return `[${items.map((item) => item.replace("−", "-")).join(", ")}]`;
  if (field.key === "tubes") return `[${items.map(quotedText).join(", ")}]`;
  if (field.key === "articulation" && text.includes(",")) return `[${items.map(quotedText).join(", ")}]`;
  return quotedText(text);
}

/** @type {Set<string>} */
const listsMade = new Set();

/** @param {string} key */
function oftenList(key) {
  const id = `often-${key}`;
  if (OFTEN[key] && !listsMade.has(key)) {
    listsMade.add(key);
    document.body.append(make("datalist", { id }, ...OFTEN[key].map((value) => make("option", { value }))));
  }
  return OFTEN[key] ? id : null;
}

/**
 * A control that writes an entry; `show` writes what the text says into it.
 * @param {Book} book
 * @param {() => number | null} of
 * @param {Field} field
 */
function control(book, of, field) {
  const words = t(`field ${field.key}`);
  const write = (/** @type {string} */ typed) => {
    const text = withEntry(book.text, of(), field.key, rawFrom(field, typed));
    book.change(text, `typed ${field.key} ${of()}`);
  };
  const said = () => {
    const { head, lines } = book.parts;
    const line = of();
    return saidOf(line === null ? head : lines[line], field.key);
  };
  if (field.kind === "choice") {
    const select = make("select", { onchange: () => write(select.value) });
    const none = make("option", { value: "", textContent: t("not said") });
    select.append(none, ...(field.choices ?? []).map((value) => make("option", { value, textContent: value })));
    const show = () => (select.value = said());
    return { element: labelled(words, select), show };
  }
  const input =
    field.kind === "words"
      ? make("textarea", { rows: 1, oninput: () => write(input.value) })
      : make("input", { type: "text", placeholder: field.hint ?? "", autocomplete: "off", oninput: () => write(input.value) });
  const list = oftenList(field.key);
  if (list) input.setAttribute("list", list);
  // What is being typed stays as it is typed.
  const show = () => {
    const now = said();
    if (document.activeElement !== input && input.value !== now) input.value = now;
  };
  return { element: labelled(words, input), show };
}
