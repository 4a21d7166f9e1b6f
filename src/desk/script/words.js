// All that the desk says comes from one table, `src/desk/words.rs`; engine and routine speak for themselves.

/**
 * The words of a key, with what is to be filled in.
 * @param {string} key
 * @param {Record<string, string | number>} [fill]
 */
function t(key, fill = {}) {
  const words = desk.words[key] ?? key;
  return words.replace(/\{(\w+)\}/g, (whole, name) => String(fill[name] ?? whole));
}

/**
 * Seconds as they are read on a clock.
 * @param {number} seconds
 */
function clockOf(seconds) {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/**
 * A name that every system takes for a file.
 * @param {string} title
 */
function fileName(title) {
  const plain = title.replace(/[\p{Cc}\\/:*?"<>|]/gu, " ").replace(/\s+/g, " ");
  return plain.trim().replace(/^\.+/, "") || t("untitled");
}
