// Behind the button More: all that is not at the thumb while a routine is played.

class More {
  #sheet = /** @type {HTMLDialogElement} */ (by("more"));

  /** @param {Stand} stand */
  constructor(stand) {
    const close = () => this.#sheet.close();
    by("others").addEventListener("click", () => {
      this.#sheet.dispatchEvent(new Event("opens"));
      openSheet(this.#sheet);
    });
    by("back").addEventListener("click", close);
    for (const [id, does] of /** @type {const} */ ([
      ["previous", () => stand.turn(-1)],
      ["next", () => stand.turn(1)],
      ["leave", () => history.back()],
    ])) {
      by(id).addEventListener("click", () => {
        close();
        does();
      });
    }
    this.#hand();
  }

  /**
   * @param {string} name of the line that is played
   * @param {string} tempo clicks a minute
   * @param {boolean} first
   * @param {boolean} last
   */
  show(name, tempo, first, last) {
    by("more-title").textContent = name;
    by("clicks").textContent = tempo;
    by("clicks").setAttribute("aria-label", phrase("clicks-a-minute", { tempo }));
    buttonBy("previous").disabled = first;
    buttonBy("next").disabled = last;
  }

  /**
   * Tempo and pencil, where the engine plays.
   * @param {Settings} settings
   */
  offer(settings) {
    for (const id of ["pace", "mark"]) by(id).hidden = false;
    by("slower").addEventListener("click", () => settings.slower());
    by("faster").addEventListener("click", () => settings.faster());
  }

  /** Which hand holds the phone: remembered for every routine. */
  #hand() {
    const box = /** @type {HTMLInputElement} */ (by("left-handed"));
    const show = () => document.body.classList.toggle("left-handed", box.checked);
    box.checked = memory.get("hand") === "left";
    box.addEventListener("change", () => {
      memory.set("hand", box.checked ? "left" : null);
      show();
    });
    show();
  }
}
