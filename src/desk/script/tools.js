// The tools beside the drawing that is written into, and the keys that do the same.

/** @param {Pen} pen */
function toolsOf(pen) {
  const box = make("div", { className: "tools", role: "toolbar", "aria-label": t("tools") });
  const lengths = LENGTHS.map((length, index) => {
    const one = tool("", lengthWord(length), String(index + 1), () => pen.setLength(length));
    one.append(lengthSign(index));
    return one;
  });
  const dot = tool("·", t("dot"), ".", () => pen.dot());
  const rest = tool("–", t("rest sign"), "0", () => pen.addRest());
  const loud = make("select", { "aria-label": t("loudness"), title: t("loudness") });
  for (const word of ["", ...DYNAMICS]) loud.append(make("option", { value: word, textContent: word || t("how loud") }));
  loud.onchange = () => pen.loud(loud.value);
  const finger = make("input", { className: "finger", placeholder: "1-2", "aria-label": t("fingering"), title: t("fingering") });
  finger.onchange = () => {
    pen.mark(`[${finger.value.trim()}]`);
    finger.value = "";
  };
  const slurs = [tool("⁀", t("slur"), "S", () => pen.group("slur")), tool("‿", t("tie"), "T", () => pen.tie())];
  const three = tool("3", t("triplet"), "Shift+3", () => pen.group("triplet"));
  const bend = tool("↘", t("bend"), "N", () => pen.mark("(bend)"));
  box.append(
    group(t("length"), ...lengths, dot, rest),
    group(t("pitch"), ...signsOf(pen)),
    group(t("joined"), ...slurs, three),
    group(
      t("marks"),
      tool("’", t("breath"), ",", () => pen.breath()),
      bend,
      loud,
      finger,
    ),
    group(
      t("change"),
      tool("|", t("bar line"), "|", () => pen.barLine()),
      tool("⌫", t("delete note"), "Delete", () => pen.delete()),
    ),
  );
  const show = () => {
    const length = pen.notes.note(pen.to)?.length ?? pen.length;
    for (const [index, one] of lengths.entries()) {
      one.setAttribute("aria-pressed", String(length.replace(".", "") === LENGTHS[index]));
    }
    loud.value = pen.notes.loudAt(pen.from);
    dot.setAttribute("aria-pressed", String(length.endsWith(".")));
  };
  pen.addEventListener("selected", () => pen.of >= 0 && show());
  show();
  return box;
}

/** @param {Pen} pen */
function signsOf(pen) {
  return [
    tool("♯", t("sharp"), "+", () => pen.sign("#")),
    tool("♮", t("natural"), "=", () => pen.sign("")),
    tool("♭", t("flat"), "-", () => pen.sign("b")),
    tool("↑", t("step up"), "↑", () => pen.step(1)),
    tool("↓", t("step down"), "↓", () => pen.step(-1)),
  ];
}

/** @param {string} name @param {Node[]} inside */
function group(name, ...inside) {
  return make("div", { className: "group", role: "group", "aria-label": name }, ...inside);
}

/**
 * @param {string} sign
 * @param {string} words
 * @param {string} key
 * @param {() => void} onclick
 */
function tool(sign, words, key, onclick) {
  const title = t("with key", { words, key });
  const one = make("button", { type: "button", className: "tool", textContent: sign, title, "aria-label": words, onclick });
  // The drawing keeps the keys.
  one.onmousedown = (event) => event.preventDefault();
  return one;
}

/**
 * A small drawing of a length.
 * @param {number} index
 */
function lengthSign(index) {
  const space = "http://www.w3.org/2000/svg";
  const svg = document.createElementNS(space, "svg");
  svg.setAttribute("viewBox", "0 0 20 26");
  svg.setAttribute("aria-hidden", "true");
  const draw = (/** @type {string} */ name, /** @type {Record<string, string | number>} */ set) => {
    const part = document.createElementNS(space, name);
    for (const [key, value] of Object.entries(set)) part.setAttribute(key, String(value));
    svg.append(part);
  };
  const fill = index < 2 ? "none" : "currentColor";
  draw("ellipse", {
    cx: 8,
    cy: 21,
    rx: 4.6,
    ry: 3.2,
    fill,
    stroke: "currentColor",
    "stroke-width": 1.8,
    transform: "rotate(-18 8 21)",
  });
  if (index > 0) draw("path", { d: "M12.6 20V3", stroke: "currentColor", "stroke-width": 1.6, fill: "none" });
  for (let flag = 3; flag <= index; flag++) {
    const y = 3 + 5 * (flag - 3);
    draw("path", { d: `M12.6 ${y}c0 4 5 4.500 4 9`, stroke: "currentColor", "stroke-width": 1.8, fill: "none" });
  }
  return svg;
}

/**
 * What a key does to the notes. True if it did something.
 * @param {Pen} pen
 * @param {KeyboardEvent} event
 */
function keyed(pen, event) {
  const { key, shiftKey } = event;
  if (event.ctrlKey || event.metaKey) return keyedWithControl(pen, key.toLowerCase());
  if (event.altKey) return false;
  /** @type {Record<string, () => void>} */
  const keys = {
    ArrowLeft: () => pen.go(-1, shiftKey),
    ArrowRight: () => pen.go(1, shiftKey),
    ArrowUp: () => pen.step(shiftKey ? 7 : 1),
    ArrowDown: () => pen.step(shiftKey ? -7 : -1),
    Home: () => pen.select(pen.of, 0),
    End: () => pen.select(pen.of, pen.notes.count),
    Backspace: () => pen.delete(),
    Delete: () => pen.delete(),
    Escape: () => pen.select(pen.of, pen.to),
    0: () => pen.addRest(),
    6: () => pen.addRest(),
    ".": () => pen.dot(),
    "+": () => pen.sign("#"),
    "#": () => (event.code === "Digit3" ? pen.group("triplet") : pen.sign("#")),
    "§": () => pen.group("triplet"),
    "-": () => pen.sign("b"),
    "=": () => pen.sign(""),
    ",": () => pen.breath(),
    "|": () => pen.barLine(),
    s: () => pen.group("slur"),
    t: () => pen.tie(),
    n: () => pen.mark("(bend)"),
    " ": () => pen.hear(),
  };
  for (const [index, length] of LENGTHS.entries()) keys[index + 1] = () => pen.setLength(length);
  for (const letter of LETTERS) keys[letter.toLowerCase()] = () => pen.addLetter(letter);
  const does = keys[key.length === 1 ? key.toLowerCase() : key];
  does?.();
  return Boolean(does);
}

/** @param {Pen} pen @param {string} key */
function keyedWithControl(pen, key) {
  if (key === "c") navigator.clipboard?.writeText(pen.copy()).catch(() => {});
  else if (key === "x") {
    navigator.clipboard?.writeText(pen.copy()).catch(() => {});
    pen.delete();
  } else if (key === "v") pen.paste();
  else if (key === "a") pen.select(pen.of, 1, pen.notes.count);
  else return false;
  return true;
}
