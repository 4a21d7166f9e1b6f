// The desk's workshop under Node.js: it writes and reads what the command line does, byte for byte.
//
//     node workshop.mjs MODULE SOURCES TOOLCHAIN LEADPIPE FOLDER
//
// As check.mjs is for the engine; the module that is kept and its record are read from src/desk.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { argv, exit } from "node:process";
import { hold } from "./hold.mjs";
import { start } from "./in_node.mjs";
import { keptModule } from "./kept.mjs";
import { text } from "./takes.mjs";

const [module, sources, toolchain, leadpipe, folder] = argv.slice(2);
const kept = keptModule("src/desk", "workshop");
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const run = (...args) =>
  execFileSync(resolve(leadpipe), args, { cwd: folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const workshop = await start(kept.path);

const checks = {
  "the record is that of these sources and of the module that is kept"() {
    const { unpacked, packed } = kept.checked(module, sources, toolchain);
    console.log(`${unpacked} bytes, packed ${packed}`);
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

const all = await hold(checks);
exit(all ? 0 : 1);
