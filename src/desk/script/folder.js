// The files of the folder that the desk is served with. As a file of its own it has none.

/** @typedef {{ name: string, bytes: number, changed: number }} Listed */

const folder = {
  there: desk.folder !== null,

  /** @returns {Promise<Listed[]>} */
  async list() {
    if (!this.there) return [];
    try {
      const answer = await fetch("files");
      return answer.ok ? await answer.json() : [];
    } catch {
      // The program was ended: what is kept in the browser is still there.
      return [];
    }
  },

  /**
   * The text of a file; null where there is none.
   * @param {string} name
   * @returns {Promise<string | null>}
   */
  async read(name) {
    try {
      const answer = await fetch(address(name));
      return answer.ok ? (await answer.json()).text : null;
    } catch {
      return null;
    }
  },

  /**
   * Writes a text in the place of the one it was made from. Where the file has another one by now nothing is written.
   * @param {string} name
   * @param {string | null} before null for a new file
   * @param {string} text
   * @returns {Promise<{ done: "written" } | { done: "changed", now: string | null } | { done: "failed", message: string }>}
   */
  async write(name, before, text) {
    try {
      const answer = await fetch(address(name), { method: "PUT", body: JSON.stringify({ before, text }) });
      if (answer.ok) return { done: "written" };
      const said = await answer.json().catch(() => ({}));
      if (answer.status === 409) return { done: "changed", now: said.text ?? null };
      return { done: "failed", message: said.message ?? t("no such place") };
    } catch {
      return { done: "failed", message: t("no program") };
    }
  },
};

/** @param {string} name */
function address(name) {
  return `file/${name.split("/").map(encodeURIComponent).join("/")}`;
}
