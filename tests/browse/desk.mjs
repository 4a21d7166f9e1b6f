// A browser at the desk, as a teacher would be: from nothing to a routine by pointer and by keys, heard, made, saved, found again.
//
//     node desk.mjs LEADPIPE BROWSER FOLDER [PAGE]
//
// LEADPIPE is the program, BROWSER Chromium or Firefox; FOLDER is emptied and used for files, and for pictures to be looked at. PAGE is a desk that
// was written before; left out, the program writes it.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";
import { launchFirefox } from "./firefox.mjs";
import { handedOn } from "./handed_on.mjs";
import { TYPED, byKeys, byPointer, card, emptyRoutine, field, fileOf, openToMake, settled, touch } from "./hands.mjs";

const [leadpipe, browserPath, folder, given] = process.argv.slice(2, 6).map((a) => path.resolve(a));
// Only checks in whose names these words stand.
const only = process.env.ONLY ?? "";
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const inFolder = (name) => path.join(folder, name);
const desk = given ?? inFolder("desk.html");
if (!given) execFileSync(leadpipe, ["desk", "--out", "desk.html"], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
const address = pathToFileURL(desk).href;
const isFirefox = path.basename(browserPath).startsWith("firefox");
const browser = isFirefox
  ? await launchFirefox(browserPath, folder)
  : await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox"] });
const figures = [];
const size = readFileSync(desk);
figures.push(`desk.html: ${size.length} bytes, packed ${gzipSync(size, { level: 9 }).length}`);

const DESK = { viewport: { width: 1280, height: 900 } };

/** A page on which nothing may go wrong unseen, and that asks nobody for anything. */
async function atDesk(options = {}, url = address) {
  const context = options.context ?? (await browser.newContext({ ...DESK, acceptDownloads: true, ...options }));
  const page = await context.newPage();
  // Taking a picture, Firefox's driver tries a style of its own.
  const ofDriver = (words) => isFirefox && words.includes("blocked an inline style");
  page.on("pageerror", (error) => !ofDriver(error.message) && assert.fail(error.stack ?? error.message));
  page.on("console", (said) => {
    if (said.type() === "error" && !options.refuses && !ofDriver(said.text())) assert.fail(said.text());
  });
  const own = new URL(url).origin;
  page.on("request", (request) => {
    const asked = request.url();
    const isOwn = asked.startsWith("blob:") || asked.startsWith("data:") || asked === url || asked.startsWith(`${url}#`);
    assert(isOwn || (own !== "null" && asked.startsWith(url)), `the page asked for ${asked}`);
  });
  await page.goto(url);
  await page.waitForSelector("body[data-shows]");
  return page;
}

/** The text that the browser keeps. */
const text = (page) =>
  page.evaluate(async () => {
    const result = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const base = await result(indexedDB.open("leadpipe-desk"));
    const work = await result(base.transaction("works").objectStore("works").get(location.hash.slice(1)));
    base.close();
    return work?.text;
  });

/** Waits until the browser keeps a text that holds this. */
async function kept(page, piece) {
  for (let tries = 0; tries < 100; tries++) {
    if ((await text(page))?.includes(piece)) return;
    await page.waitForTimeout(50);
  }
  assert.fail(`not kept: ${piece} in\n${await text(page)}`);
}

/** Milliseconds from a key to the drawing of the note that it moves, nine times, the shortest first. */
async function keyToNote(page, number) {
  await card(page, number).locator(".drawing").focus();
  await settled(page);
  return page.evaluate(async (number) => {
    const music = document.querySelectorAll(".card")[number - 1].querySelector(".drawing");
    const times = [];
    for (let n = 0; n < 9; n++) {
      const start = performance.now();
      const drawn = new Promise((done) =>
        new MutationObserver((_, seen) => (seen.disconnect(), done())).observe(music, { childList: true }),
      );
      music.dispatchEvent(new KeyboardEvent("keydown", { key: n % 2 ? "ArrowDown" : "ArrowUp", bubbles: true }));
      await drawn;
      times.push(performance.now() - start);
      await new Promise((done) => setTimeout(done, 300));
    }
    return times.sort((a, b) => a - b);
  }, number);
}

async function accessible(page, what) {
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() => globalThis.axe.run());
  const said = violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.html).join(" ")}`);
  assert.deepEqual(said, [], what);
  assert(passes.length > 10, `${what}: the engine looked at nothing`);
}

const checks = {
  async "a routine is written by pointer, and is what would be typed"() {
    const page = await atDesk();
    await byPointer(page);
    await kept(page, "2 bars");
    assert.equal(await text(page), TYPED);
    await page.screenshot({ path: inFolder("by-pointer.png"), fullPage: true });
    await page.close();
  },

  async "the same by keys alone"() {
    const page = await atDesk();
    await byKeys(page);
    await kept(page, "2 bars");
    assert.equal(await text(page), TYPED);
    await page.close();
  },

  async "loading the page again finds the work, and every step of it"() {
    const page = await atDesk();
    await emptyRoutine(page);
    const before = await text(page);
    await touch(page, 1, "G4");
    await touch(page, 1, "A4");
    await kept(page, "A4");
    const after = await text(page);
    await page.reload();
    await page.waitForSelector(".card svg.strip");
    assert.equal(await text(page), after);
    const undo = page.getByRole("button", { name: "Undo" });
    while (await undo.isEnabled()) await undo.click();
    await page.waitForFunction(() => !document.querySelector(".bar")?.textContent?.includes("…"));
    await kept(page, 'notes = ""');
    assert.equal(await text(page), before);
    await page.reload();
    await page.waitForSelector(".card svg.strip");
    const redo = page.getByRole("button", { name: "Redo" });
    while (await redo.isEnabled()) await redo.click();
    await kept(page, "A4");
    assert.equal(await text(page), after);
    await page.goto(address);
    await page.waitForSelector("body[data-shows=first]");
    await page.getByRole("button", { name: /^New routine/ }).click();
    await page.waitForSelector(".card svg.strip");
    await page.close();
  },

  async "what is wrong is said, underlined, and thrown away by nobody"() {
    const page = await atDesk();
    await emptyRoutine(page);
    await touch(page, 1, "G4");
    await field(page, 1, "Notes as text").fill("G4:half X9 A4:half");
    await page.locator(".findings li.error").first().waitFor();
    assert.match(await page.locator(".findings").textContent(), /X9/);
    assert.equal(await page.locator(".problems .error").count(), 1);
    await kept(page, "X9");
    await page.getByRole("button", { name: "Text", exact: true }).click();
    const marks = await page.locator(".under mark.error").allTextContents();
    assert(
      marks.some((mark) => mark.includes("X9")),
      JSON.stringify(marks),
    );
    await field(page, 1, "Notes as text").fill("G4:half A4:half");
    await page.locator(".under mark.error").waitFor({ state: "detached" });
    await page.close();
  },

  async "what a finding tells to do is done by one touch"() {
    const page = await atDesk();
    await emptyRoutine(page);
    await touch(page, 1, "G4");
    await field(page, 1, "Notes as text").fill("G4:half X4:half");
    await field(page, 1, "Notes as text").fill("G4:half[1-2] A4:half");
    const mend = card(page, 1).getByRole("button", { name: "Take its fingering out" });
    await mend.waitFor();
    await page.screenshot({ path: inFolder("mends.png") });
    await accessible(page, "a finding with what mends it");
    await mend.click();
    await kept(page, 'notes = "G4:half A4:half"');
    await page.locator(".problems .error").waitFor({ state: "detached" });
    await page.getByRole("button", { name: "Undo" }).click();
    await kept(page, "G4:half[1-2]");
    // Nor a word that the reader does not know.
    await page.getByRole("button", { name: "Text", exact: true }).click();
    await page.getByLabel("The text of the routine").fill((await text(page)).replace("[1-2]", "").replace("tempo =", "tempoo ="));
    await page.getByRole("button", { name: /^To mend/ }).click();
    await page
      .getByRole("button", { name: /instead of tempoo/ })
      .first()
      .click();
    await kept(page, "tempo = 72");
    await page.close();
  },

  async "a line is heard, and the mark goes with it"() {
    const page = await atDesk();
    await page
      .getByRole("button", { name: /^First steps/ })
      .first()
      .click();
    await page.waitForSelector(".card svg.strip");
    const hear = card(page, 3).getByRole("button", { name: "Hear", exact: true });
    await hear.click();
    await page.locator(".card.playing").waitFor();
    await card(page, 3).locator(".place").waitFor({ timeout: 20000 });
    await page.screenshot({ path: inFolder("heard.png") });
    await card(page, 3).getByRole("button", { name: "Stop", exact: true }).click();
    await page.locator(".card.playing").waitFor({ state: "detached" });
    await page.close();
  },

  async "a note is drawn soon after its key"() {
    const page = await atDesk();
    await page
      .getByRole("button", { name: /^Second steps/ })
      .first()
      .click();
    await page.waitForSelector(".card svg.strip");
    const times = await keyToNote(page, 4);
    figures.push(`key to drawn note in second-steps: median ${times[4].toFixed(0)} ms, at most ${times.at(-1).toFixed(0)} ms`);
    assert(times[4] < 300, `${times[4]} ms`);
    await page.close();
  },

  async "in a routine of 40 lines, too"() {
    const page = await atDesk();
    await emptyRoutine(page);
    const line = (n) =>
      `\n[[line]]\nname = "Line ${n}"\nnotes = "mf slur( G4:quarter A4 G4 F4 | E4:half ) rest:half"\nhalf_steps = [0, -1]\n`;
    const head = (await text(page)).split("[[line]]")[0].trimEnd();
    const forty = `${head}\n${Array.from({ length: 40 }, (_, n) => line(n + 1)).join("")}`;
    await page.getByRole("button", { name: "Text", exact: true }).click();
    await page.getByLabel("The text of the routine").fill(forty);
    await page.locator(".card").nth(39).locator("svg.strip").waitFor();
    await settled(page);
    const times = await keyToNote(page, 20);
    figures.push(`key to drawn note in 40 lines: median ${times[4].toFixed(0)} ms, at most ${times.at(-1).toFixed(0)} ms`);
    assert(times[4] < 1000, `${times[4]} ms`);
    await page.close();
  },

  async "tracks are the program's, frame for frame"() {
    const page = await atDesk();
    await openToMake(page, "First sounds");
    await page.getByLabel("Tempos").fill("85%");
    const made = readFileSync(await (await fileOf(page, "Make WAV files")).path());
    const name = (await page.locator("dialog [role=status]").first().textContent()) ?? "";
    assert.match(name, /85 percent\.wav/);
    execFileSync(leadpipe, ["render", "first-sounds", "--tempo", "85%", "--out", "tracks"], { cwd: folder, stdio: "ignore" });
    const list = readFileSync(inFolder("tracks/practice.m3u8"), "utf8");
    const file = list.split("\n").find((row) => row.endsWith(".wav"));
    const rendered = readFileSync(inFolder(path.join("tracks", decodeURIComponent(file))));
    assert.deepEqual(frames(made), frames(rendered));
    await page.close();
  },

  async "the file that is taken is the text"() {
    const page = await atDesk();
    await emptyRoutine(page);
    await touch(page, 1, "G4");
    await kept(page, "G4");
    await page.getByRole("button", { name: "Make", exact: true }).click();
    const download = await fileOf(page, "Take the file");
    assert.equal(download.suggestedFilename(), "New routine.toml");
    assert.equal(readFileSync(await download.path(), "utf8"), await text(page));
    await page.close();
  },

  async "two pages with one routine know of each other"() {
    const one = await atDesk();
    await emptyRoutine(one);
    const other = await atDesk({ context: one.context() });
    await other.getByRole("button", { name: /^New routine/ }).click();
    await other.waitForSelector(".card svg.strip");
    await touch(one, 1, "G4");
    await other.waitForFunction(() =>
      /** @type {HTMLTextAreaElement} */ (document.querySelector(".notes"))?.value.includes("G4"),
    );
    assert.match(await other.locator(".told").textContent(), /Another page/);
    await one.context().close();
  },

  async "with the program behind it files are opened and saved, and a change meanwhile is compared"() {
    mkdirSync(inFolder("lessons"));
    writeFileSync(inFolder("lessons/anna.toml"), TYPED.replace("Tuesday", "Anna"));
    const served = spawn(leadpipe, ["desk", "lessons", "--no-browser"], { cwd: folder, stdio: ["ignore", "pipe", "ignore"] });
    const url = await new Promise((resolve) => served.stdout.once("data", (data) => resolve(String(data).split("\n")[0])));
    // A file that changed meanwhile is an answer that browsers count as an error.
    const page = await atDesk({ refuses: true }, url);
    await page.getByRole("button", { name: "anna.toml" }).click();
    await page.getByLabel("Title").fill("Anna, week 2");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.locator(".kept", { hasText: "Saved in anna.toml" }).waitFor();
    assert.match(readFileSync(inFolder("lessons/anna.toml"), "utf8"), /Anna, week 2/);
    writeFileSync(inFolder("lessons/anna.toml"), TYPED.replace("Tuesday", "Theirs"));
    await page.getByLabel("Title").fill("Anna, week 3");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.locator("dialog.compare .other", { hasText: "Theirs" }).waitFor();
    await page.screenshot({ path: inFolder("compared.png") });
    assert.match(readFileSync(inFolder("lessons/anna.toml"), "utf8"), /Theirs/);
    await page.getByRole("button", { name: "Write mine over it" }).click();
    await page.locator(".kept", { hasText: "Saved in anna.toml" }).waitFor();
    assert.match(readFileSync(inFolder("lessons/anna.toml"), "utf8"), /week 3/);
    await page.close();
    served.kill();
  },

  async "an accessibility engine finds no violation, and all can be reached on every screen"() {
    for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
      for (const [name, width, height] of [
        ["desk", 1280, 900],
        ["tablet", 820, 1180],
        ["narrow", 380, 800],
        ["twice", 640, 450],
      ]) {
        const page = await atDesk({ colorScheme, viewport: { width: Number(width), height: Number(height) } });
        await page.waitForSelector(".over-note");
        await page.getByRole("button", { name: "G4", exact: true }).click();
        await page.locator(".chosen .deed").waitFor();
        await page.screenshot({ path: inFolder(`first-${name}-${colorScheme}.png`) });
        await accessible(page, `the first screen, ${name}, ${colorScheme}`);
        await page.locator(".chosen .deed").click();
        await page.waitForSelector(".card svg.strip");
        await card(page, 3).locator(".drawing").focus();
        await settled(page);
        await card(page, 3).scrollIntoViewIfNeeded();
        await page.screenshot({ path: inFolder(`sheet-${name}-${colorScheme}.png`) });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        assert(wide <= Number(width), `${name}: ${wide} pixels wide`);
        await accessible(page, `the sheet, ${name}, ${colorScheme}`);
        await page.close();
      }
    }
  },
};

/** The frames of a WAV file. */
function frames(file) {
  let at = 12;
  while (file.toString("latin1", at, at + 4) !== "data") at += 8 + file.readUInt32LE(at + 4) + (file.readUInt32LE(at + 4) % 2);
  return file.subarray(at + 8, at + 8 + file.readUInt32LE(at + 4));
}

Object.assign(checks, handedOn({ atDesk, browser, leadpipe, folder, text, kept, accessible, figures }));

/** Firefox's driver tells of no downloads, and takes half a minute to fill in a text of 40 lines. */
const NOT_IN_FIREFOX = [
  "tracks are the program's, frame for frame",
  "the file that is taken is the text",
  "the pupil's page that is made plays, as one file",
  "for other programs it writes what the command line writes",
  "in a routine of 40 lines, too",
];

let failed = 0;
for (const [name, check] of Object.entries(checks)) {
  if (!name.includes(only) || (isFirefox && NOT_IN_FIREFOX.includes(name))) continue;
  try {
    await check();
    console.log(`ok   ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAIL ${name}\n${error.stack}`);
  }
}
console.log(figures.join("\n"));
await browser.close();
process.exit(failed === 0 ? 0 : 1);
