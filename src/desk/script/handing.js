// What is handed on: the pupil's page as one file, and the routine for other programs.

class HandingOut {
  #book;
  #player = make("input", { type: "text", autocomplete: "off" });
  #said = make("p", { role: "status" });
  page;
  others;

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    this.page = make(
      "section",
      {},
      make("h3", { textContent: t("pupils page") }),
      make("p", { className: "soft", textContent: t("page how") }),
      labelled(t("for whom"), this.#player),
      button(t("make page"), () => this.#makePage(), "deed"),
      this.#said,
    );
    const row = make(
      "div",
      { className: "row" },
      button(t("take musicxml"), () => this.#export("musicxml", "musicxml", "application/vnd.recordare.musicxml+xml")),
      button(t("take midi"), () => this.#export("midi", "mid", "audio/midi")),
    );
    const how = make("p", { className: "soft", textContent: t("others how") });
    this.others = make("section", {}, make("h3", { textContent: t("other programs") }), how, row);
  }

  get #title() {
    return fileName(saidOf(this.#book.parts.head, "title"));
  }

  async #makePage() {
    const { text: routine, take, workshop } = this.#book;
    const player = this.#player.value.trim();
    const made = await workshop.ask("page", { routine, take, player });
    if (!made.ok) {
      this.#said.textContent = made.problems.map(problemWords).join(" ");
      return;
    }
    // The page plays with the same engine as the desk.
    const html = made.before + by("leadpipe-engine").textContent + made.after;
    const name = `${[this.#title, ...(player ? [fileName(player)] : [])].join(", ")}.html`;
    download(name, new Blob([html], { type: "text/html" }));
    this.#said.textContent = t("made", { name });
  }

  /** @param {"musicxml" | "midi"} to @param {string} ending @param {string} type */
  async #export(to, ending, type) {
    const { text: routine, take, workshop } = this.#book;
    const written = await workshop.ask("export", { routine, take, to });
    if (!written.ok) {
      this.#said.textContent = written.problems.map(problemWords).join(" ");
      return;
    }
    const bytes = Uint8Array.from(atob(written.data), (letter) => letter.charCodeAt(0));
    download(`${this.#title}.${ending}`, new Blob([bytes], { type }));
  }
}
