// Compares the report of a native build with that of WebAssembly, and both with rendered files.
//
//   node compare.mjs BITS MODULE [FOLDER]
//
// BITS prints the native report, MODULE is the same code for wasm32-unknown-unknown, FOLDER holds the
// tracks of lines.toml at both rates as `leadpipe render --stems` wrote them. No value is known
// beforehand: everything that is compared was made in this run.

import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

const [bits, modulePath, folder] = process.argv.slice(2);

function native(key) {
  return execFileSync(bits, [String(key)], { encoding: "utf8" });
}

async function webAssembly() {
  // No imports: the core asks nothing of what it runs in.
  const { instance } = await WebAssembly.instantiate(readFileSync(modulePath), {});
  const { make_report, report_text, memory } = /** @type {any} */ (instance.exports);
  return (key) => {
    const length = make_report(key);
    return new TextDecoder().decode(new Uint8Array(memory.buffer, report_text(), length));
  };
}

function fail(message) {
  console.error(message);
  process.exit(1);
}

function differences(one, other) {
  const [a, b] = [one, other].map((text) => text.split("\n"));
  const lines = Array.from({ length: Math.max(a.length, b.length) }, (_, i) => i);
  return lines.filter((i) => a[i] !== b[i]).map((i) => `  ${a[i] ?? "nothing"}\n  ${b[i] ?? "nothing"}`);
}

/// That equal reports mean something: every unit but silent rests sounds, and every voice somewhere.
function sounding(report) {
  const found = [...report.matchAll(/^(\d+) unit (\d+) (\w+) .* sounding (\d+)$/gm)];
  const count = (rate, unit, voice) =>
    found
      .filter(([, r, u, v]) => r === rate && v === voice && (unit === undefined || u === unit))
      .reduce((sum, [, , , , n]) => sum + Number(n), 0);
  for (const rate of ["44100", "48000"]) {
    // Units: silence, horn, rest with signs, tubes, rest, mouthpiece, rest, air.
    for (const unit of ["1", "3", "5", "7"]) {
      if (count(rate, unit, "guide") === 0) fail(`at ${rate}, the guide of unit ${unit} is silent`);
    }
    for (const unit of ["1", "3", "5"]) {
      if (count(rate, unit, "drone") === 0) fail(`at ${rate}, the drone of unit ${unit} is silent`);
    }
    if (count(rate, "2", "click") === 0) fail(`at ${rate}, the rest has no signs`);
    if (count(rate, undefined, "mix") === 0) fail(`at ${rate}, all is silent`);
  }
  return found.length;
}

/// FNV-1a, as in hash.rs, over the frames of a WAV file.
function hashOfFrames(path) {
  const file = readFileSync(path);
  let at = 12;
  while (file.toString("latin1", at, at + 4) !== "data") {
    const size = file.readUInt32LE(at + 4);
    at += 8 + size + (size % 2);
    if (at + 8 > file.length) fail(`${path} has no data chunk`);
  }
  const data = file.subarray(at + 8, at + 8 + file.readUInt32LE(at + 4));
  // 64 bits in two halves: BigInt would take minutes.
  let [high, low] = [0xcbf29ce4, 0x84222325];
  for (const byte of data) {
    low = (low ^ byte) >>> 0;
    // Times 2^40 + 0x1b3.
    const product = low * 0x1b3;
    high = (Math.imul(high, 0x1b3) + Math.floor(product / 2 ** 32) + (low << 8)) >>> 0;
    low = product >>> 0;
  }
  return [high, low].map((half) => half.toString(16).padStart(8, "0")).join("");
}

function compareFiles(report, folder) {
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".wav"));
  const tracks = [...report.matchAll(/^(\d+) track (\w+) 16-bit (\w+)$/gm)];
  for (const [, rate, voice, hash] of tracks) {
    const ending = voice === "mix" ? "together.wav" : `together ${voice}.wav`;
    const matching = names.filter((name) => name.startsWith(rate) && name.endsWith(ending));
    if (matching.length !== 1) fail(`${rate} ${voice}: ${matching.length} files in place of 1`);
    const written = hashOfFrames(join(folder, matching[0]));
    if (written !== hash) fail(`${matching[0]}: frames ${written}, in the report ${hash}`);
  }
  if (tracks.length !== 8) fail(`${tracks.length} tracks in the report in place of 8`);
  return tracks.length;
}

const inWebAssembly = await webAssembly();
const [one, other] = [native(0), inWebAssembly(0)];
const units = sounding(one);
const different = differences(one, other);
if (different.length > 0) {
  fail(`native and WebAssembly differ in ${different.length} lines:\n${different.join("\n")}`);
}
// The comparison can fail: the same lines half a step lower are not the same sound.
const lower = inWebAssembly(-1);
if (differences(one, lower).length === 0) fail("another key gives the same report");
if (differences(native(-1), lower).length > 0) fail("half a step lower the reports differ");
const files = folder ? compareFiles(one, folder) : 0;
console.log(`${units} voices of units and ${files} files: native and WebAssembly are the same`);
