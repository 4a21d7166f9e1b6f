// Elements of the page. Text stays text: nothing is ever read as HTML but the engine's own drawings.

/**
 * The element of an id that every page has.
 * @param {string} id
 */
function by(id) {
  return find(`#${id}`);
}

/**
 * The first element that a selector finds, where every page has one.
 * @param {string} selector
 * @param {ParentNode} place
 * @returns {HTMLElement}
 */
function find(selector, place = document) {
  const found = /** @type {HTMLElement | null} */ (place.querySelector(selector));
  if (!found) throw new Error(`the page has no ${selector}`);
  return found;
}

/**
 * All elements that a selector finds.
 * @param {string} selector
 * @param {ParentNode} place
 * @returns {HTMLElement[]}
 */
function findAll(selector, place = document) {
  return [...place.querySelectorAll(selector)].map((element) => /** @type {HTMLElement} */ (element));
}

/**
 * A button of an id that every page has.
 * @param {string} id
 */
function buttonBy(id) {
  return /** @type {HTMLButtonElement} */ (by(id));
}

/**
 * The item of a line of the teacher's routine.
 * @param {number} of
 */
function itemOf(of) {
  return items()[of];
}

/** @type {HTMLElement[]} */
const allItems = [];

/** The items of all lines, in order: they stay as long as the page does. */
function items() {
  if (allItems.length === 0) allItems.push(...findAll("#lines > li"));
  return allItems;
}

/**
 * Writes a text where another stands: a page that writes only what is new stays quick on a slow phone.
 * @param {HTMLElement} place
 * @param {string} text
 */
function write(place, text) {
  if (place.textContent !== text) place.textContent = text;
}

/**
 * An element with properties, attributes (names with a hyphen, and role) and children.
 * @template {keyof HTMLElementTagNameMap} Name
 * @param {Name} name
 * @param {Record<string, unknown>} properties
 * @param {(Node | string | null)[]} children
 */
function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (key.includes("-") || key === "role") element.setAttribute(key, String(value));
    else /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (element))[key] = value;
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

/**
 * @param {string} words
 * @param {() => unknown} onclick
 */
function button(words, onclick, className = "quiet") {
  return make("button", { type: "button", className, textContent: words, onclick });
}

/**
 * A choice with its label.
 * @param {string} words
 * @param {Protocol.Choice[]} choices
 * @param {string} value
 * @param {(value: string) => void} onchange
 */
function choice(words, choices, value, onchange) {
  const select = make("select", { onchange: () => onchange(select.value) });
  for (const one of choices) {
    select.append(make("option", { value: one.value, textContent: one.words, selected: one.value === value }));
  }
  return labelled(words, select);
}

/**
 * @param {string} words
 * @param {HTMLElement} control
 */
function labelled(words, control) {
  return make("label", { className: "choice" }, make("span", { textContent: words }), control);
}

/**
 * Opens a dialog over all else, whatever the page shows.
 * @param {HTMLDialogElement} sheet
 */
function openSheet(sheet) {
  if (!sheet.open) sheet.showModal();
  sheet.scrollTop = 0;
}
