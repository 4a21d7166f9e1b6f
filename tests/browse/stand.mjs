// The page as a music stand: what is played and followed, the pencil, and keeping it on the phone.
import { createHash } from "node:crypto";
import { readFileSync, statSync, writeFileSync } from "node:fs";

export function standChecks({ assert, phone, read, whenReady, figures, inFolder, run, address, far }) {
  const phase = (page, name) => page.waitForSelector(`#stand[data-phase=${name}]`, { state: "attached", timeout: 60000 });
  const current = (page) => page.locator("#lines > li[aria-current]").getAttribute("data-line");
  const place = (page) => page.evaluate(() => Number(document.querySelector("rect.place")?.getAttribute("x") ?? NaN));

  /** Starts, follows three lines, waits before the third and is counted in again. */
  async function follow(page) {
    await page.locator("#start").tap();
    await phase(page, "count");
    assert.equal(await current(page), "0");
    const { title, artist } = await page.evaluate(() => {
      const shown = navigator.mediaSession.metadata;
      return { title: shown?.title, artist: shown?.artist };
    });
    assert.deepEqual([title, artist], ["1. Down", "Four short lines"], "the lock screen names the line");
    await page.waitForFunction(() => document.getElementById("count").textContent === "breathe");
    await phase(page, "play");
    const before = await place(page);
    await page.waitForFunction((x) => Number(document.querySelector("rect.place").getAttribute("x")) > x + 5, before);
    await phase(page, "rest");
    const left = await page.locator("#rest .left").textContent();
    assert.match(left, /^0:0[1-4]$/);
    await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
    await phase(page, "play");
    // The second tube is not the first: it is said, and its own notes are pointed at.
    await page.waitForFunction(() => document.getElementById("pass").textContent.includes("2 of 2"));
    await phase(page, "rest");
    assert(await page.locator("#rest").evaluate((rest) => rest === document.activeElement), "the keyboard is at the button");
    await page.locator("#rest").tap();
    await page.waitForTimeout(6000);
    assert.equal(await page.locator("#rest .do").textContent(), "I’m ready");
    assert.equal(await current(page), "1");
    await page.locator("#rest").tap();
    await page.waitForSelector('#lines > li[data-line="2"][aria-current]');
    await phase(page, "count");
    await phase(page, "play");
    await page.locator("#others").tap();
    await page.locator("#leave").tap();
    await page.waitForSelector("#main", { state: "hidden" });
  }

  /** SHA-256 of the frames of a WAV file of 16 bits, or of what the page's own worker renders of all that is open. */
  const hash = (bytes) => createHash("sha256").update(bytes).digest("hex");
  function frames(file) {
    const bytes = readFileSync(file);
    for (let at = 12; at + 8 <= bytes.length;) {
      const size = bytes.readUInt32LE(at + 4);
      if (bytes.toString("latin1", at, at + 4) === "data") return bytes.subarray(at + 8, at + 8 + size);
      at += 8 + size + (size % 2);
    }
    throw new Error(`${file} holds no sound`);
  }
  async function rendered(page) {
    const letters = await page.evaluate(async () => {
      const { worker } = globalThis.watched;
      let id = 1e9;
      const ask = (request) =>
        new Promise((resolve) => {
          const mine = ++id;
          const hear = ({ data }) => {
            if (data.id !== mine) return;
            worker.removeEventListener("message", hear);
            resolve(data.answer);
          };
          worker.addEventListener("message", hear);
          worker.postMessage({ ...request, id: mine });
        });
      const parts = [];
      for (let unit = 0; ; unit++) {
        const begun = await ask({ do: "begin", unit });
        if (!begun.ok) break;
        for (;;) {
          const { frames, mix } = await ask({ do: "mix", performance: begun.performance, frames: 2 ** 17 });
          if (frames === 0) break;
          parts.push(new Uint8Array(mix.buffer));
        }
      }
      const all = new Uint8Array(await new Blob(parts).arrayBuffer());
      let text = "";
      for (let i = 0; i < all.length; i += 32768) text += String.fromCharCode(...all.subarray(i, i + 32768));
      return btoa(text);
    });
    return Buffer.from(letters, "base64");
  }

  async function mark(page, line, ...names) {
    await page.locator("#lines > li").nth(line).locator(".mark").tap();
    for (const name of names) {
      await page.locator("#marks").getByRole("button", { name, exact: true }).first().tap();
      await page.waitForFunction(
        (count) => document.querySelectorAll("#marks .there li").length >= count,
        names.indexOf(name) + 1,
      );
    }
    await page.getByRole("button", { name: "Done" }).tap();
  }

  const checks = {};
  for (const [where, url] of [
    ["on this machine", address],
    ["by a number in the network", far],
  ]) {
    checks[`${where} it is started, followed and waited for`] = async () => {
      const page = await phone(`${url}short/`);
      assert.equal(await page.evaluate(() => isSecureContext), url === address);
      await read(page);
      await whenReady(page, "engine");
      await follow(page);
      const kept = page.locator("#kept p");
      if (url === far) {
        assert.equal(await kept.textContent(), "Plays here; to keep it on the phone, open it from an https site.");
      }
      await page.close();
    };

    checks[`${where} a line marked slower sounds as on the command line, and the mark is found again`] = async () => {
      const page = await phone(`${url}short/`);
      await read(page);
      await whenReady(page, "engine");
      run("render", "short.toml", "--out", "plain", "--force");
      const plain = frames(inFolder("plain/four-short-lines 160 key-0 together.wav"));
      assert.equal(hash(await rendered(page)), hash(plain), "without a mark");
      await mark(page, 0, "slower", /^breath after note 2/);
      await page.waitForFunction(() => document.querySelector("#lines .pencilled").textContent.includes("slower"));
      const comma = await page.locator('#lines > li[data-line="0"] .strip.narrow .pencil').count();
      assert(comma > 0, "the breath is drawn");
      const marked = await rendered(page);
      assert.notEqual(hash(marked), hash(plain));

      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: "Send my marks to my teacher" }).tap(),
      ]);
      const name = `pencil-${url === far ? "far" : "near"}.toml`;
      await download.saveAs(inFolder(name));
      assert.match(download.suggestedFilename(), /\.pencil\.toml$/);
      run("render", "short.toml", "--pencil", name, "--out", "marked", "--force");
      const track = frames(inFolder(`marked/four-short-lines ${name.replace(".toml", "")} 160 key-0 together.wav`));
      assert.equal(hash(marked), hash(track), "with the marks");
      figures.push(
        `${where}: ${marked.length / 2} frames, SHA-256 ${hash(marked).slice(0, 16)}…, as the command line renders them`,
      );

      await page.reload();
      await whenReady(page, "engine");
      assert.match(await page.locator("#lines .pencilled").first().textContent(), /slower/);
      assert.equal(hash(await rendered(page)), hash(track), "after a reload");

      // What was sent can be opened again; and what was marked can be taken back.
      await page.locator("#lines > li").first().locator(".mark").tap();
      await page.locator("#marks").getByRole("button", { name: "slower", exact: true }).tap();
      await page.waitForFunction(() => !document.querySelector("#lines .pencilled").textContent.includes("slower"));
      await page.locator("#marks").getByRole("button", { name: "Undo" }).tap();
      await page.waitForFunction(() => document.querySelector("#lines .pencilled").textContent.includes("slower"));
      await page.getByRole("button", { name: "Done" }).tap();
      writeFileSync(inFolder("other.toml"), 'format = 1\n[[mark]]\nline = 2\nstop_after = "2"\n');
      await page.locator("#open-pencil").setInputFiles(inFolder("other.toml"));
      await page.getByRole("button", { name: "Add them to my marks" }).tap();
      await page.waitForFunction(() => document.querySelectorAll("#lines .pencilled")[1].textContent.includes("stop after"));
      await page.close();
    };
  }

  checks["kept on the phone it plays without a network"] = async () => {
    for (const engine of [true, false]) {
      const page = await phone(`${address}short/`, { engine });
      await read(page);
      await whenReady(page, engine ? "engine" : "tracks");
      await page.getByText("Kept on this phone").waitFor();
      // From now on the browser says of everything it cannot reach that it cannot.
      page.unplugged = true;
      await page.context().setOffline(true);
      await page.reload();
      await whenReady(page, engine ? "engine" : "tracks");
      await page.locator("#lines .jump:visible").nth(3).tap();
      await phase(page, "play");
      if (!engine) assert((await page.evaluate(() => document.querySelector("audio").currentTime)) > 1);
      const sheet = await page.evaluate(async () =>
        (await (await fetch(/** @type {HTMLAnchorElement} */ (document.querySelector('a[href$=".pdf"]')).href)).text()).slice(
          0,
          5,
        ),
      );
      assert.equal(sheet, "%PDF-");
      await page.close();
    }
  };

  checks["a phone without WebAssembly is a stand all the same"] = async () => {
    const page = await phone(`${far}short/`, { engine: false });
    await read(page);
    await whenReady(page, "tracks");
    await follow(page);
    await page.close();
  };

  checks["the keyboard is enough"] = async () => {
    const page = await phone(`${address}short/`);
    for (const key of ["Tab", "Tab", "Enter"]) await page.keyboard.press(key);
    await whenReady(page, "engine");
    await page.locator("#start").focus();
    const outline = await page.locator("#start").evaluate((start) => getComputedStyle(start).outlineStyle);
    assert.equal(outline, "solid");
    await page.keyboard.press("Enter");
    await phase(page, "play");
    await page.keyboard.press("ArrowRight");
    await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
    await page.keyboard.press("Escape");
    await page.waitForSelector("#main", { state: "hidden" });
    await page.close();
  };

  checks["figures: weight, first sound, another tempo, how long the page is busy"] = async () => {
    const page = await phone(`${address}pupil/`);
    await read(page);
    await whenReady(page, "engine");
    const since = (id) =>
      page.evaluate(async (id) => {
        globalThis.watched.sounds.length = 0;
        const began = performance.now();
        document.getElementById(id).click();
        // What plays may lay down more of what it had before it hears of the touch, up to seconds ahead: what is
        // asked for is the soonest.
        const wait = (ms) => new Promise((done) => setTimeout(done, ms));
        const soonest = () => Math.min(...globalThis.watched.sounds) - began;
        while (soonest() > 2000) await wait(5);
        await wait(300);
        return soonest();
      }, id);
    const first = await since("start");
    await phase(page, "count");
    const again = await since("again");
    const slower = await since("slower");
    const busy = await page.evaluate(() => Math.max(0, ...globalThis.watched.busy));
    const { size } = statSync(inFolder("pupil/index.html"));
    figures.push(`the page: ${(size / 1024).toFixed(0)} KiB`);
    figures.push(
      `first sound ${first.toFixed(0)} ms after the touch (half a second of it for wireless speakers), again ${again.toFixed(0)} ms`,
    );
    figures.push(`a slower tempo sounds after ${slower.toFixed(0)} ms`);
    figures.push(`the page was busy for ${busy.toFixed(0)} ms at a stretch at most`);
    await page.close();
  };

  checks["pictures to look at"] = async () => {
    const screens = [
      [360, 740],
      [768, 1024],
      [1280, 800],
    ];
    for (const [width, height] of screens) {
      for (const colorScheme of ["light", "dark"]) {
        const page = await phone(`${address}pupil/`, { viewport: { width, height }, colorScheme, deviceScaleFactor: 1 });
        const shot = (name) => page.screenshot({ path: inFolder(`${name}-${width}-${colorScheme}.png`) });
        await shot("card");
        await read(page);
        await whenReady(page, "engine");
        await shot("top");
        await page.locator("#lines > li").nth(2).scrollIntoViewIfNeeded();
        await page
          .locator("#lines > li")
          .nth(2)
          .screenshot({ path: inFolder(`line-${width}-${colorScheme}.png`) });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        assert(wide <= width, `${wide} pixels wide`);
        await page.locator("#lines > li").nth(3).locator(".mark").tap();
        await page.waitForSelector("#marks .zoomed .note");
        await shot("pencil");
        await page.getByRole("button", { name: "Done" }).tap();
        await page.locator("#lines .jump:visible").nth(3).tap();
        await page.waitForFunction(() => document.getElementById("count").textContent === "3");
        await shot("count");
        await phase(page, "play");
        await page.waitForTimeout(2000);
        await shot("play");
        await page.locator("#others").tap();
        await page.locator("#leave").tap();
        await page.close();
      }
      const page = await phone(`${address}short/`, { viewport: { width, height }, deviceScaleFactor: 1 });
      await read(page);
      await whenReady(page, "engine");
      await page.locator("#start").tap();
      await phase(page, "rest");
      await page.screenshot({ path: inFolder(`rest-${width}.png`) });
      await page.locator("#rest").tap();
      await page.waitForTimeout(200);
      await page.screenshot({ path: inFolder(`ready-${width}.png`) });
      await page.close();
    }
  };
  return checks;
}
