// A module that is kept packed beside the sources, and the record of what it was made from.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";

const AGAIN = "run .ci/engine --update and commit what it writes";
export const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");

/**
 * @param {string} folder of the module and its record, from the root of the project
 * @param {string} name of the module
 */
export function keptModule(folder, name) {
  const place = new URL(`../../${folder}/`, import.meta.url);
  const path = fileURLToPath(new URL(`${name}.wasm.gz`, place));
  const packed = readFileSync(path);
  const record = readFileSync(new URL(`${name}.record.toml`, place), "utf8");
  /** A value of the record. */
  const entry = (key) => record.match(new RegExp(`^"?${key}"? = "?([^"\n]*)"?$`, "m"))?.[1];
  return {
    path,
    entry,
    /**
     * The record is that of these sources and of the module that is kept. Returns how large it is, in bytes.
     * @param {string} made what the sources make now
     * @param {string} sources as .ci/engine finds them
     * @param {string} toolchain the same
     */
    checked(made, sources, toolchain) {
      assert.equal(entry("sources"), sources, `the ${name} was made from other sources: ${AGAIN}`);
      const unpacked = gunzipSync(packed);
      assert.equal(entry("sha256"), sha256(unpacked), `the module that is kept is not the record's: ${AGAIN}`);
      // Another compiler may write other bytes; what they answer is compared elsewhere.
      if (entry("toolchain") === toolchain) {
        assert.equal(sha256(readFileSync(made)), entry("sha256"), `the same toolchain made other bytes: ${AGAIN}`);
      } else console.log(`not compared byte for byte: ${toolchain}, the record's is ${entry("toolchain")}`);
      // Nothing of the machine it was made on.
      assert(!/\/(home|root|work|Users|tmp)\//.test(unpacked.toString("latin1")), "a folder of a machine stands in the module");
      return { unpacked: unpacked.length, packed: packed.length };
    },
  };
}
