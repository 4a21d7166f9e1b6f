// A file of another program: it becomes a routine, and what that loses is shown before it is opened.

/** Whose part or which tune, where a file has several, is asked for then. */
class Adopting {
  #workshop;
  #open;
  #file;
  #data = "";
  #instrument;
  #part = make("input", { type: "text", autocomplete: "off" });
  #concert = make("input", { type: "checkbox" });
  #found = make("div", { className: "found", role: "status" });
  #take;
  /** @type {Protocol.Adopted | null} */
  #adopted = null;
  #dialog = make("dialog", { className: "adopting", "aria-labelledby": "adopting-title" });

  /**
   * @param {Engine} workshop
   * @param {File} file
   * @param {string[]} instruments
   * @param {(text: string) => void} open
   */
  constructor(workshop, file, instruments, open) {
    this.#workshop = workshop;
    this.#file = file;
    this.#open = open;
    const choices = instruments.map((value) => ({ value, words: value }));
    this.#instrument = instruments[0];
    const instrument = choice(t("instrument"), choices, this.#instrument, (value) => {
      this.#instrument = value;
      this.#read();
    });
    this.#part.onchange = this.#concert.onchange = () => this.#read();
    this.#take = button(t("open as routine"), () => this.#done(), "deed");
    const row = make(
      "div",
      { className: "row" },
      this.#take,
      button(t("not now"), () => this.#close()),
    );
    const concert = make("label", { className: "check" }, this.#concert, make("span", { textContent: t("as they sound") }));
    this.#dialog.append(
      make("h2", { id: "adopting-title", textContent: file.name }),
      make("div", { className: "plain" }, instrument, labelled(t("which part"), this.#part), concert),
      this.#found,
      row,
    );
    this.#dialog.addEventListener("close", () => this.#dialog.remove());
  }

  async show() {
    this.#data = await inBase64(this.#file);
    document.body.append(this.#dialog);
    openSheet(this.#dialog);
    await this.#read();
  }

  async #read() {
    const asked = { name: this.#file.name, data: this.#data, instrument: this.#instrument, part: this.#part.value };
    const answer = await this.#workshop.ask("adopt", { ...asked, concert: this.#concert.checked });
    this.#adopted = answer.ok ? answer : null;
    this.#take.disabled = !answer.ok;
    if (!answer.ok) {
      const problems = answer.problems.map((problem) => make("li", { textContent: problemWords(problem) }));
      this.#found.replaceChildren(make("ul", { className: "problems" }, ...problems));
      return;
    }
    const { losses, said, lines, compared, limited } = answer;
    const kept = !compared ? t("too long to compare") : limited ? t("kept what is in it") : t("all kept");
    const list = (/** @type {string[]} */ all) => make("ul", {}, ...all.map((one) => make("li", { textContent: one })));
    this.#found.replaceChildren(make("p", { textContent: t("so many lines", { count: lines }) }));
    if (losses.length === 0) this.#found.append(make("p", { textContent: kept }));
    else this.#found.append(make("h3", { textContent: t("not kept from it", { count: losses.length }) }), list(losses));
    if (said.length > 0) this.#found.append(make("h3", { textContent: t("assumed") }), list(said));
  }

  #done() {
    const adopted = this.#adopted;
    this.#close();
    if (adopted) this.#open(adopted.text);
  }

  #close() {
    this.#dialog.close();
  }
}

/** @param {File} file */
async function inBase64(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let letters = "";
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000) letters += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(letters);
}
