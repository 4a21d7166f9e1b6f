// The desk's edits of a text under Node.js: every built-in routine, and texts as people write them. What is not edited stays byte for
// byte, and undoing all restores every byte.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";

const scripts = new URL("../../src/desk/script/", import.meta.url);
const source = ["entries", "steps", "notes"].map((name) => readFileSync(new URL(`${name}.js`, scripts), "utf8")).join("\n");
const names =
  "blocksIn saidOf rawOf rawNotes withEntry withLine withoutLine withMoved lineText quotedText valueOf Notes Steps stepBetween";
const desk = new Function(`${source}; return { ${names.split(" ").join(", ")} };`)();
const { Notes, Steps, blocksIn, lineText, rawNotes, rawOf, saidOf, withEntry, withLine, withMoved, withoutLine } = desk;

const presets = new URL("../../presets/", import.meta.url);
const ODD = [
  'format=1\r\ntitle = "a" # mine\r\n\r\n# about this line\r\n[[ line ]]\r\nname="x"   # "quoted"\r\nnotes = \'C4:half\'\r\n',
  'title = """\nlong # not a comment\n[[line]]\n"""\n[[line]]\nskills = [ # one\n "a", "]" ]\nname = "b"\nnotes = """\nC4:half |\n  D4\n"""\n',
  '[[line]]\nname = "no end of row"\nnotes = "C4"',
];
const texts = readdirSync(presets).map((name) => readFileSync(new URL(name, presets), "utf8"));
let edits = 0;

for (const text of [...texts, ...ODD]) {
  const { head, lines } = blocksIn(text);
  assert.equal(
    text.slice(0, head.to) + lines.map(({ from, to }) => text.slice(from, to)).join(""),
    text,
    "every byte is in one block",
  );
  const steps = new Steps([], 0);
  let now = text;
  const change = (after, what) => {
    steps.note(now, after, what);
    now = after;
    edits++;
  };
  for (const [of, line] of lines.entries()) {
    const key = rawOf(line, "open") === null ? "notes" : "open";
    const notes = new Notes(saidOf(line, key), saidOf(line, "each"));
    assert.equal(
      notes.pitched([1, 2], (pitch) => pitch),
      notes.text,
      "the same pitch is the same text",
    );
    if (key === "notes" && notes.text !== "") {
      assert.equal(withEntry(text, of, key, rawNotes(rawOf(line, key), notes.text)), text);
    }
    // Only the row of the entry is another one.
    const named = withEntry(text, of, "name", '"Z"');
    const rows = (all) => all.split("\n");
    assert.equal(rows(named).filter((row, at) => row !== rows(text)[at]).length, 1);
    // What is added is taken out again without a trace.
    if (rawOf(line, "times") === null && text.endsWith("\n")) {
      assert.equal(withEntry(withEntry(text, of, "times", "3"), of, "times", null), text);
    }
    const longer = new Notes(notes.insert(notes.count, "C4", "quarter"), notes.each);
    assert.equal(longer.count, notes.count + 1);
    assert.equal(new Notes(longer.without([longer.count]), notes.each).count, notes.count);
    change(withEntry(now, of, "rest", '"2 bars"'), "rest");
    change(withEntry(now, of, "drone", null), "drone");
  }
  change(withLine(now, 0, '[[line]]\nname = "new"\nnotes = ""'), "new");
  change(withMoved(now, 0, blocksIn(now).lines.length - 1), "moved");
  assert.match(lineText(now, blocksIn(now).lines.length - 1), /name = "new"/);
  change(withoutLine(now, blocksIn(now).lines.length - 1), "out");
  const last = now;
  for (let before = steps.undo(now); before !== null; before = steps.undo(now)) now = before;
  assert.equal(now, text, "undoing all restores every byte");
  for (let after = steps.redo(now); after !== null; after = steps.redo(now)) now = after;
  assert.equal(now, last);
}

// Notes, edited one way each.
const tune = new Notes("mf slur( G4:half F#4 | G4 ) rest:half | triplet( C4:quarter D4 E4 ) tie:half breath F4[1-2](bend)");
for (const [made, expected] of [
  [tune.without([1]), "mf slur( F#4:half | G4 ) rest:half | triplet( C4:quarter D4 E4 ) tie:half breath F4[1-2](bend)"],
  [tune.loud(1, "pp"), tune.text.replace("mf", "pp")],
  [tune.loud(4, "f"), tune.text.replace("triplet", "f triplet")],
  [tune.marked([2], "[1-3]"), tune.text.replace("F#4", "F#4[1-3]")],
  [tune.marked([7], "(bend)"), tune.text.replace("(bend)", "")],
  [tune.grouped(1, 1, "slur"), tune.text.replace("slur( G4:half F#4 | G4 )", "G4:half F#4 | G4")],
  [tune.toggledAfter(3, "breath"), tune.text.replace("| G4 )", "| G4 breath )")],
  [tune.lengthened([2], "quarter"), tune.text.replace("F#4 | G4", "F#4:quarter | G4:half")],
  [new Notes("C4:half D4 | E4 | F4").barred(1), "C4:half D4 | E4 F4"],
  [new Notes("C4:half. D4:half | E4:half").barred(1), "C4:half. D4:half E4:half"],
  [new Notes("C4:half  D4 |\n E4").barred(1), "C4:half  D4 |\n E4"],
]) {
  assert.equal(made, expected);
}
console.log(`${edits} edits of ${texts.length + ODD.length} texts, undone and done again`);
