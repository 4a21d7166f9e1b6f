// The entries of a routine's text, each with its place, so that one can be changed and nothing else is: comments, order and blank lines
// stay as they are.

/**
 * An entry `key = value`. `from` and `to` are the value's place in the text, `row` begins its row, `end` is after its row's end.
 * @typedef {{ key: string, raw: string, from: number, to: number, row: number, end: number }} Entry
 */

/** @typedef {{ from: number, to: number, entries: Entry[] }} Block */

/**
 * The end of a value that begins at a place: of a string, a list, or a plain word.
 * @param {string} text
 * @param {number} at
 */
function endOfValue(text, at) {
  const first = text[at];
  if (first === '"' || first === "'") return endOfString(text, at);
  if (first !== "[") {
    const plain = /^[^#\r\n]*/.exec(text.slice(at));
    return at + (plain ? plain[0].trimEnd().length : 0);
  }
  let depth = 0;
  for (let here = at; here < text.length; here++) {
    const sign = text[here];
    if (sign === '"' || sign === "'") here = endOfString(text, here) - 1;
    else if (sign === "#") here = endOfRow(text, here) - 1;
    else if (sign === "[") depth++;
    else if (sign === "]" && --depth === 0) return here + 1;
  }
  return text.length;
}

/**
 * @param {string} text
 * @param {number} at
 */
function endOfString(text, at) {
  const quote = text[at];
  const long = text.startsWith(quote.repeat(3), at);
  for (let here = at + (long ? 3 : 1); here < text.length; here++) {
    if (quote === '"' && text[here] === "\\") here++;
    else if (long && text.startsWith(quote.repeat(3), here)) {
      let end = here + 3;
      while (text[end] === quote && end < here + 5) end++;
      return end;
    } else if (!long && text[here] === quote) return here + 1;
    // It is not closed: the engine says so.
    else if (!long && text[here] === "\n") return here;
  }
  return text.length;
}

/**
 * The place after the end of a row.
 * @param {string} text
 * @param {number} at
 */
function endOfRow(text, at) {
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end + 1;
}

/**
 * The head of the routine and its lines.
 * @param {string} text
 * @returns {{ head: Block, lines: Block[] }}
 */
function blocksIn(text) {
  /** @type {Block} */
  const head = { from: 0, to: text.length, entries: [] };
  /** @type {Block[]} */
  const lines = [];
  let block = head;
  for (let row = 0; row < text.length;) {
    const rest = text.slice(row, endOfRow(text, row));
    if (/^[ \t]*\[\[[ \t]*line[ \t]*\]\]/.test(rest)) {
      block = { from: row, to: text.length, entries: [] };
      lines.push(block);
      row += rest.length;
      continue;
    }
    const entry = /^([ \t]*)([A-Za-z0-9_-]+)([ \t]*=[ \t]*)/.exec(rest);
    if (!entry) {
      row += rest.length;
      continue;
    }
    const from = row + entry[0].length;
    const to = endOfValue(text, from);
    const end = endOfRow(text, to);
    block.entries.push({ key: entry[2], raw: text.slice(from, to), from, to, row, end });
    row = end;
  }
  // The comment right above a line belongs to that line.
  for (const [index, line] of lines.entries()) {
    line.from = aboveComment(text, line.from);
    const before = lines[index - 1] ?? head;
    before.to = line.from;
  }
  return { head, lines };
}

/**
 * Where the comment begins that stands right above a row, with no blank row between.
 * @param {string} text
 * @param {number} row
 */
function aboveComment(text, row) {
  let from = row;
  while (from > 0) {
    const above = text.lastIndexOf("\n", from - 2) + 1;
    if (!/^[ \t]*#/.test(text.slice(above, from))) break;
    from = above;
  }
  return from;
}

/**
 * What a value says; null for one that is not understood.
 * @param {string} raw
 * @returns {string | number | (string | number)[] | null}
 */
function valueOf(raw) {
  if (raw.startsWith("[")) {
    const items = raw.slice(1, raw.endsWith("]") ? -1 : undefined).match(/"(?:\\.|[^"\\])*"|'[^']*'|[^\s,[\]#"']+/g) ?? [];
    return items.map((item) => /** @type {string | number} */ (valueOf(item)));
  }
  const long = /^("""|''')\r?\n?([\s\S]*?)\1$/.exec(raw);
  if (long) return long[1] === '"""' ? unescaped(long[2].replace(/\\\r?\n\s*/g, "")) : long[2];
  if (raw.startsWith("'")) return raw.slice(1, raw.endsWith("'") && raw.length > 1 ? -1 : undefined);
  if (raw.startsWith('"')) return unescaped(raw.slice(1, raw.endsWith('"') && raw.length > 1 ? -1 : undefined));
  return /^[+-]?[\d_]+(\.\d+)?$/.test(raw) ? Number(raw.replaceAll("_", "")) : raw;
}

/** @param {string} text */
function unescaped(text) {
  const signs = /** @type {Record<string, string>} */ ({ n: "\n", t: "\t", r: "\r", b: "\b", f: "\f" });
  return text.replace(/\\(u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|.)/g, (_, sign) =>
    sign.length > 1 ? String.fromCodePoint(parseInt(sign.slice(1), 16)) : (signs[sign] ?? sign),
  );
}

/** @param {string} text */
function quotedText(text) {
  const plain = text.replace(/[\\"]/g, (sign) => `\\${sign}`);
  // Everything that TOML does not take as it is.
  const safe = plain.replace(/\p{Cc}/gu, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
  return `"${safe}"`;
}

/**
 * Notes as a value: over several rows and with the same quotes where they stood so before.
 * @param {string | null} old
 * @param {string} notes
 */
function rawNotes(old, notes) {
  const long = /^("""|''')(\s*)[\s\S]*?(\s*)\1$/.exec(old ?? "");
  if (long && !/["'\\]/.test(notes)) return long[1] + long[2] + notes.trim() + long[3] + long[1];
  const row = notes.replace(/\s*\n\s*/g, " ");
  return old?.startsWith("'") && !row.includes("'") ? `'${row}'` : quotedText(row);
}

/**
 * The raw value of a key; null where it is not there.
 * @param {Block | undefined} block
 * @param {string} key
 */
function rawOf(block, key) {
  return block?.entries.find((entry) => entry.key === key)?.raw ?? null;
}

/**
 * What an entry says, as text; empty where it is not there.
 * @param {Block | undefined} block
 * @param {string} key
 */
function saidOf(block, key) {
  const raw = rawOf(block, key);
  if (raw === null) return "";
  const value = valueOf(raw);
  return Array.isArray(value) ? value.join(", ") : String(value ?? raw);
}

/** The order in which new entries stand. */
const ORDER = [
  ..."format title purpose instrument comfortable_top reach age skills language name say on meter key tempo each notes open".split(
    " ",
  ),
  ..."tubes half_steps times articulation legato between rest count_in click guide drone tonic".split(" "),
];

/**
 * The text with an entry of a block changed, added, or, for null, taken out.
 * @param {string} text
 * @param {number | null} of index of the line; null for the head
 * @param {string} key
 * @param {string | null} raw
 */
function withEntry(text, of, key, raw) {
  const { head, lines } = blocksIn(text);
  const block = of === null ? head : lines[of];
  if (!block) return text;
  const there = block.entries.find((entry) => entry.key === key);
  if (there && raw !== null) return text.slice(0, there.from) + raw + text.slice(there.to);
  if (there) return text.slice(0, there.row) + text.slice(there.end);
  if (raw === null) return text;
  const before = block.entries.filter((entry) => ORDER.indexOf(entry.key) <= ORDER.indexOf(key)).at(-1);
  const at = before?.end ?? (of === null ? 0 : endOfRow(text, text.indexOf("[[", block.from)));
  const broken = at > 0 && text[at - 1] !== "\n" ? "\n" : "";
  return `${text.slice(0, at)}${broken}${key} = ${raw}\n${text.slice(at)}`;
}

/**
 * The text of a line with its comment, ending in one row's end.
 * @param {string} text
 * @param {number} of
 */
function lineText(text, of) {
  const block = blocksIn(text).lines[of];
  return block ? `${text.slice(block.from, block.to).trimEnd()}\n` : "";
}

/**
 * The text with lines put before another one; at the end, where there is none.
 * @param {string} text
 * @param {number} of
 * @param {string} added
 */
function withLine(text, of, added) {
  const { lines } = blocksIn(text);
  const at = lines[of]?.from ?? text.length;
  const before = text.slice(0, at);
  const gap = before === "" || before.endsWith("\n\n") ? "" : before.endsWith("\n") ? "\n" : "\n\n";
  const after = text.slice(at);
  return `${before}${gap}${added.trimEnd()}\n${after === "" ? "" : "\n"}${after}`;
}

/**
 * The text without a line.
 * @param {string} text
 * @param {number} of
 */
function withoutLine(text, of) {
  const { lines } = blocksIn(text);
  const block = lines[of];
  if (!block) return text;
  if (of + 1 < lines.length) return text.slice(0, block.from) + text.slice(block.to);
  return `${text.slice(0, block.from).trimEnd()}\n`;
}

/**
 * The text with a line at another place.
 * @param {string} text
 * @param {number} from
 * @param {number} to its index afterwards
 */
function withMoved(text, from, to) {
  const count = blocksIn(text).lines.length;
  if (from === to || to < 0 || to >= count || from >= count) return text;
  const moved = lineText(text, from);
  return withLine(withoutLine(text, from), to, moved);
}
