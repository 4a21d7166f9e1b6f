// The page's engine and its player in Chromium, under the policy a handout has: from a server, by an address that browsers do not
// trust, and from the folder itself.
//
//     node in_browser.mjs ROOT CHROMIUM FOLDER
//
// ROOT is leadpipe's source folder; FOLDER is emptied and used.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { networkInterfaces } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { startRecording } from "./recording.mjs";

const [root, browserPath, folder] = process.argv.slice(2).map((a) => path.resolve(a));
/** @type {(name: string, as?: BufferEncoding) => string} */
const read = (name, as = "utf8") => readFileSync(path.join(root, name), as);
const place = "src/handout/engine/";
const record = read(`${place}engine.record.toml`);
const figures = [];

// As `handout::engine` joins them.
const scripts = [...read(`${place}mod.rs`).matchAll(/include_str!\("(\w+\.js)"\)/g)]
  .map(([, name]) => name)
  .filter((name) => name !== "worker.js");
assert(scripts.includes("player.js"), scripts.join());
const joined = `const ENGINE_WORKER = ${JSON.stringify(read(`${place}worker.js`))};\n${scripts.map((name) => read(place + name)).join("")}`;
const script = `${joined}
Object.assign(globalThis, { Engine, Player, nextCountIn, whereIs, start: () =>
  Engine.start({ worker: ENGINE_WORKER, wasm: document.getElementById("leadpipe-engine").textContent }) });
`.replaceAll("</", "<\\/");
const hash = createHash("sha256").update(script).digest("base64");
const policy = `default-src 'none'; img-src data:; script-src 'sha256-${hash}' 'wasm-unsafe-eval'; worker-src blob:; media-src blob:; connect-src 'none'`;
const html = `<!doctype html><html lang="en"><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Engine</title><link rel="icon" href="data:,"><button>Play</button>
<script type="application/wasm" id="leadpipe-engine">${read(`${place}engine.wasm.gz`, "base64")}</script>
<script type="module">${script}</script></html>
`;

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
writeFileSync(path.join(folder, "index.html"), html);
const server = createServer((request, response) => {
  response.setHeader("Content-Type", "text/html");
  response.end(request.url === "/" ? html : "");
});
await new Promise((listening) => server.listen(0, () => listening(null)));
const { port } = /** @type {import("node:net").AddressInfo} */ (server.address());
const other = Object.values(networkInterfaces())
  .flat()
  .find((one) => one.family === "IPv4" && !one.internal);
const trusted = `http://127.0.0.1:${port}/`;

const browser = await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox"] });

async function open(url, options = {}) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, ...options });
  const page = await context.newPage();
  page.on("pageerror", (error) => console.log(`  ${url}: ${error}`));
  page.on("console", (said) => said.type() === "error" && console.log(`  ${url}: ${said.text()}`));
  await page.goto(url);
  return page;
}

const preset = (name) => read(`presets/${name}.toml`);

// Two bars a line, quick, so that the checks are.
const QUICK = `format = 1
title = "Quick"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 240

[[line]]
name = "One"
notes = "mf slur( C4:quarter D4:quarter E4:half )"
rest = "2 s"

[[line]]
name = "Two"
notes = "mf E4:quarter D4:quarter C4:half"
rest = "5 s"

[[line]]
name = "Three"
notes = "mf G4:whole | F#4:whole"
`;

/** Runs `check` in a page that has started an engine with QUICK open, sound recorded from a tap on. Policy is lifted for the recorder. */
async function recorded(check, ...args) {
  const page = await open(trusted, { bypassCSP: true });
  await page.evaluate(startRecording, [QUICK]);
  await page.locator("button").tap();
  const result = await page.evaluate(check, args);
  const { said, longest } = await page.evaluate(() => ({ said: globalThis.said, longest: globalThis.longest.task }));
  await page.context().close();
  const wrong = said.filter(({ what }) => what === "fault");
  assert.deepEqual(wrong, []);
  return { result, said, longest };
}

const checks = {
  async "it starts wherever a handout may be opened"() {
    const places = [trusted, pathToFileURL(path.join(folder, "index.html")).href];
    if (other) places.push(`http://${other.address}:${port}/`);
    for (const url of places) {
      const page = await open(url);
      const answer = await page.evaluate(
        async ([routine]) => {
          const began = performance.now();
          const engine = await start();
          const started = performance.now() - began;
          const opened = await engine.open({ routine });
          const { performance: number } = await engine.begin({ unit: 1 });
          const { guide, frames } = await engine.fill({ performance: number, frames: 300000 });
          return { secure: isSecureContext, started, lines: opened.lines.length, frames, sounding: guide.some((x) => x !== 0) };
        },
        [preset("second-steps")],
      );
      assert(answer.lines > 5 && answer.sounding, JSON.stringify(answer));
      const kind = url.startsWith("file:") ? "the folder itself" : url === trusted ? "localhost" : "another address";
      if (url !== trusted && !url.startsWith("file:")) assert.equal(answer.secure, false, "browsers do not trust it");
      figures.push(`from ${kind}: the engine is ready ${answer.started.toFixed(0)} ms after it is asked for`);
      await page.context().close();
    }
    assert(other, "this machine has no other address to try");
  },

  async "in a real browser tracks are the command line's, sample for sample"() {
    // The usual routine of each level, whose sound is on record.
    const names = readdirSync(path.join(root, "presets")).filter((name) =>
      record.includes(`"${name.replace(".toml", "")} 100% 0"`),
    );
    const page = await open(trusted);
    let compared = 0;
    let [seconds, spent] = [0, 0];
    for (const name of names.map((name) => name.slice(0, -5))) {
      for (const tempo of ["100%", "85%", "70%"]) {
        for (const key of [0, -2]) {
          const { sound, frames, ms } = await page.evaluate(
            async ([routine, take]) => {
              globalThis.engine ??= await start();
              const began = performance.now();
              const opened = await engine.open({ routine, take });
              const last = opened.lines.at(-1);
              const all = new Int16Array(last.start + last.frames);
              let at = 0;
              for (let unit = 0; unit < 2 * opened.lines.length; unit++) {
                const { performance: number } = await engine.begin({ unit });
                for (;;) {
                  const { mix } = await engine.mix({ performance: number, frames: 2 ** 18 });
                  if (mix.length === 0) break;
                  all.set(mix, at);
                  at += mix.length;
                }
              }
              const ms = performance.now() - began;
              const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", all));
              return { sound: [...digest].map((b) => b.toString(16).padStart(2, "0")).join(""), frames: at, ms };
            },
            [preset(name), { tempo, key }],
          );
          assert(record.includes(`"${name} ${tempo} ${key}" = "${sound}"\n`), `${name} ${tempo} ${key} sounds otherwise`);
          compared++;
          seconds += frames / 44100;
          spent += ms / 1000;
        }
      }
    }
    assert.equal(compared, 36);
    figures.push(
      `${compared} tracks are the same, ${Math.round(seconds)} s of sound at ${Math.round(seconds / spent)} times real time`,
    );
    await page.context().close();
  },

  async "lines, rests and chunks join without a frame between them"() {
    const { result, said } = await recorded(async () => {
      player.volume("click", 0);
      player.volume("drone", 0);
      await until(() => said.some(({ what, index }) => what === "line" && index === 1));
      await until(() => said.some(({ what, index, next }) => what === "rest" && index === 1 && next === 2));
      // Volumes have come down in the meantime, so only the guide is there.
      const expected = [...(await unit(1)), ...(await unit(2)), ...(await unit(3))];
      // A browser starts sound at a time in seconds; where that falls beside its frame by some 1e-11 frames, Chromium interpolates,
      // and samples near zero differ in their last bit. A frame more or less differs by a thousand times what is let pass here.
      const same = (one, other) => Math.abs(one - other) <= 1e-9;
      const first = expected.findIndex((x) => Math.abs(x) > 1e-4);
      // Where the unit begins: at the place where its first note is heard, with all that comes after it.
      const from = [...blocks.keys()]
        .sort((a, b) => a - b)
        .flatMap((frame) => {
          const samples = blocks.get(frame);
          return [...samples.keys()].filter((i) => same(samples[i], expected[first])).map((i) => frame + i - first);
        });
      const last = from.at(-1) + expected.length;
      await until(() => blocks.has(last & ~127));
      const differing = from.map((start) => {
        const samples = heard(start + first, expected.length - first);
        const at = samples.findIndex((x, i) => !same(x, expected[first + i]));
        return at < 0
          ? null
          : {
              at,
              heard: samples[at],
              expected: expected[first + at],
              bad: samples.filter((x, i) => !same(x, expected[first + i])).length,
            };
      });
      return {
        frames: expected.length - first,
        sounding: expected.filter((x) => x !== 0).length,
        candidates: from.length,
        differing,
      };
    });
    assert(result.sounding > 50_000, JSON.stringify(result));
    assert(result.differing.includes(null), `what is heard is not what was rendered: ${JSON.stringify(result)}`);
    assert.deepEqual(
      said.filter(({ what }) => what === "late"),
      [],
    );
    figures.push(`${result.frames} frames over two lines and the rest between them are heard as they were rendered`);
  },

  async "what is heard is told: lines, beats, notes, rests"() {
    const { said } = await recorded(async () => {
      await until(() => said.some(({ what, state }) => what === "state" && state === "ended"), 40);
    });
    const of = (wanted) => said.filter(({ what }) => what === wanted);
    assert.deepEqual(
      of("line").map(({ index }) => index),
      [0, 1, 2],
    );
    const first = of("beat").filter(({ index }) => index === 0);
    assert.deepEqual(
      first.map(({ beat, countIn, last }) => [beat, countIn, last]),
      [
        [1, true, false],
        [2, true, false],
        [3, true, false],
        [4, true, true],
        [1, false, false],
        [2, false, false],
        [3, false, false],
        [4, false, false],
      ],
    );
    const notes = of("note").filter(({ index }) => index === 0);
    assert.deepEqual(
      notes.map(({ note }) => note),
      [0, 1, 2],
    );
    const rests = of("rest").filter(({ index }) => index === 1);
    assert.deepEqual(
      rests.map(({ left }) => Math.ceil(left)),
      [4, 3, 2, 1],
      "whole seconds, until the count-in",
    );
    // A beat is told when it is heard: a quarter of a second apart here.
    const gaps = first.slice(1).map(({ at }, i) => at - first[i].at);
    assert(
      gaps.every((gap) => gap > 0.15 && gap < 0.35),
      gaps.join(),
    );
    const between = notes[1].at - notes[0].at;
    assert(between > 0.15 && between < 0.35, `a quarter note lasts ${between} s`);
  },

  async "hold holds the rest, go counts in, and lines can be chosen"() {
    const { result } = await recorded(async () => {
      await until(() => said.some(({ what, index }) => what === "rest" && index === 0));
      const waits = player.hold();
      const waiting = player.state;
      await new Promise((done) => setTimeout(done, 2500));
      const lines = said.filter(({ what }) => what === "line").length;
      const asked = context.currentTime;
      await player.go();
      await until(() => said.some(({ what, index }) => what === "line" && index === 1));
      const answered = said.findLast(({ what }) => what === "line").at - asked;
      const again = player.hold();
      const back = player.position();
      await player.play(1);
      await until(() => player.position().where === "line");
      const next = player.position().index;
      await player.play(2);
      await until(() => said.findLast(({ what }) => what === "line").index === 2);
      await player.play(1);
      await until(() => said.findLast(({ what }) => what === "line").index === 1);
      await player.pause();
      const paused = [player.state, player.position().frame];
      await new Promise((done) => setTimeout(done, 500));
      const still = player.position().frame;
      await player.go();
      await until(() => player.position().frame > still + 4410);
      return { waits, waiting, lines, answered, again, back, next, paused, still, state: player.state };
    });
    assert.deepEqual(
      [result.waits, result.waiting, result.lines],
      [true, "waiting", 1],
      "in 2.5 s the rest of 2 s would have been over",
    );
    assert(result.answered < 0.3, `the count-in is told ${result.answered} s after ready`);
    assert.deepEqual(
      [result.again, result.back.where, result.back.index, result.next],
      [true, "rest", 0, 1],
      "the count-in can be stopped too",
    );
    assert.equal(result.paused[0], "paused");
    assert(Math.abs(result.still - result.paused[1]) < 4410, "it stands still");
    assert.equal(result.state, "playing");
  },

  async "in a rest, and while it waits, another tempo is for what comes after"() {
    const { result } = await recorded(async ([routine]) => {
      const at = (tempo) => engine.open({ routine, take: { tempo }, sampleRate: player.sampleRate });
      const line = (index) => said.find((one) => one.what === "line" && one.index === index);
      await until(() => said.some(({ what, index }) => what === "rest" && index === 0));
      const slower = await at("80%");
      await until(() => player.position().where === "rest");
      const left = player.position().leftToCount;
      const asked = context.currentTime;
      await player.load(slower);
      await until(() => line(1));
      const waited = line(1).at - asked;
      await until(() => said.some(({ what, index }) => what === "rest" && index === 1));
      player.hold();
      await player.load(await at("90%"));
      const state = player.state;
      await player.go();
      await until(() => line(2));
      return { left, waited, tempos: [line(1).line.tempo, line(2).line.tempo], state };
    }, QUICK);
    assert(Math.abs(result.waited - result.left) < 0.15, JSON.stringify(result));
    assert.deepEqual([result.tempos, result.state], [["192", "216"], "waiting"]);
  },

  async "another tempo is heard at once"() {
    const { result, longest } = await recorded(async ([routine]) => {
      const other = await engine.open({ routine, sampleRate: player.sampleRate });
      await player.load(other);
      await player.play(0);
      const times = [];
      for (const tempo of ["90%", "80%", "85%", "75%", "95%"]) {
        await new Promise((done) => setTimeout(done, 1500));
        const from = context.currentTime * 44100;
        const began = performance.now();
        const asked = await engine.open({ routine, take: { tempo }, sampleRate: player.sampleRate });
        const opened = performance.now() - began;
        await player.load(asked);
        const scheduled = performance.now() - began;
        await new Promise((done) => setTimeout(done, 400));
        // Where the new line begins, by the player; and there its first click must be, as it was rendered.
        const latency = context.outputLatency || context.baseLatency;
        const begins = Math.round((context.currentTime - latency) * 44100 - player.position().frame);
        const expected = (await unit(1, ["click"])).slice(0, 200);
        let loud = null;
        for (let frame = begins - 256; frame < begins + 256 && loud === null; frame++) {
          const there = heard(frame, 200);
          const same = expected.every((x, i) => Math.abs(x - there[i]) < 2e-3);
          if (same) loud = frame + expected.findIndex((x) => Math.abs(x) > 0.02);
        }
        if (loud === null) throw new Error("the click is not where the line begins");
        times.push({ opened, scheduled, heard: ((loud - from) / 44100) * 1000, latency: context.outputLatency * 1000 });
      }
      return times;
    }, preset("second-steps"));
    const heard = result.map((one) => one.heard).sort((a, b) => a - b);
    figures.push(
      `another tempo: the routine is open after ${result.map((one) => one.opened.toFixed(0)).join(", ")} ms, the line sounds after ` +
        `${heard.map((ms) => ms.toFixed(0)).join(", ")} ms (the browser says ${result[0].latency.toFixed(0)} ms more to its speaker); ` +
        `longest block of the page's thread ${longest.toFixed(0)} ms`,
    );
    assert(heard[2] < 300, `in the middle ${heard[2]} ms`);
  },

  async "an interruption is told, and it goes on where it was"() {
    const { result } = await recorded(async () => {
      await until(() => player.position().frame > 20_000);
      // As the system does it: not through the player.
      await context.suspend();
      await until(() => player.state === "interrupted");
      const before = player.position().frame;
      await new Promise((done) => setTimeout(done, 400));
      await context.resume();
      await until(() => player.state === "playing");
      await until(() => player.position().frame > before);
      return { gap: player.position().frame - before };
    });
    assert(result.gap < 22050, JSON.stringify(result));
  },

  async "without WebAssembly it says so"() {
    const page = await browser.newPage();
    await page.addInitScript(() => delete globalThis.WebAssembly);
    await page.goto(trusted);
    assert.equal(await page.evaluate(() => Engine.possible()), false);
    await page.close();
  },
};

function tooLong(seconds) {
  return new Promise((_, fail) => setTimeout(() => fail(new Error(`not done in ${seconds} s`)), seconds * 1000).unref());
}

let failed = 0;
const wanted = process.env.ONLY;
for (const [name, check] of Object.entries(checks)) {
  if (wanted && !name.includes(wanted)) continue;
  try {
    await Promise.race([check(), tooLong(400)]);
    console.log(`holds: ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILS: ${name}\n${error.stack}`);
  }
}
for (const figure of figures) console.log(figure);
await browser.close();
server.close();
process.exit(failed > 0 ? 1 : 0);
