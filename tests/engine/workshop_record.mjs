// Writes the record of the desk's workshop: what it was made from and what it weighs.
//
//     node workshop_record.mjs MODULE SOURCES TOOLCHAIN
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { argv } from "node:process";

const [module, sources, toolchain] = argv.slice(2);
const bytes = readFileSync(module);
console.log(`# What workshop.wasm.gz was made from. Written by .ci/engine --update.

# SHA-256 of the sources, the build profile and the crates with their versions and features.
sources = "${sources}"
# On another toolchain the bytes may differ.
toolchain = "${toolchain}"
# Of the module, unpacked.
bytes = ${bytes.length}
sha256 = "${createHash("sha256").update(bytes).digest("hex")}"`);
