// How fast the page is on a slow phone: this machine's processor, six times slower. Figures, not limits: other work on the machine
// makes them larger.
import { writeFileSync } from "node:fs";

const SLOWER_BY = 6;

/** Two hundred lines, each other than the one before. */
function long() {
  const notes = ["C4", "D4", "E4", "F4", "G4"];
  const line = (_, index) => {
    const of = (by) => notes[(index + by) % notes.length];
    return `[[line]]\nname = "Line of ${of(0)}"\neach = "quarter"\nnotes = "mf slur( ${of(0)} ${of(1)} ${of(2)} ${of(3)} ) | ${of(4)}:half. breath rest"\n`;
  };
  const head = 'format = 1\ntitle = "Two hundred lines"\ninstrument = "trumpet in B-flat"\ncomfortable_top = "G4"\ntempo = 160\n';
  return head + Array.from({ length: 200 }, line).join("\n");
}

export function slowChecks({ assert, phone, figures, inFolder, run, address }) {
  /** The page as a slow phone opens it, and milliseconds from the call to the engine that is ready. */
  async function slowly(url) {
    const page = await phone("about:blank");
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER_BY });
    await page.goto(url);
    // Seldom, because looking costs the page time.
    const ready = await page.evaluate(async () => {
      while (!watched.ready) await new Promise((done) => setTimeout(done, 200));
      return watched.ready;
    });
    return { page, ready };
  }
  const longest = (page) => page.evaluate(() => Math.max(0, ...globalThis.watched.busy.splice(0)));

  /** Milliseconds from the touch that marks a line slower to all that shows it. */
  function marked(page, line) {
    return page.evaluate(async (line) => {
      const item = document.querySelectorAll("#lines > li")[line];
      /** @type {HTMLElement} */ (item.querySelector(".mark")).click();
      const sheet = document.getElementById("marks");
      const wait = (ms) => new Promise((done) => setTimeout(done, ms));
      while (!sheet.querySelector(".zoomed .note")) await wait(20);
      await wait(500);
      const began = performance.now();
      [...sheet.querySelectorAll("button")].find(({ textContent }) => textContent === "slower").click();
      const shown = () => {
        const words = item.querySelector(".pencilled").textContent.includes("slower");
        return words && sheet.querySelector(".there li");
      };
      while (!shown()) await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      return performance.now() - began;
    }, line);
  }

  const checks = {};
  checks["figures: a slow phone"] = async () => {
    writeFileSync(inFolder("long.toml"), long());
    run("handout", "long.toml", "--out", "long");
    for (const [of, folder] of [
      ["second-steps", "pupil"],
      ["200 lines", "long"],
    ]) {
      const { page, ready } = await slowly(`${address}${folder}/`);
      const opening = await longest(page);
      await page.getByRole("button", { name: "I have read this" }).tap();
      const first = await marked(page, 1);
      await page.getByRole("button", { name: "Done" }).tap();
      const second = await marked(page, 4);
      const marking = await longest(page);
      assert(ready > 0 && first > 0 && second > 0);
      figures.push(
        `a phone ${SLOWER_BY} times slower, ${of}: ready after ${(ready / 1000).toFixed(2)} s, a mark shown after ` +
          `${first.toFixed(0)} and ${second.toFixed(0)} ms, longest task ${opening.toFixed(0)} ms opening and ${marking.toFixed(0)} ms marking`,
      );
      await page.close();
    }
  };
  return checks;
}
