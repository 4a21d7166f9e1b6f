// What can be marked with the pencil, at a line or on the whole routine: a sheet of buttons.

class Marks {
  #rendered;
  #pencil;
  #sheet = make("dialog", { id: "marks", "aria-labelledby": "marks-title" });
  #title = make("h2", { id: "marks-title" });
  #there = make("ul", { className: "there" });
  #wrong = make("p", { role: "status", className: "wrong" });
  #advice = make("p", { className: "soft" });
  #body = make("div");
  #undo;
  #of;
  #what = "breath after";
  #player = "";

  constructor(rendered, pencil) {
    this.#rendered = rendered;
    this.#pencil = pencil;
    this.#undo = button("Undo", async () => this.#say(await pencil.undo()));
    const done = button("Done", () => this.#sheet.close(), "deed");
    this.#sheet.append(this.#title, this.#there, this.#wrong, this.#advice, this.#body, make("div", { className: "row last" }, this.#undo, done));
    document.body.append(this.#sheet);
    pencil.addEventListener("marked", () => this.#sheet.open && this.#fill());
  }

  /** Opens the sheet of a line; null is the whole routine. */
  open(of, title) {
    this.#of = of;
    this.#title.textContent = of === null ? "Marks on every line" : `Marks: ${title}`;
    this.#say(null);
    this.#fill();
    this.#sheet.showModal();
    this.#sheet.scrollTop = 0;
  }

  #say(wrong) {
    this.#wrong.textContent = wrong ?? "";
    if (wrong) this.#wrong.scrollIntoView({ block: "nearest" });
  }

  /** Writes a mark. One of its kind that is there already gives way. */
  async #mark(kind, words) {
    const first = this.#pencil.text === null ? { player: this.#player } : {};
    const old = kind === null ? undefined : this.#pencil.at(this.#of).find((mark) => mark.kind === kind);
    this.#say(await this.#pencil.write({ of: this.#of, mark: words, replaces: old?.index, ...first }));
  }

  async #takeBack(index) {
    this.#say(await this.#pencil.write({ index, erase: true }));
  }

  #fill() {
    this.#undo.disabled = !this.#pencil.canUndo;
    const marks = this.#pencil.at(this.#of);
    const of = this.#of;
    this.#there.replaceChildren(
      ...marks.map((mark) =>
        make("li", {}, make("span", { className: "pencilled", textContent: mark.words }), button("Rub out", () => this.#takeBack(mark.index))),
      ),
    );
    this.#there.hidden = marks.length === 0;
    const advice = this.#pencil.findings.filter((finding) => finding.in === "pencil" && (of === null || finding.of === of));
    this.#advice.textContent = said(advice);
    const kinds = new Map(marks.map((mark) => [mark.kind, mark]));
    const group = (title, ...parts) => make("fieldset", {}, make("legend", { textContent: title }), make("div", { className: "row" }, ...parts));
    const word = (kind, words, text = words) => {
      const one = button(text, () => this.#mark(kind, words));
      const on = kinds.get(kind)?.typed === words;
      one.setAttribute("aria-pressed", String(on));
      if (on) one.onclick = () => this.#takeBack(kinds.get(kind).index);
      return one;
    };
    const asked = (label, kind, begin, { type = "text", ...more } = {}) => {
      const input = make("input", { type, ...more });
      const form = make("form", { className: "asked" }, make("label", {}, make("span", { textContent: label }), input), make("button", { className: "quiet", textContent: "Mark" }));
      form.addEventListener("submit", (event) => {
        event.preventDefault();
        if (input.value.trim()) this.#mark(kind, `${begin}${input.value.trim()}`);
      });
      return form;
    };
    const groups = [
      group("Tempo", word("tempo", "slower"), word("tempo", "faster"), asked("Percent of what is written", "tempo", "", { placeholder: "70%", pattern: "\\d{2,3}%" })),
      group("Rest after it", word("rest", "rest longer", "longer"), word("rest", "rest shorter", "shorter")),
      group("Rest between the times", word("between", "between longer", "longer"), word("between", "between shorter", "shorter")),
      group("Tongue or slur", ...["tongued", "slurred", "both", "as written"].map((words) => word("articulation", words))),
      group("How often", ...[1, 2, 3, 4, 5].map((n) => word("times", `times ${n}`, String(n)))),
      group("How loud", word("loudness", "softer"), word("loudness", "louder")),
      group("Held note", word("drone", "drone off", "off"), word("drone", "drone tonic", "key note"), word("drone", "drone tonic and fifth", "key note and fifth")),
      group("Guide", word("guide", "guide together", "plays along"), word("guide", "guide echo", "plays first"), word("guide", "guide off", "off")),
    ];
    if (of !== null) groups.unshift(this.#atNotes(marks));
    if (of !== null) groups.push(this.#stops(word), group("The whole line", word("leave_out", "leave out"), word("bend", "bend", "bend half steps down")));
    groups.push(
      group("Words", asked("For the sheet", "words", "words ", { maxLength: 200 })),
      make(
        "details",
        {},
        make("summary", { textContent: "Another mark, in words" }),
        make("p", { className: "soft", textContent: "For example: rest 2 bars, tempo 60, half steps 0,-1,-2, tubes 0,2, drone Bb3." }),
        asked("Mark", null, ""),
      ),
    );
    if (this.#pencil.text === null && !data.player) {
      const name = make("input", { type: "text", value: this.#player, maxLength: 60, oninput: () => (this.#player = name.value) });
      groups.unshift(make("label", { className: "choice" }, make("span", { textContent: "Your nickname (may stay empty)" }), name));
    }
    this.#body.replaceChildren(...groups.filter(Boolean));
  }

  /** Breaths and bends, by touching notes. */
  #atNotes(marks) {
    const place = make("fieldset", {}, make("legend", { textContent: "Touch a note" }));
    const draw = async () => {
      const kind = this.#what === "bend" ? "bend" : "breath_after";
      const own = marks.filter((mark) => mark.kind === kind && mark.note);
      const drawing = await zoomed(this.#rendered, this.#of, this.#what, own.map((mark) => mark.note), (note, marked) => {
        if (marked) this.#takeBack(own.find((mark) => mark.note === note).index);
        else this.#mark(null, `${this.#what} ${note}`);
      });
      place.querySelector(".zoomed, p")?.remove();
      place.append(drawing);
    };
    const ways = [
      ["breath after", "Breathe after it"],
      ["bend", "Bend it"],
    ];
    const row = make("div", { className: "row" });
    for (const [what, words] of ways) {
      const one = button(words, () => {
        this.#what = what;
        for (const other of row.children) other.setAttribute("aria-pressed", String(other === one));
        draw();
      });
      one.setAttribute("aria-pressed", String(this.#what === what));
      row.append(one);
    }
    place.append(row);
    draw();
    return place;
  }

  /** The half steps or tubes after which the line may be over. */
  #stops(word) {
    const line = this.#rendered.opened.lines.find((one) => one.of === this.#of);
    const passes = line?.passes ?? [];
    const names = [...new Set(passes.map((pass) => pass.tube ?? String(pass.halfSteps - this.#rendered.opened.take.key)))];
    if (names.length < 2) return null;
    const label = (name) => (passes[0].tube !== null ? name : moved(Number(name)));
    const row = names.slice(0, -1).map((name) => word("stop_after", `stop after ${name}`, label(name)));
    return make("fieldset", {}, make("legend", { textContent: "Stop after" }), make("div", { className: "row" }, ...row));
  }
}
