// Small things at the pencil and on the page: where the keyboard is, what a line offers, what can be seen, and what is fetched.
import { writeFileSync } from "node:fs";

const KINDS = `format = 1
title = "Three kinds of lines"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 90

[[line]]
name = "Breathe"
on = "air"
notes = "in:half out:half"

[[line]]
name = "Buzz"
on = "mouthpiece"
notes = "mf C4:half D4:half"

[[line]]
name = "Play"
notes = "mf C4:half D4:half"
times = 2
`;

export function mendChecks({ assert, phone, ready, inFolder, run, address }) {
  const open = async (page, line) => {
    await page.locator("#lines > li").nth(line).locator(".mark").click();
    await page.waitForSelector("#marks[open]");
  };
  const focused = (page) =>
    page.evaluate(() => {
      const { activeElement } = document;
      return activeElement.getAttribute("aria-label") ?? activeElement.textContent;
    });

  const checks = {};
  checks["the keyboard stays where it was when a mark is made, and begins at the title"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await open(page, 0);
    assert.equal(await focused(page), "Marks: 1. Down");
    for (const name of ["slower", "faster", "tongued"]) {
      const control = page.locator("#marks").getByRole("button", { name, exact: true });
      await control.focus();
      await page.keyboard.press("Enter");
      await page.waitForSelector(`#marks button[aria-pressed=true]:text-is("${name}")`);
      assert.equal(await focused(page), name);
    }
    const note = page.locator("#marks .note").nth(1);
    const label = await note.getAttribute("aria-label");
    await note.focus();
    await page.keyboard.press("Enter");
    await page.waitForSelector("#marks .note[aria-pressed=true]");
    assert.equal(await focused(page), label);
    await page.close();
  };

  checks["a line offers the marks that it can take"] = async () => {
    writeFileSync(inFolder("kinds.toml"), KINDS);
    run("handout", "kinds.toml", "--out", "kinds");
    const page = await phone(`${address}kinds/`);
    await ready(page, "engine");
    const titles = async (line) => {
      await open(page, line);
      const found = await page.locator("#marks legend").allTextContents();
      const bends = await page.locator("#marks button", { hasText: /bend/i }).count();
      await page.getByRole("button", { name: "Done" }).click();
      return { found, bends };
    };
    const needNotes = ["Touch a note", "Tongue or slur", "How loud", "Held note"];
    const air = await titles(0);
    assert.deepEqual(
      air.found.filter((title) => needNotes.includes(title) || title === "Rest between the times"),
      [],
    );
    assert(air.found.includes("Tempo") && air.found.includes("The whole line"), air.found.join());
    assert.equal(air.bends, 0);
    const buzz = await titles(1);
    assert.deepEqual(
      buzz.found.filter((title) => needNotes.includes(title)),
      needNotes,
    );
    assert.equal(buzz.bends, 0);
    const play = await titles(2);
    assert(play.found.includes("Rest between the times"));
    assert.equal(play.bends, 2);
    await page.close();
  };

  checks["what is touched, and the place in the music, can be seen"] = async () => {
    for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
      const page = await phone(`${address}short/`, { colorScheme });
      await ready(page, "engine");
      await page.locator("#start").tap();
      await page.waitForSelector("rect.place", { state: "attached" });
      const seen = await page.evaluate(() => {
        const numbers = (text) => text.match(/[\d.]+/g).map(Number);
        const light = (text) => {
          const [r, g, b] = numbers(text).map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        // WCAG 2.2, relative luminance and contrast ratio.
        const contrast = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
        const ground = getComputedStyle(document.body).backgroundColor;
        const of = (selector, property) => contrast(getComputedStyle(document.querySelector(selector))[property], ground);
        return {
          place: of("rect.place", getComputedStyle(document.querySelector("rect.place")).stroke === "none" ? "fill" : "stroke"),
          again: of("#again", "borderTopColor"),
          mark: of(".mark", "borderTopColor"),
          field: of("#settings select", "borderTopColor"),
        };
      });
      for (const [what, ratio] of Object.entries(seen)) assert(ratio >= 3, `${colorScheme}, ${what}: ${ratio.toFixed(2)}`);
      await page.close();
    }
  };

  checks["tracks are fetched only where they are played"] = async () => {
    const page = await phone("about:blank");
    const asked = [];
    page.on("request", (request) => request.url().endsWith(".mp3") && asked.push(request.url()));
    await page.goto(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").tap();
    await page.waitForSelector("#stand[data-phase=play]", { state: "attached" });
    assert.deepEqual(asked, []);
    await page.close();
  };

  checks["a note that the teacher bends is fingered by a touch, and bent again by another"] = async () => {
    const line = '[[line]]\nname = "Neighbours"\nnotes = "mf slur( G4:half F#4:half(bend) ) | G4:half rest:half"\n';
    writeFileSync(inFolder("bent.toml"), KINDS.slice(0, KINDS.indexOf("[[line]]")) + line);
    run("handout", "bent.toml", "--out", "bent");
    const page = await phone(`${address}bent/`);
    await ready(page, "engine");
    await open(page, 0);
    await page.locator("#marks").getByRole("button", { name: "Bend it" }).click();
    const note = page.locator('#marks .note[aria-label^="bend note 2"]');
    const marks = () => page.locator("#marks .there li .pencilled").allTextContents();
    await page.waitForSelector('#marks .note[aria-label^="bend note 2"][aria-pressed=true]');
    await note.click();
    await page.waitForSelector('#marks .note[aria-label^="bend note 2"][aria-pressed=false]');
    assert.deepEqual(await marks(), ["finger note 2 instead of bending it"]);
    await note.click();
    await page.waitForSelector('#marks .note[aria-label^="bend note 2"][aria-pressed=true]');
    assert.deepEqual(await marks(), []);
    await page.close();
  };

  checks["lines below are drawn when they come into view, when the page is printed, and where its script fails"] = async () => {
    const lines = Array.from({ length: 20 }, (_, index) => `[[line]]\nname = "Line ${index}"\nnotes = "mf C4:half D4:half"\n`);
    writeFileSync(inFolder("twenty.toml"), KINDS.slice(0, KINDS.indexOf("[[line]]")) + lines.join("\n"));
    run("handout", "twenty.toml", "--out", "twenty");
    const drawn = (page) =>
      page.evaluate(
        () => [...document.querySelectorAll("#lines > li")].filter((item) => item.querySelector(".music svg")).length,
      );
    const page = await phone(`${address}twenty/`);
    await ready(page, "engine");
    const first = await drawn(page);
    assert(first >= 6 && first < 15, `${first} lines are drawn`);
    await page.locator("#lines > li").last().scrollIntoViewIfNeeded();
    await page.waitForFunction(() => document.querySelector("#lines > li:last-child .music svg"));
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    assert.equal(await drawn(page), 20);
    await page.close();

    const played = await phone(`${address}twenty/`);
    await ready(played, "engine");
    await played.evaluate(() => /** @type {HTMLElement} */ (document.querySelector("#lines > li:last-child .jump")).click());
    await played.waitForSelector("#stand[data-phase=play]", { state: "attached" });
    assert(
      await played.evaluate(() => document.querySelector("#lines > li:last-child .music svg")),
      "a line that plays is drawn",
    );
    await played.close();

    const without = await phone("about:blank", { javaScriptEnabled: false });
    await without.goto(`${address}twenty/`);
    assert.equal(await without.locator("#lines > li .music svg.narrow").count(), 20);
    await without.close();

    const fails = () => {
      HTMLDialogElement.prototype.showModal = () => {
        throw new Error("as in a browser that nobody has thought of");
      };
    };
    const failing = await phone(`${address}twenty/`, { before: fails });
    assert.equal(await failing.locator("body.with-script").count(), 0);
    assert.equal(await drawn(failing), 20);
    await failing.close();
  };

  checks["a printed tempo beside a slower take is explained"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    assert.equal(await page.locator("#printed-tempo").isVisible(), false);
    await page.locator("#settings").getByRole("button", { name: "Slower" }).tap();
    await page.waitForSelector("#printed-tempo:visible");
    assert.match(await page.locator("#printed-tempo").textContent(), /95\s% of it/);
    await page.close();
  };
  return checks;
}
