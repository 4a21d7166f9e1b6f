// Saving into the folder that the desk is served with; as a file of its own the desk hands the file to the browser.

/**
 * @param {Book} book
 * @param {(words: string) => void} tell
 */
async function save(book, tell = () => {}) {
  const { text, work } = book;
  if (!folder.there) {
    download(`${fileName(saidOf(book.parts.head, "title"))}.toml`, new Blob([text], { type: "application/toml" }));
    book.saved(null, text);
    return;
  }
  const name = work.file ?? nameFor(book);
  if (name === null) return;
  const done = await folder.write(name, work.file === null ? null : work.saved, text);
  if (done.done === "written") {
    book.saved(name, text);
    tell("");
  } else if (done.done === "changed") compare(book, name, done.now, tell);
  else tell(t("not saved", { message: done.message }));
}

/** The name of a new file, as the person wants it. @param {Book} book */
function nameFor(book) {
  const name = prompt(t("file name"), fileName(saidOf(book.parts.head, "title")));
  if (name === null || name.trim() === "") return null;
  return name.endsWith(".toml") ? name.trim() : `${name.trim()}.toml`;
}

/**
 * The file is another than the one that was changed: both are shown, and a person chooses.
 * @param {Book} book
 * @param {string} name
 * @param {string | null} now null where it is gone
 * @param {(words: string) => void} tell
 */
function compare(book, name, now, tell) {
  const dialog = make("dialog", { className: "compare", "aria-labelledby": "compare-title" });
  const close = () => {
    dialog.close();
    dialog.remove();
  };
  const mine = button(t("keep mine"), async () => {
    close();
    const again = await folder.write(name, now, book.text);
    if (again.done === "written") book.saved(name, book.text);
    else tell(t("not saved", { message: again.done === "failed" ? again.message : t("changed again") }));
  });
  const theirs = button(t("take theirs"), () => {
    close();
    if (now === null) return;
    book.change(now, "taken from the file");
    book.saved(name, now);
  });
  theirs.disabled = now === null;
  const both = make("div", { className: "two" }, ...differing(now ?? "", book.text));
  const row = make("div", { className: "row" }, mine, theirs, button(t("not now"), close, "deed"));
  const words = now === null ? t("file gone", { name }) : t("file changed", { name });
  dialog.append(make("h2", { id: "compare-title", textContent: t("compare") }), make("p", { textContent: words }), both, row);
  document.body.append(dialog);
  openSheet(dialog);
}

/**
 * Two texts beside each other, with the rows that only one of them has marked.
 * @param {string} theirs
 * @param {string} mine
 */
function differing(theirs, mine) {
  const column = (/** @type {string} */ title, /** @type {string} */ text, /** @type {string} */ other) => {
    const known = new Set(other.split("\n"));
    const rows = text
      .split("\n")
      .map((row) => (known.has(row) ? make("div", {}, row || " ") : make("div", { className: "other" }, row || " ")));
    return make("section", {}, make("h3", { textContent: title }), make("pre", {}, ...rows));
  };
  return [column(t("in the file"), theirs, mine), column(t("on the desk"), mine, theirs)];
}
