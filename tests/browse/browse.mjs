// A phone's browser opens a handout: from a shared folder, from the folder itself, and without its script.
//
//     node browse.mjs LEADPIPE BROWSER FOLDER [WORDS]
//
// LEADPIPE is the program; FOLDER is emptied and filled with handouts, and with pictures to be looked at. BROWSER is Chromium, as a
// phone, or Firefox for what must hold in both: the states of the stand, sound that does not start, and marks.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { launchFirefox } from "./firefox.mjs";
import { loopChecks } from "./loops.mjs";
import { markChecks } from "./marks.mjs";
import { mendChecks } from "./mends.mjs";
import { olderChecks } from "./older.mjs";
import { silentChecks } from "./silent.mjs";
import { slowChecks } from "./slow.mjs";
import { standChecks } from "./stand.mjs";
import { walkChecks } from "./walk.mjs";
import { wholeChecks } from "./whole.mjs";

const [leadpipe, browserPath, folder] = process.argv.slice(2, 5).map((a) => path.resolve(a));
// Only checks in whose names these words stand.
const only = process.argv[5] ?? "";
const isFirefox = path.basename(browserPath).startsWith("firefox");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PHONE = { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

// Texts that would do harm if they were taken for anything but text.
const HOSTILE = `format = 1
title = '<img src=x onerror=alert(1)> & "Übung"'
purpose = "</title><script>alert(2)</script>"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 60

[[line]]
name = '"><svg onload=alert(3)>'
purpose = "</li></ol></section>"
say = "'onmouseover='alert(4)' ${"long".repeat(60)}"
notes = "p slur( C4:half E4:half )"
rest = "6 s"

[[line]]
name = "Home"
notes = "p slur( D4:half C4:half )"
`;

// Lines and rests of a few seconds: they are followed as they are played.
const SHORT = `format = 1
title = "Four short lines"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 160

[[line]]
name = "Down"
notes = "mf slur( G4:half F#4:half | G4:half ) rest:half"
rest = "4 s"

[[line]]
name = "Two tubes"
open = "mf slur( C4:half G4:half | C4:half ) rest:half"
tubes = ["2", "0"]
rest = "5 s"

[[line]]
name = "Steps"
each = "quarter"
notes = "mf E4 D4 C4 D4 | E4:half. breath rest"
rest = "4 s"

[[line]]
name = "Home"
notes = "p slur( E4:half D4:half | C4:half. ) rest:quarter"
`;

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const inFolder = (name) => path.join(folder, name);
const run = (...args) => execFileSync(leadpipe, args, { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
writeFileSync(inFolder("short.toml"), SHORT);
run("handout", "short.toml", "--out", "short");
if (!isFirefox) {
  writeFileSync(inFolder("hostile.toml"), HOSTILE);
  run("handout", "second-steps", "--out", "pupil", "--tempo", "100%,85%");
  run("handout", "hostile.toml", "--out", "hostile");
  run("render", "hostile.toml", "--out", "tracks", "--format", "mp3,flac", "--stems");
}

/** A server and its address. */
async function shared(...more) {
  const share = spawn(leadpipe, ["share", ".", ...more], { cwd: folder, stdio: ["ignore", "pipe", "ignore"] });
  const address = await new Promise((resolve) => share.stdout.once("data", (data) => resolve(String(data).split("\n")[0])));
  return { share, address };
}
const { share, address } = await shared();
// By its number in the network: no browser trusts that.
const { share: lan, address: far } = await shared("--lan");

const browser = isFirefox
  ? await launchFirefox(browserPath, folder)
  : await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox"] });
const figures = [];
const phones = [];

/**
 * A phone with a page open; nothing may go wrong on it unseen. Without `engine` it is one that knows no WebAssembly; `before` is what
 * else is amiss with it, before the page's own script runs.
 * @param {string} url
 * @param {import("playwright-core").BrowserContextOptions & { engine?: boolean, before?: () => void }} options
 * @returns {Promise<import("playwright-core").Page & { unplugged?: boolean }>}
 */
async function phone(url, { engine = true, before, ...options } = {}) {
  const context = await browser.newContext({ ...PHONE, ...options });
  phones.push(context);
  if (!engine) await context.addInitScript(() => delete globalThis.WebAssembly);
  await context.addInitScript(watch);
  if (before) await context.addInitScript(before);
  /** @type {import("playwright-core").Page & { unplugged?: boolean }} */
  const page = await context.newPage();
  page.on("pageerror", (error) => assert.fail(`${url}: ${error.stack}`));
  page.on("dialog", (dialog) => assert.fail(`${url}: ${dialog.message()}`));
  page.on("console", (said) => {
    // A file that is opened by itself has no page to say that it has no icon.
    const icon = said.location().url.endsWith("/favicon.ico");
    if (!icon && !page.unplugged) assert.notEqual(said.type(), "error", `${url}: ${said.text()}`);
  });
  await page.goto(url);
  return page;
}

/**
 * Keeps what the checks ask for: the page's worker and sound devices, the buttons of a headset, when sound was scheduled, and how long
 * the page was busy at a stretch.
 */
function watch() {
  globalThis.watched = { busy: [], sounds: [], contexts: [], actions: {} };
  globalThis.AudioContext = class extends AudioContext {
    /** @param {ConstructorParameters<typeof AudioContext>} how */
    constructor(...how) {
      super(...how);
      globalThis.watched.contexts.push(this);
    }
  };
  const { setActionHandler } = MediaSession.prototype;
  MediaSession.prototype.setActionHandler = function (action, handler) {
    globalThis.watched.actions[action] = handler;
    setActionHandler.call(this, action, handler);
  };
  if (globalThis.Worker) {
    globalThis.Worker = class extends Worker {
      /** @param {ConstructorParameters<typeof Worker>} how */
      constructor(...how) {
        super(...how);
        globalThis.watched.worker = this;
      }
    };
  }
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when, ...how) {
    globalThis.watched.sounds.push(performance.now() + 1000 * (when - this.context.currentTime));
    return start.call(this, when, ...how);
  };
  new MutationObserver((_, observer) => {
    if (!document.body?.dataset.plays) return;
    globalThis.watched.ready = performance.now();
    observer.disconnect();
  }).observe(document, { subtree: true, childList: true, attributeFilter: ["data-plays"] });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) globalThis.watched.busy.push(duration);
  }).observe({ type: "longtask", buffered: true });
}

/** Puts the card of the first use away. */
async function read(page) {
  await page.getByRole("button", { name: "I have read this" }).tap();
}

const whenReady = (page, what) => page.waitForSelector(`body[data-plays=${what}]`);

/** The page as it is when the card has been read, by touch or by mouse. */
async function ready(page, what) {
  const card = page.getByRole("button", { name: "I have read this" });
  if (await card.isVisible()) await card.click();
  await whenReady(page, what);
}

const state = (page, number = 0) =>
  page.evaluate((n) => {
    const player = document.querySelectorAll("audio")[n];
    const { currentTime, paused, duration, error } = player;
    return { currentTime, paused, duration, error: error && error.message };
  }, number);

/** Waits until a player has played for a while. */
async function plays(page, number = 0) {
  const before = (await state(page, number)).currentTime;
  await page.waitForFunction(([n, t]) => document.querySelectorAll("audio")[n].currentTime > t + 0.3, [number, before]);
}

async function accessible(page, what) {
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() => globalThis.axe.run());
  const said = violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.html).join(" ")}`);
  assert.deepEqual(said, [], what);
  assert(passes.length > 10, `${what}: the engine looked at nothing`);
  figures.push(`${what}: ${passes.length} rules of accessibility hold`);
}

const checks = {
  async "over the network it plays, seeks by range and jumps, on finished tracks"() {
    const page = await phone(`${address}pupil/`, { engine: false });
    const asked = [];
    page.on("response", (response) => {
      const range = response.request().headers()["range"];
      if (response.url().endsWith(".mp3")) asked.push([response.status(), range]);
    });
    await read(page);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert(wide <= PHONE.viewport.width, `${wide} pixels wide`);
    const item = page.locator("#lines > li").last();
    const start = startOf((await page.locator("#lines > li").count()) - 1);
    await item.scrollIntoViewIfNeeded();
    await item.locator(".jump:visible").tap();
    await plays(page);
    assert.equal(await item.getAttribute("aria-current"), "true");
    const there = await state(page);
    assert(there.currentTime > start && there.currentTime < start + 5, `${there.currentTime} for ${start}`);
    const far = asked.filter(([status, range]) => status === 206 && /^bytes=[1-9]\d{5,}-/.test(range));
    assert(far.length > 0, `no part from afar was asked for: ${JSON.stringify(asked)}`);
    figures.push(`a jump to ${start} s asks for ${far[0][1]}`);
    await page.locator("#others").tap();
    await page.locator("#leave").tap();

    // Another take is chosen, and heard.
    await page.getByRole("radio").nth(1).check();
    await page.locator("#lines > li").nth(1).locator(".jump:visible").tap();
    await plays(page, 1);
    assert.equal((await state(page, 0)).paused, true);
    await page.close();
  },

  async "a jump is heard where the line begins"() {
    const page = await phone(`${address}pupil/`, { engine: false });
    for (const number of [2, 5, 8]) {
      const start = startOf(number);
      const heard = await heardClick(page, start);
      figures.push(`line ${number + 1}: its first click is heard ${((heard - start) * 1000).toFixed(0)} ms after ${start} s`);
      assert(Math.abs(heard - start) < 0.12, `line ${number + 1}: ${heard} for ${start}`);
    }
    await page.close();
  },

  async "without its script it plays, and links lead to lines"() {
    const page = await phone(`${address}pupil/`, { javaScriptEnabled: false });
    assert.equal(await page.locator("button.jump").count(), 0);
    const player = page.locator("audio").first();
    await player.scrollIntoViewIfNeeded();
    await player.focus();
    await page.keyboard.press("Space");
    let now = await state(page);
    for (let i = 0; i < 100 && !(now.currentTime > 0.3); i++) {
      await page.waitForTimeout(100);
      now = await state(page);
    }
    assert(now.currentTime > 0.3 && !now.paused, JSON.stringify(now));
    const link = page.locator("a.jump").nth(3);
    const start = Number(await link.getAttribute("data-start"));
    await page.screenshot({ path: inFolder("without-script.png") });
    await link.tap();
    await page.waitForURL(/\.mp3#t=/);
    let there = 0;
    for (let i = 0; i < 100 && !(there >= start); i++) {
      await page.waitForTimeout(100);
      there = await page.evaluate(
        () => /** @type {HTMLMediaElement} */ (document.querySelector("video, audio"))?.currentTime ?? 0,
      );
    }
    assert(there >= start && there < start + 10, `${there} for ${start}`);
    await page.close();
  },

  async "from the folder itself it plays"() {
    for (const engine of [true, false]) {
      const page = await phone(pathToFileURL(inFolder("short/index.html")).href, { engine });
      await read(page);
      await whenReady(page, engine ? "engine" : "tracks");
      await page.locator("#start").tap();
      await page.waitForSelector("#stand[data-phase=play]", { state: "attached" });
      await page.close();
    }
  },

  async "texts are shown, not obeyed"() {
    const page = await phone(`${address}hostile/`);
    assert.equal(await page.locator("h1").textContent(), '<img src=x onerror=alert(1)> & "Übung"');
    assert.equal(await page.locator("h3").first().textContent(), '1. "><svg onload=alert(3)>');
    await read(page);
    await whenReady(page, "engine");
    const scripts = await page.evaluate(() => [...document.scripts].map((script) => script.type));
    assert.deepEqual(scripts, ["application/json", "application/wasm", "module", ""]);
    assert.equal(await page.locator("img, svg[onload]").count(), 0);
    assert.equal(await page.locator("#lines > li").count(), 2);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert(wide <= PHONE.viewport.width, `${wide} pixels wide`);
    await page.screenshot({ path: inFolder("hostile.png") });
    await page.close();
  },

  async "an accessibility engine finds no violation"() {
    for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
      const page = await phone(`${address}pupil/`, { colorScheme, engine: true });
      await accessible(page, `the card of the first use, ${colorScheme}`);
      await read(page);
      await whenReady(page, "engine");
      await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
      await accessible(page, `the page, ${colorScheme}`);
      await page.locator(".mark").nth(2).tap();
      await page.waitForSelector("#marks .zoomed .note");
      await accessible(page, `the pencil, ${colorScheme}`);
      await page.getByRole("button", { name: "Done" }).tap();
      await page.locator("#lines .jump:visible").nth(1).tap();
      await page.waitForSelector("#stand[data-phase=play]", { state: "attached" });
      await page.locator("#main").tap();
      await accessible(page, `while a line is played, ${colorScheme}`);
      await page.close();
    }
    // The engine itself needs scripts to run, so here the page's own is taken out of it.
    const html = readFileSync(inFolder("pupil/index.html"), "utf8").replace(/<script type="module">.*<\/script>/s, "");
    writeFileSync(inFolder("pupil/without.html"), html);
    const without = await phone(`${address}pupil/without.html`);
    assert((await without.locator("a.jump").count()) > 0);
    await accessible(without, "the page without its script");
    await without.close();
    const list = await phone(`${address}tracks/`);
    await accessible(list, "a list of files");
    await list.close();
  },

  async "FLAC plays too"() {
    const page = await phone(`${address}tracks/`);
    await page.locator("a", { hasText: "together.flac" }).tap();
    await page.waitForURL(/\.flac$/);
    await page.waitForFunction(() => /** @type {HTMLMediaElement} */ (document.querySelector("video, audio"))?.duration > 10);
    await page.close();
  },
};

function startOf(number) {
  // The page's own figure, from its text as it was served: of the take that plays first.
  const html = readFileSync(inFolder("pupil/index.html"), "utf8");
  const [, text] = html.match(/id="data">(.*?)<\/script>/s);
  const data = JSON.parse(text);
  return data.takes[0].lines[number].start / data.sampleRate;
}

/** By the player's clock, when the first loud moment after a jump into the rest before a line is heard. */
function heardClick(page, start) {
  return page.evaluate(async (start) => {
    const player = document.querySelector("audio");
    globalThis.sound ??= (() => {
      const context = new AudioContext();
      const tap = context.createScriptProcessor(256, 1, 1);
      context.createMediaElementSource(player).connect(tap);
      tap.connect(context.destination);
      return { context, tap };
    })();
    const { context, tap } = globalThis.sound;
    await context.resume();
    player.pause();
    player.currentTime = start - 0.4;
    await new Promise((done) => player.addEventListener("seeked", done, { once: true }));
    return new Promise((done, failed) => {
      setTimeout(() => failed(new Error("nothing is heard")), 5000);
      tap.onaudioprocess = (event) => {
        const samples = event.inputBuffer.getChannelData(0);
        const at = samples.findIndex((sample) => Math.abs(sample) > 0.05);
        if (at < 0) return;
        tap.onaudioprocess = null;
        done(player.currentTime);
      };
      player.play();
    });
  }, start);
}

/** Fails after so many seconds: a browser that hangs is no reason to wait for ever. */
function tooLong(seconds) {
  return new Promise((_, fail) => setTimeout(() => fail(new Error(`not done in ${seconds} s`)), seconds * 1000).unref());
}

const tools = { assert, browser, phone, read, ready, whenReady, accessible, figures, inFolder, run, address, far };
const inBoth = { ...loopChecks(tools), ...walkChecks(tools), ...silentChecks(tools), ...markChecks(tools) };
const inChromium = {
  ...checks,
  ...standChecks(tools),
  ...slowChecks(tools),
  ...olderChecks(tools),
  ...wholeChecks(tools),
  ...mendChecks(tools),
  ...inBoth,
};
let failed = 0;
for (const [name, check] of Object.entries(isFirefox ? inBoth : inChromium)) {
  // For a picture Firefox is given a style that the page's policy forbids.
  if (!name.includes(only) || (isFirefox && name.startsWith("pictures"))) continue;
  // A machine that is busy with something else may let a moment pass that a check waits for: it gets another try.
  for (const last of [false, true]) {
    let error;
    try {
      await Promise.race([check(), tooLong(300)]);
    } catch (thrown) {
      error = thrown;
    }
    // What is left open would go on playing beside the next check.
    for (const one of phones.splice(0)) await one.close().catch(() => {});
    if (!error) {
      console.log(`holds${last ? " at the second try" : ""}: ${name}`);
      break;
    }
    console.log(`${last ? "FAILS" : "fails once"}: ${name}\n${error.stack}`);
    if (last) failed++;
  }
}
for (const figure of figures) console.log(figure);
await browser.close();
const ended = new Promise((resolve) => share.once("exit", resolve));
lan.kill("SIGINT");
share.kill("SIGINT");
assert.equal(await ended, 130, "the server ends with Ctrl-C");
process.exit(failed > 0 ? 1 : 0);
