// Older phones: what the oldest browsers meant do not have is taken away, and a script that fails leaves the page as it is without.
import { readFileSync, writeFileSync } from "node:fs";

export function olderChecks({ assert, browser, phone, ready, inFolder, address }) {
  /** As Safari 15.0 and Chrome 95 are. */
  function older() {
    for (const prototype of [Array.prototype, String.prototype, Object.getPrototypeOf(Int8Array.prototype)]) {
      const newer = ["at", "findLast", "findLastIndex", "toSorted", "toReversed", "toSpliced", "with"];
      for (const name of newer) delete prototype[name];
    }
    delete Object.hasOwn;
    delete globalThis.structuredClone;
    for (const name of ["show", "showModal", "close", "open", "requestClose"]) delete HTMLDialogElement.prototype[name];
    for (const name of ["checkVisibility", "showPopover"]) delete HTMLElement.prototype[name];
    for (const name of ["locks", "wakeLock"]) Object.defineProperty(navigator, name, { value: undefined });
  }
  const phase = (page, name) => page.waitForSelector(`#stand[data-phase=${name}]`, { state: "attached", timeout: 30000 });

  const checks = {};
  for (const plays of ["engine", "tracks"]) {
    checks[`an older phone is a stand as well, on ${plays}`] = async () => {
      const page = await phone(`${address}short/`, { before: older, engine: plays === "engine" });
      await ready(page, plays);
      assert.equal(await page.locator("#before-title").isVisible(), false, "the card is put away");
      await page.locator("#start").tap();
      await phase(page, "play");
      await page.locator("#others").tap();
      await page.locator("#next").tap();
      await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
      await phase(page, "play");
      await page.locator("#others").tap();
      await page.keyboard.press("Escape");
      await page.waitForSelector("#more", { state: "hidden" });
      await phase(page, "play");
      if (plays === "engine") {
        await page.locator("#others").tap();
        await page.locator("#mark").tap();
        await page.locator("#marks").getByRole("button", { name: "slower", exact: true }).tap();
        await page.waitForFunction(() => document.querySelectorAll("#lines .pencilled")[1].textContent.includes("slower"));
        await page.getByRole("button", { name: "Done" }).tap();
      }
      await page.locator("#others").tap();
      await page.locator("#leave").tap();
      await page.waitForSelector("#main", { state: "hidden" });
      await page.close();
    };
  }

  /** The page as it is without its script: everything a take needs can be seen. */
  async function bare(page, what) {
    assert.equal(await page.locator("audio:visible").count(), 1, `${what}: its player`);
    assert.equal(await page.locator("a.jump:visible").count(), 4, `${what}: its links`);
    assert(await page.locator("#before-title").isVisible(), `${what}: the card`);
    assert.equal(await page.locator("#more").isVisible(), false, `${what}: what is behind the button`);
    assert(await page.locator('a[href$=".pdf"]').isVisible(), `${what}: the sheet`);
    await page.locator("audio").evaluate((audio) => /** @type {HTMLAudioElement} */ (audio).play());
    await page.waitForFunction(() => document.querySelector("audio").currentTime > 0.2);
  }

  checks["a script that fails leaves the finished tracks and the sheet"] = async () => {
    const fails = () => {
      HTMLDialogElement.prototype.showModal = () => {
        throw new Error("as in a browser that nobody has thought of");
      };
    };
    const page = await phone(`${address}short/`, { before: fails });
    await bare(page, "a function that fails");
    await page.close();

    // Newer than the browser reads.
    const html = readFileSync(inFolder("short/index.html"), "utf8")
      .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, "")
      .replace('<script type="module">', '<script type="module">newer than this;');
    writeFileSync(inFolder("short/newer.html"), html);
    const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
    const newer = await context.newPage();
    const errors = [];
    newer.on("pageerror", (error) => errors.push(error.name));
    await newer.goto(`${address}short/newer.html`);
    await bare(newer, "a script that cannot be read");
    assert.deepEqual(errors, ["SyntaxError"]);
    await context.close();
  };
  return checks;
}
