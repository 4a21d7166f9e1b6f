// Parts of a page. Text stays text: nothing is ever read as HTML but the engine's own drawings.

const by = (id) => document.getElementById(id);

/** An element with properties, attributes (names with a hyphen, and role) and children. */
function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (key.includes("-") || key === "role") element.setAttribute(key, value);
    else element[key] = value;
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

function button(words, onclick, className = "quiet") {
  return make("button", { type: "button", className, textContent: words, onclick });
}

/** A choice with its label: `options` are pairs of value and words. */
function choice(words, options, value, onchange) {
  const select = make("select", { onchange: () => onchange(select.value) });
  for (const [one, text] of options) select.append(make("option", { value: one, textContent: text, selected: one === value }));
  return make("label", { className: "choice" }, make("span", { textContent: words }), select);
}
