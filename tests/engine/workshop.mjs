// The desk's workshop under Node.js: it writes and reads what the command line does, byte for byte.
//
//     node workshop.mjs MODULE SOURCES TOOLCHAIN LEADPIPE FOLDER
//
// As check.mjs is for the engine; the module that is kept and its record are read from src/desk.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { argv, exit } from "node:process";
import { gunzipSync } from "node:zlib";
import { start } from "./in_node.mjs";
import { text } from "./takes.mjs";

const [module, sources, toolchain, leadpipe, folder] = argv.slice(2);
const place = new URL("../../src/desk/", import.meta.url);
const keptPath = new URL("workshop.wasm.gz", place);
const kept = readFileSync(keptPath);
const record = readFileSync(new URL("workshop.record.toml", place), "utf8");
const entry = (name) => record.match(new RegExp(`^${name} = "?([^"\n]*)"?$`, "m"))?.[1];
const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");
const AGAIN = "run .ci/engine --update and commit what it writes";
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const run = (...args) =>
  execFileSync(resolve(leadpipe), args, { cwd: folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const workshop = await start(keptPath);

const checks = {
  "the record is that of these sources and of the module that is kept"() {
    assert.equal(entry("sources"), sources, `the workshop was made from other sources: ${AGAIN}`);
    const unpacked = gunzipSync(kept);
    assert.equal(entry("sha256"), sha256(unpacked), `the module that is kept is not the record's: ${AGAIN}`);
    console.log(`${unpacked.length} bytes, packed ${kept.length}`);
    const made = sha256(readFileSync(module));
    if (entry("toolchain") === toolchain) assert.equal(made, entry("sha256"), `the same toolchain made other bytes: ${AGAIN}`);
    else console.log(`not compared byte for byte: ${toolchain}, the record's is ${entry("toolchain")}`);
    assert(!/\/(home|root|work|Users|tmp)\//.test(unpacked.toString("latin1")), "a folder of a machine stands in the module");
  },

  async "what it exports is what the command line exports"() {
    for (const name of ["second-steps", "minor", "tongue-speed"]) {
      for (const [to, ending] of [
        ["musicxml", "musicxml"],
        ["midi", "mid"],
      ]) {
        const out = join(folder, `${name} ${to}`);
        run("export", name, "--to", to, "--tempo", "85%", "--key", "-1", "--out", out);
        const [file] = readdirSync(out).filter((one) => one.endsWith(`.${ending}`));
        const answer = await workshop.ask("export", { routine: text(name), take: { tempo: "85%", key: -1 }, to });
        assert(answer.ok, JSON.stringify(answer));
        assert.deepEqual(Buffer.from(answer.data, "base64"), readFileSync(join(out, file)), `${name} as ${to}`);
      }
    }
  },

  async "what it adopts is what the command line adopts"() {
    run("export", "songs", "--to", "musicxml,midi", "--out", "songs");
    const files = readdirSync(join(folder, "songs")).filter((name) => /\.(musicxml|mid)$/.test(name));
    writeFileSync(join(folder, "songs", "tune.abc"), "X:1\nT:Tune\nM:4/4\nL:1/4\nK:C\nCDEF|G2z2|\n");
    for (const name of [...files, "tune.abc"]) {
      const path = join(folder, "songs", name);
      run("adopt", path, "--out", "adopted.toml", "--force");
      const answer = await workshop.ask("adopt", { name, data: readFileSync(path, "base64") });
      assert(answer.ok, JSON.stringify(answer));
      assert.equal(answer.text, readFileSync(join(folder, "adopted.toml"), "utf8"), name);
    }
    const refused = await workshop.ask("adopt", { name: "a.pdf", data: Buffer.from("%PDF-1.7").toString("base64") });
    assert(!refused.ok && /pages to print/.test(refused.problems[0].message), JSON.stringify(refused));
  },

  async "it offers what the program has built in"() {
    const { routines } = await workshop.ask("shelf", {});
    for (const { name } of routines) {
      const { text: taken } = await workshop.ask("takeDown", { name });
      assert.equal(taken, text(name), name);
    }
    const listed = JSON.parse(run("list", "--json"));
    assert.deepEqual(routines.map(({ name }) => name).sort(), listed.map(({ name }) => name).sort());
  },
};

let failed = 0;
for (const [name, check] of Object.entries(checks)) {
  try {
    await check();
    console.log(`holds: ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILS: ${name}\n${error.stack}`);
  }
}
exit(failed > 0 ? 1 : 0);
