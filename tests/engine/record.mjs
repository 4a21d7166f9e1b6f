// Writes the record of a module: what it was made from, what it weighs, and the sound it gives.
//
//     node record.mjs MODULE SOURCES TOOLCHAIN
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { argv, exit } from "node:process";
import { start } from "./in_node.mjs";
import { sound, takes } from "./takes.mjs";

const [module, sources, toolchain] = argv.slice(2);
const bytes = readFileSync(module);
const sha = createHash("sha256").update(bytes).digest("hex");
const engine = await start(module);
const rows = [];
for (const take of takes) rows.push(`"${take.name}" = "${(await sound(engine, take)).hash}"`);
engine.close();
console.log(`# What engine.wasm.gz was made from and what it must give. Written by .ci/engine --update.

# SHA-256 of the sources, the build profile and the crates with their versions and features.
sources = "${sources}"
# On another toolchain the bytes may differ; the sound must not.
toolchain = "${toolchain}"
# Of the module, unpacked.
bytes = ${bytes.length}
sha256 = "${sha}"

# SHA-256 of the frames of whole tracks, 44,100 a second in 16 bits: routine, tempo, key.
[sound]
${rows.join("\n")}`);
exit(0);
