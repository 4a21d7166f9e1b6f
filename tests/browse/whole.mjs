// Passes that are not printed: while a walk is played, the notes that are shown and pointed at are those of the pass that sounds.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";

// Six half steps and seven tubes. The sheet prints the first pass, the last, and those with a fingering that is not printed yet: of the
// half steps all but the fifth.
const WALKS = `format = 1
title = "Two walks"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 200

[[line]]
name = "Down"
notes = "mf slur( C5:half B4:half )"
half_steps = [0, -1, -2, -3, -4, -5]
between = "none"
rest = "4 beats"

[[line]]
name = "Tubes"
open = "mf slur( C4:half G4:half )"
tubes = ["0", "2", "1", "1-2", "2-3", "1-3", "1-2-3"]
between = "none"
`;

export function wholeChecks({ assert, phone, ready, address, inFolder, run, figures }) {
  /** Lines and spaces above the lowest line of the staff, of each note in order. */
  function written() {
    run("export", "walks.toml", "--to", "musicxml", "--out", "walks-score");
    const name = readdirSync(inFolder("walks-score")).find((one) => one.endsWith(".musicxml"));
    const score = readFileSync(inFolder(`walks-score/${name}`), "utf8");
    const notes = [...score.matchAll(/<pitch>\s*<step>(.)<\/step>.*?<octave>(\d)<\/octave>/gs)];
    return notes.map(([, step, octave]) => 7 * Number(octave) + "CDEFGAB".indexOf(step) - (7 * 4 + 2));
  }

  /** The pass that is said, and how high the note stands that the mark is on. */
  function pointed() {
    const { phase } = document.getElementById("stand").dataset;
    const of = document.querySelector("#lines > li[aria-current]")?.getAttribute("data-line");
    const pass = Number(/^(\d+) of/.exec(document.getElementById("pass").textContent)?.[1]);
    const mark = /** @type {SVGRectElement | null} */ (document.querySelector("rect.place"));
    if (phase !== "play" || !mark) return { of, pass, phase, note: null };
    const number = (element, name) => Number(element.getAttribute(name));
    const [x, top, height] = [number(mark, "x") + 4, number(mark, "y"), number(mark, "height")];
    const near = [...mark.closest("svg").querySelectorAll('use[href^="#notehead"]')].filter((head) => {
      const y = number(head, "y");
      return y > top - 12 && y < top + height + 12 && Math.abs(number(head, "x") + 3 - x) < 5;
    });
    // The mark is 8 higher and lower than the staff, whose spaces are 4.96.
    const steps = near.map((head) => Math.round((top + height - 8 - number(head, "y")) / 2.48));
    const { top: screen, bottom } = mark.getBoundingClientRect();
    return { of, pass, phase, note: steps[0] ?? "none", seen: screen >= 0 && bottom <= innerHeight };
  }

  const checks = {};
  checks["during each pass of a walk the mark stands on the notes of that pass"] = async () => {
    writeFileSync(inFolder("walks.toml"), WALKS);
    run("handout", "walks.toml", "--out", "walks");
    const score = written();
    assert.equal(score.length, 2 * (6 + 7));
    // The mark stands on a note until the next one sounds.
    const page = await phone(`${address}walks/`, { reducedMotion: "reduce", viewport: { width: 320, height: 480 } });
    await ready(page, "engine");
    const printed = await page.evaluate(() => document.querySelectorAll('#lines .narrow use[href^="#notehead"]').length);
    assert(printed < score.length, `${printed} notes are printed: all`);
    await page.locator("#start").click();
    /** @type {Map<string, number[]>} */
    const found = new Map();
    const unseen = [];
    for (const began = Date.now(); Date.now() - began < 180_000;) {
      const { of, pass, phase, note, seen } = await page.evaluate(pointed);
      if (phase === "done") break;
      if (note === null) continue;
      const name = `line ${of}, pass ${pass}`;
      const notes = found.get(name) ?? [];
      if (notes.at(-1) !== note) notes.push(note);
      found.set(name, notes);
      if (!seen) unseen.push(name);
      await page.waitForTimeout(20);
    }
    const wanted = score.flatMap((note, i) => (i % 2 === 0 ? [[note, score[i + 1]]] : []));
    const names = wanted.map((_, i) => (i < 6 ? `line 0, pass ${i + 1}` : `line 1, pass ${i - 5}`));
    assert.deepEqual(
      [...found],
      names.map((name, i) => [name, wanted[i]]),
    );
    assert(unseen.length < 10, `the mark is off the screen: ${[...new Set(unseen)]}`);
    figures.push(`two walks: the mark stood on the ${score.length} notes of ${names.length} passes, ${printed} of them printed`);
    await page.close();
  };

  checks["finished tracks have no mark on a note that does not sound"] = async () => {
    writeFileSync(inFolder("walks.toml"), WALKS);
    run("handout", "walks.toml", "--out", "walks");
    const page = await phone(`${address}walks/`, { engine: false });
    await ready(page, "tracks");
    await page.locator("#start").click();
    await page.waitForFunction(() => document.querySelector("rect.place"));
    await page.waitForFunction(() => document.getElementById("pass").textContent.startsWith("5 of 6"));
    assert.equal(await page.locator("rect.place").count(), 0, "the fifth");
    await page.waitForFunction(() => document.getElementById("pass").textContent.startsWith("6 of 6"));
    assert.equal(await page.locator("rect.place").count(), 1, "the last one is printed");
    await page.close();
  };

  checks["pictures of a walk"] = async () => {
    writeFileSync(inFolder("walks.toml"), WALKS);
    run("handout", "walks.toml", "--out", "walks");
    for (const [width, height] of [
      [320, 480],
      [568, 320],
      [390, 844],
    ]) {
      const page = await phone(`${address}walks/`, { viewport: { width, height }, deviceScaleFactor: 1 });
      await ready(page, "engine");
      await page.locator("#lines .jump:visible").nth(1).click();
      await page.waitForFunction(() => document.getElementById("pass").textContent.startsWith("5 of 7"));
      await page.waitForTimeout(400);
      await page.screenshot({ path: inFolder(`walk-${width}.png`) });
      await page.close();
    }
  };
  return checks;
}
