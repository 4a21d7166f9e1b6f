// The notes of a line as they are written: tokens with their places, and edits that change those and nothing else.

/**
 * - `note`: a pitch or a breath in or out, with a number from 1, as the pencil counts
 * - `rest`, `tie`, `bar`, `open` (with its word: slur, triplet), `close`, `word` (a dynamic, breath)
 * @typedef {object} Token
 * @property {"note" | "rest" | "tie" | "bar" | "open" | "close" | "word"} kind
 * @property {string} text
 * @property {number} from
 * @property {number} to
 * @property {number} number of the note, or of the one before; 0 before the first
 * @property {string} pitch "F#4"
 * @property {string} length "half."; the one that holds here where none is written
 * @property {boolean} ownLength
 * @property {string} rest of a note after its length: fingering, marks
 */

const LENGTHS = ["whole", "half", "quarter", "eighth", "sixteenth"];
const DYNAMICS = ["pp", "p", "mp", "mf", "f", "ff", "cresc", "dim"];
const LETTERS = "CDEFGAB";
const HALF_STEPS = [0, 2, 4, 5, 7, 9, 11];

const TOKEN = /[|]|[,;]|\)|(?:slur|triplet)?\(\s*(?!\w+\))|[^\s|,;()[\]]+(?:\[[^\]]*\]|\(\w+\))*|\S/g;
const NOTE = /^([A-G])([#b♯♭]?)(\d)(?::([a-z]+\.?))?(.*)$/;
const PLAIN = /^(rest|tie|in|out|hold)(?::([a-z]+\.?))?(.*)$/;

/**
 * @param {string} text
 * @param {string} each the length of notes that name none, from the line's `each`
 * @returns {Token[]}
 */
function tokensOf(text, each = "") {
  let [number, length] = [0, each];
  /** @type {Token[]} */
  const tokens = [];
  for (const found of text.matchAll(TOKEN)) {
    const word = found[0].trimEnd();
    const from = found.index ?? 0;
    const note = NOTE.exec(word);
    const plain = PLAIN.exec(word);
    const own = note?.[4] ?? plain?.[2];
    if (own && plain?.[1] !== "tie") length = own;
    const isNote = note || (plain && ["in", "out", "hold"].includes(plain[1]));
    if (isNote) number++;
    /** @type {Token["kind"]} */
    let kind = "word";
    if (isNote) kind = "note";
    else if (plain) kind = plain[1] === "rest" ? "rest" : "tie";
    else if (word === "|") kind = "bar";
    else if (word.endsWith("(")) kind = "open";
    else if (word === ")") kind = "close";
    const pitch = note ? note[1] + note[2].replace("♯", "#").replace("♭", "b") + note[3] : (plain?.[1] ?? "");
    const token = { kind, text: word, from, to: from + word.length, number, pitch, ownLength: Boolean(own) };
    tokens.push({ ...token, length: own ?? length, rest: note?.[5] ?? plain?.[3] ?? "" });
  }
  return tokens;
}

/**
 * Whole notes that a length lasts.
 * @param {string} length
 */
function wholeOf(length) {
  const index = LENGTHS.indexOf(length.replace(".", ""));
  if (index < 0) return 0.25;
  return (length.endsWith(".") ? 1.5 : 1) / 2 ** index;
}

/**
 * A pitch some steps higher on the staff, without an accidental.
 * @param {string} pitch
 * @param {number} steps
 */
function stepped(pitch, steps) {
  const at = LETTERS.indexOf(pitch[0]) + 7 * Number(pitch.at(-1)) + steps;
  return `${LETTERS[((at % 7) + 7) % 7]}${Math.floor(at / 7)}`;
}

/**
 * The number of a pitch, in half steps; C4 is 60.
 * @param {string} pitch
 */
function halfStepOf(pitch) {
  const sign = pitch.length > 2 ? (pitch[1] === "#" ? 1 : -1) : 0;
  return 12 * (Number(pitch.at(-1)) + 1) + HALF_STEPS[LETTERS.indexOf(pitch[0])] + sign;
}

/**
 * The pitch of a letter that lies nearest to another.
 * @param {string} letter
 * @param {string} near
 */
function nearest(letter, near) {
  const octaves = [...Array(9).keys()].map((octave) => `${letter}${octave}`);
  const far = (/** @type {string} */ pitch) => Math.abs(halfStepOf(pitch) - halfStepOf(near));
  return octaves.reduce((best, one) => (far(one) < far(best) ? one : best));
}

/**
 * How a note is written: with its length only where the one before has another.
 * @param {string} pitch
 * @param {string} length
 * @param {string} rest
 */
function written(pitch, length, rest = "") {
  return `${pitch}:${length}${rest}`;
}

class Notes {
  text;
  each;
  tokens;

  /**
   * @param {string} text
   * @param {string} each
   */
  constructor(text, each = "") {
    this.text = text;
    this.each = each;
    this.tokens = tokensOf(text, each);
  }

  /** How many notes there are. */
  get count() {
    return this.tokens.at(-1)?.number ?? 0;
  }

  /** @param {number} number */
  note(number) {
    return this.tokens.find((token) => token.kind === "note" && token.number === number);
  }

  /**
   * The token at which something is inserted after a note: its last tie, or the note itself.
   * @param {number} number
   */
  #lastOf(number) {
    const index = this.tokens.findIndex((token) => token.kind === "note" && token.number === number);
    let last = index;
    for (let at = index + 1; this.tokens[at]?.kind === "tie" || this.tokens[at]?.kind === "bar"; at++) {
      if (this.tokens[at].kind === "tie") last = at;
    }
    return last < 0 ? undefined : this.tokens[last];
  }

  /**
   * A note or rest after a note, or before the first. The lengths of all others stay what they are.
   * @param {number} after
   * @param {string} pitch
   * @param {string} length
   */
  insert(after, pitch, length) {
    const last = this.#lastOf(after);
    const at = last?.to ?? this.#start();
    return this.#keepingLengths(at, `${last ? " " : ""}${written(pitch, length)}${last ? "" : " "}`);
  }

  /** Where the first note would stand: after a dynamic at the beginning. */
  #start() {
    const first = this.tokens[0];
    return first?.kind === "word" && DYNAMICS.includes(first.text) ? first.to + 1 : 0;
  }

  /**
   * @param {number} at
   * @param {string} added
   */
  #keepingLengths(at, added) {
    const next = this.tokens.find(({ kind, from }) => from >= at && (kind === "note" || kind === "rest"));
    const end = this.text.length;
    if (!next || next.ownLength) return tidy(this.text.slice(0, at) + added + this.text.slice(at, end));
    const own = written(next.pitch, next.length, next.rest);
    return tidy(this.text.slice(0, at) + added + this.text.slice(at, next.from) + own + this.text.slice(next.to));
  }

  /**
   * Other words in the place of notes.
   * @param {number[]} numbers
   * @param {(token: Token) => string} other
   */
  replace(numbers, other) {
    let text = this.text;
    for (const token of [...this.tokens].reverse()) {
      if (token.kind !== "note" || !numbers.includes(token.number)) continue;
      text = text.slice(0, token.from) + other(token) + text.slice(token.to);
    }
    return text;
  }

  /** @param {number[]} numbers @param {(pitch: string) => string} other */
  pitched(numbers, other) {
    return this.replace(numbers, (token) =>
      token.pitch.length > 1 && LETTERS.includes(token.pitch[0])
        ? token.text.replace(/^[A-G][#b♯♭]?\d/, other(token.pitch))
        : token.text,
    );
  }

  /** @param {number[]} numbers @param {string} length */
  lengthened(numbers, length) {
    const after = this.tokens.find(({ kind, number }) => (kind === "note" || kind === "rest") && number > Math.max(...numbers));
    let { text } = this;
    if (after && !after.ownLength) {
      text = text.slice(0, after.from) + written(after.pitch, after.length, after.rest) + text.slice(after.to);
    }
    return new Notes(text, this.each).replace(numbers, (token) => written(token.pitch, length, token.rest));
  }

  /**
   * Without these notes, and without the ties of theirs. Groups that hold nothing go, too.
   * @param {number[]} numbers
   */
  without(numbers) {
    const gone = (/** @type {Token} */ token) => ["note", "tie"].includes(token.kind) && numbers.includes(token.number);
    let text = "";
    let length = "";
    let at = 0;
    for (const token of this.tokens) {
      if (gone(token)) {
        text += this.text.slice(at, token.from);
        at = token.to;
        length = "lost";
      } else if ((token.kind === "note" || token.kind === "rest") && length === "lost") {
        text += this.text.slice(at, token.from) + (token.ownLength ? token.text : written(token.pitch, token.length, token.rest));
        at = token.to;
        length = "";
      }
    }
    return tidy((text + this.text.slice(at)).replace(/(?:slur|triplet)\(\s*\)/g, ""));
  }

  /**
   * A word right after a note, or taken away where it stands already.
   * @param {number} number
   * @param {string} word
   */
  toggledAfter(number, word) {
    const last = this.#lastOf(number);
    if (!last) return this.text;
    const next = this.tokens[this.tokens.indexOf(last) + 1];
    if (next?.text === word) return tidy(this.text.slice(0, next.from) + this.text.slice(next.to));
    return tidy(`${this.text.slice(0, last.to)} ${word}${this.text.slice(last.to)}`);
  }

  /**
   * A tie to another length after a note, or without it.
   * @param {number} number
   * @param {string} length
   */
  tied(number, length) {
    const tie = this.tokens.find((token) => token.kind === "tie" && token.number === number);
    if (tie) return tidy(this.text.slice(0, tie.from) + this.text.slice(tie.to));
    return this.toggledAfter(number, `tie:${length}`);
  }

  /**
   * The dynamic right before a note, in front of the groups that begin there.
   * @param {Token} note
   */
  #loudness(note) {
    let index = this.tokens.indexOf(note) - 1;
    while (this.tokens[index]?.kind === "open") index--;
    const word = this.tokens[index];
    return { before: word?.kind === "word" && DYNAMICS.includes(word.text) ? word : null, index };
  }

  /** @param {number} number */
  loudAt(number) {
    const note = this.note(number);
    return note ? (this.#loudness(note).before?.text ?? "") : "";
  }

  /**
   * A dynamic right before a note; null takes it away.
   * @param {number} number
   * @param {string} dynamic
   */
  loud(number, dynamic) {
    const note = this.note(number);
    if (!note) return this.text;
    const { before, index } = this.#loudness(note);
    if (before) return tidy(this.text.slice(0, before.from) + dynamic + this.text.slice(before.to));
    const at = this.tokens[index + 1].from;
    return dynamic === "" ? this.text : tidy(`${this.text.slice(0, at)}${dynamic} ${this.text.slice(at)}`);
  }

  /**
   * What stands behind a note's length: "(bend)", "[1-2]". The same again, or an empty one, takes it away.
   * @param {number[]} numbers
   * @param {string} mark
   */
  marked(numbers, mark) {
    const kind = mark.startsWith("[") ? /\[[^\]]*\]/ : mark;
    return this.replace(numbers, (token) => {
      const other = token.rest.replace(kind, "");
      const had = token.rest.includes(mark) ? mark : null;
      const rest = had === mark || mark === "[]" ? other : mark.startsWith("[") ? mark + other : other + mark;
      return token.ownLength ? written(token.pitch, token.length, rest) : token.pitch + rest;
    });
  }

  /**
   * Notes from one to another inside a slur or a triplet; out of it, where they are in one.
   * @param {number} from
   * @param {number} to
   * @param {"slur" | "triplet"} word
   */
  grouped(from, to, word) {
    const [first, last] = [this.note(from), this.#lastOf(to)];
    if (!first || !last) return this.text;
    const around = this.#around(first, word);
    if (around) {
      const [open, close] = around;
      return tidy(this.text.slice(0, open.from) + this.text.slice(open.to, close.from) + this.text.slice(close.to));
    }
    return tidy(`${this.text.slice(0, first.from)}${word}( ${this.text.slice(first.from, last.to)} )${this.text.slice(last.to)}`);
  }

  /**
   * The group of a kind that a token stands in.
   * @param {Token} token
   * @param {string} word
   * @returns {[Token, Token] | null}
   */
  #around(token, word) {
    /** @type {Token[]} */
    const open = [];
    for (const one of this.tokens) {
      if (one.kind === "open") open.push(one);
      if (one.kind !== "close") continue;
      const begun = open.pop();
      if (begun?.text === `${word}(` && begun.from < token.from && token.from < one.from) return [begun, one];
    }
    return null;
  }

  /** @param {number} number @param {string} word */
  isIn(number, word) {
    const note = this.note(number);
    return Boolean(note && this.#around(note, word));
  }

  /** Where each note begins, in whole notes from the start. */
  moments() {
    /** @type {Map<number, { at: number, length: number }>} */
    const moments = new Map();
    let at = 0;
    /** @type {string[]} */
    const open = [];
    /** @type {number[]} Of each token. */
    const lengths = [];
    for (const token of this.tokens) {
      if (token.kind === "open") open.push(token.text);
      if (token.kind === "close") open.pop();
      const triplets = open.filter((word) => word.startsWith("triplet")).length;
      if (!["note", "rest", "tie"].includes(token.kind)) {
        lengths.push(0);
        continue;
      }
      const length = wholeOf(token.length) * (triplets > 0 ? 2 / 3 : 1);
      lengths.push(length);
      if (token.kind === "note") moments.set(token.number, { at, length });
      if (token.kind === "tie") {
        const tied = moments.get(token.number);
        if (tied) tied.length += length;
      }
      at += length;
    }
    return { moments, lengths };
  }

  /**
   * With its bar lines where bars are full now; without any, where a note lies across one, so that the engine sets them.
   * @param {number} bar in whole notes
   */
  barred(bar) {
    const plain = this.tokens.filter((token) => token.kind !== "bar");
    if (plain.length === this.tokens.length || this.#comesOut(bar)) return this.text;
    let [at, text] = [0, ""];
    let triplets = 0;
    for (const [index, token] of plain.entries()) {
      const before = plain[index - 1];
      const close = token.kind === "close";
      const follows = ["tie", "close", "word"].includes(token.kind);
      if (at > 0 && Math.abs(at - bar) < 1e-6 && !close && !(follows && token.text === "breath")) {
        text += " |";
        at = 0;
      }
      text += `${before ? " " : ""}${token.text}`;
      if (token.kind === "open" && token.text.startsWith("triplet")) triplets++;
      if (close && triplets > 0 && this.#closes(plain, index)) triplets--;
      if (["note", "rest", "tie"].includes(token.kind)) at += wholeOf(token.length) * (triplets > 0 ? 2 / 3 : 1);
      if (at > bar + 1e-6) return tidy(this.text.replaceAll("|", " "));
    }
    return tidy(text);
  }

  /**
   * True if every bar is full, as it is written; the last may be short.
   * @param {number} bar
   */
  #comesOut(bar) {
    const { lengths } = this.moments();
    let at = 0;
    for (const [index, token] of this.tokens.entries()) {
      if (token.kind === "bar" && Math.abs(at - bar) > 1e-6) return false;
      at = token.kind === "bar" ? 0 : at + (lengths[index] ?? 0);
    }
    return at < bar + 1e-6;
  }

  /**
   * True if a closing bracket ends a triplet.
   * @param {Token[]} tokens
   * @param {number} index
   */
  #closes(tokens, index) {
    let depth = 0;
    for (let at = index; at >= 0; at--) {
      if (tokens[at].kind === "close") depth++;
      if (tokens[at].kind === "open" && --depth === 0) return tokens[at].text.startsWith("triplet");
    }
    return false;
  }
}

/** @param {string} text */
function tidy(text) {
  return text.replace(/[ \t]{2,}/g, " ").trim();
}
