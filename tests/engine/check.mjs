// The page's engine under Node.js: what it answers, and that it sounds as the command line does.
//
//     node check.mjs MODULE SOURCES TOOLCHAIN LEADPIPE FOLDER
//
// MODULE is what the sources make now, SOURCES and TOOLCHAIN as .ci/engine finds them, LEADPIPE the program, FOLDER is emptied and
// used for its tracks. The module that is kept and its record are read from src/handout/engine.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { argv, exit } from "node:process";
import { hold } from "./hold.mjs";
import { EngineBroken, start } from "./in_node.mjs";
import { keptModule, sha256 } from "./kept.mjs";
import { ofFile, sound, takes, text } from "./takes.mjs";

const [module, sources, toolchain, leadpipe, folder] = argv.slice(2);
const kept = keptModule("src/handout/engine", "engine");
const figures = [];

/**
 * All frames of a unit, in chunks of `chunk`.
 * @returns {Promise<{ begun: Protocol.Begun, guide: Float32Array, click: Float32Array, drone: Float32Array }>}
 */
async function played(engine, unit, chunk, from = 0) {
  const begun = await engine.begin({ unit, from });
  const voices = ["guide", "click", "drone"];
  const stem = () => new Float32Array(begun.frames);
  const stems = { guide: stem(), click: stem(), drone: stem() };
  let at = 0;
  for (;;) {
    const filled = await engine.fill({ performance: begun.performance, frames: chunk });
    for (const voice of voices) {
      assert.equal(filled[voice].length, filled.frames);
      stems[voice].set(filled[voice], at);
    }
    at += filled.frames;
    if (filled.frames === 0) {
      assert.equal(at, begun.frames);
      return { begun, ...stems };
    }
  }
}

const PENCIL = `format = 1
player = "Bo" # a nickname

[[mark]]
line = 3
tempo = "slower"
`;

const checks = {
  "the record is that of these sources and of the module that is kept"() {
    const { unpacked, packed } = kept.checked(module, sources, toolchain);
    assert(unpacked < 1_700_000 && packed < 600_000, `${unpacked} bytes, packed ${packed}`);
    figures.push(`${unpacked} bytes, packed ${packed}`);
  },

  async "a whole track is the command line's, sample for sample, and the record's"() {
    const engines = [await start(kept.path)];
    if (sha256(readFileSync(module)) !== kept.entry("sha256")) engines.push(await start(module));
    rmSync(folder, { recursive: true, force: true });
    let [seconds, spent] = [0, 0];
    for (const take of takes) {
      const out = join(folder, take.name);
      const args = ["render", take.routine, "--tempo", take.tempo, "--key", String(take.key), "--out", out];
      execFileSync(leadpipe, args, { stdio: "pipe" });
      const files = readdirSync(out).filter((name) => name.endsWith(".wav"));
      assert.equal(files.length, 1, files.join());
      const written = ofFile(join(out, files[0]));
      rmSync(out, { recursive: true });
      assert.equal(kept.entry(take.name), written, `${take.name}: the record and the command line differ`);
      for (const engine of engines) {
        const began = process.hrtime.bigint();
        const { hash, frames } = await sound(engine, take);
        spent += Number(process.hrtime.bigint() - began) / 1e9;
        seconds += frames / 44100;
        assert.equal(hash, written, `${take.name}: the engine and the command line differ`);
      }
    }
    // That equal hashes mean something.
    assert.equal(new Set(takes.map((take) => kept.entry(take.name))).size, takes.length, "takes sound alike");
    figures.push(
      `${takes.length} tracks are the same, ${Math.round(seconds)} s of sound at ${Math.round(seconds / spent)} times real time`,
    );
    engines.forEach((engine) => engine.close());
  },

  async "chunks, stems and places in a unit do not change what sounds"() {
    const engine = await start(kept.path);
    const opened = await engine.open({ routine: text("second-steps") });
    const index = opened.lines.findIndex(({ on }) => on === "horn");
    const line = opened.lines[index];
    const unit = 2 * index + 1;
    const whole = await played(engine, unit, 2 ** 18);
    assert.equal(whole.guide.length, line.frames);
    const parts = await played(engine, unit, 1000);
    assert.deepEqual(parts.guide, whole.guide);
    assert.deepEqual(parts.drone, whole.drone);
    assert(whole.guide.some((x) => x !== 0) && whole.drone.some((x) => x !== 0) && whole.click.some((x) => x !== 0));
    const from = 100_000;
    const later = await played(engine, unit, 2 ** 18, from);
    assert(later.begun.from <= from && later.begun.from > from - 64, "it begins at the block");
    assert.deepEqual(later.guide, whole.guide.slice(later.begun.from));
    // 16 bits are the rounded sum, in the order that the program adds.
    const { performance } = await engine.begin({ unit });
    const { mix } = await engine.mix({ performance, frames: 50_000 });
    mix.forEach((step, i) => {
      const sum = Math.fround(Math.fround(whole.guide[i] + whole.drone[i]) + whole.click[i]);
      assert(Math.abs(sum * 32768 - step) <= 0.5, `frame ${i}`);
    });
    await engine.end({ performance });
    assert.equal((await engine.mix({ performance, frames: 64 })).frames, 0, "it was ended");
    engine.close();
  },

  async "a pencil is written, taken back byte for byte, and heard"() {
    const engine = await start(kept.path);
    const routine = text("second-steps");
    const plain = await engine.open({ routine });
    const once = await engine.mark({ pencil: PENCIL, of: 3, mark: "breath after 1", date: "2026-11-26" });
    assert(once.ok && once.pencil.startsWith(PENCIL) && once.pencil.includes("breath_after = 1"), JSON.stringify(once));
    const back = await engine.mark({ pencil: once.pencil, of: 3, mark: "breath after 1", erase: true });
    assert.equal(back.pencil, PENCIL);
    assert(once.pencil.includes("date = 2026-11-26"), once.pencil);
    const { pencil } = await engine.open({ routine, pencil: once.pencil });
    assert.deepEqual(
      pencil.marks.map(({ of, words }) => [of, words]),
      [
        [2, "slower (85 % of the tempo)"],
        [3, "breathe after note 1"],
      ],
    );
    assert.equal((await engine.mark({ pencil: once.pencil, index: 1, erase: true })).pencil, PENCIL);
    const replaced = await engine.mark({ pencil: PENCIL, of: 2, mark: "faster" });
    assert(!replaced.pencil.includes("slower") && replaced.pencil.includes("faster"), JSON.stringify(replaced));
    const refused = await engine.mark({ pencil: PENCIL, of: 2, mark: "slower" });
    assert(!refused.ok && refused.problems[0].message.includes("is marked already"), JSON.stringify(refused));

    const marked = await engine.open({ routine, pencil: PENCIL });
    assert.equal(marked.pencil.player, "Bo");
    assert.deepEqual([marked.pencil.marks[0].of, marked.pencil.problems], [2, []]);
    assert(Math.abs(marked.lines[2].click - plain.lines[2].click / 0.85) < 1e-6);
    assert.equal(marked.lines[1].frames, plain.lines[1].frames);
    engine.close();
  },

  async "what is wrong is said, with its place"() {
    const engine = await start(kept.path);
    const routine = text("first-steps").replace("tempo = ", "tempi = ");
    const { ok, problems } = await engine.open({ routine });
    assert.equal(ok, false);
    const row = routine.split("\n").findIndex((row) => row.startsWith("tempi")) + 1;
    assert(
      problems.some((problem) => problem.in === "routine" && problem.row === row && problem.hint),
      JSON.stringify(problems),
    );
    const slow = await engine.open({ routine: text("first-steps"), take: { tempo: "5%" } });
    assert(!slow.ok && slow.problems[0].in === "take" && slow.problems[0].hint, JSON.stringify(slow));
    assert.equal((await engine.begin({ unit: 0 })).ok, false, "nothing is open");
    assert.equal((await engine.ask("dance")).ok, false);
    engine.close();
  },

  async "a module that traps is reported and started anew"() {
    // (module (memory (export "memory") 1) (data (i32.const 0) "alas") (func (export "room") (param i32) (result i32) unreachable)
    // (func (export "last_words") (result i32) i32.const 0) (func (export "last_words_length") (result i32) i32.const 4))
    const name = (text) => [text.length, ...Buffer.from(text)];
    const section = (id, ...bytes) => [id, bytes.length, ...bytes];
    const exports = [
      ["memory", 2, 0],
      ["room", 0, 0],
      ["last_words", 0, 1],
      ["last_words_length", 0, 2],
    ];
    const trapping = Uint8Array.from([
      ...[0, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
      ...section(1, 2, 0x60, 1, 0x7f, 1, 0x7f, 0x60, 0, 1, 0x7f),
      ...section(3, 3, 0, 1, 1),
      ...section(5, 1, 0, 1),
      ...section(7, exports.length, ...exports.flatMap(([text, kind, index]) => [...name(text), kind, index])),
      ...section(10, 3, 3, 0, 0, 0x0b, 4, 0, 0x41, 0, 0x0b, 4, 0, 0x41, 4, 0x0b),
      ...section(11, 1, 0, 0x41, 0, 0x0b, ...name("alas")),
    ]);
    const { Engine } = await import("./in_node.mjs");
    const worker = readFileSync(new URL("../../src/handout/engine/worker.js", import.meta.url), "utf8");
    await assert.rejects(
      Engine.start({ worker, wasm: trapping }),
      (error) => error instanceof EngineBroken && error.message === "alas",
    );
  },

  async "how long it takes"() {
    const engine = await start(kept.path);
    const routine = text("second-steps");
    await engine.open({ routine });
    const spent = [];
    for (const tempo of ["99%", "90%", "80%", "75%", "70%"]) {
      const began = process.hrtime.bigint();
      await engine.open({ routine, take: { tempo } });
      const opened = process.hrtime.bigint();
      const { performance } = await engine.begin({ unit: 9 });
      await engine.fill({ performance, frames: 8820 });
      spent.push([opened - began, process.hrtime.bigint() - began].map((ns) => Number(ns) / 1e6));
    }
    const [open, all] = spent.sort((a, b) => a[1] - b[1])[2];
    figures.push(`another tempo: ${open.toFixed(0)} ms to open the routine, ${all.toFixed(0)} ms to the first 0.2 s of a line`);
    engine.close();
  },
};

const all = await hold(checks);
for (const figure of figures) console.log(figure);
exit(all ? 0 : 1);
