// The takes whose sound is compared: the usual routine of each level at three tempos and in two keys. The other built-in
// routines hold nothing that sounds in another way, and would take four times as long.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";

const presets = new URL("../../presets/", import.meta.url);

export const ROUTINES = ["fifth-steps", "first-sounds", "first-steps", "fourth-steps", "second-steps", "third-steps"];
export const TEMPOS = ["100%", "85%", "70%"];
export const KEYS = [0, -2];

export const text = (routine) => readFileSync(new URL(`${routine}.toml`, presets), "utf8");

export const takes = ROUTINES.flatMap((routine) =>
  TEMPOS.flatMap((tempo) => KEYS.map((key) => ({ routine, tempo, key, name: `${routine} ${tempo} ${key}` }))),
);

/** SHA-256 of the whole track as the engine mixes it, unit after unit; and its frames. */
export async function sound(engine, { routine, tempo, key }) {
  const opened = await engine.open({ routine: text(routine), take: { tempo, key } });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const hash = createHash("sha256");
  let frames = 0;
  for (let unit = 0; unit < 2 * opened.lines.length; unit++) {
    const { performance } = await engine.begin({ unit });
    for (;;) {
      const { mix } = await engine.mix({ performance, frames: 2 ** 18 });
      if (mix.length === 0) break;
      hash.update(new Uint8Array(mix.buffer, mix.byteOffset, mix.byteLength));
      frames += mix.length;
    }
  }
  const last = opened.lines.at(-1);
  if (frames !== last.start + last.frames) throw new Error(`${frames} frames of ${last.start + last.frames}`);
  return { hash: hash.digest("hex"), frames };
}

/** SHA-256 of the frames of a WAV file. */
export function ofFile(path) {
  const file = readFileSync(path);
  let at = 12;
  while (file.toString("latin1", at, at + 4) !== "data") {
    const size = file.readUInt32LE(at + 4);
    at += 8 + size + (size % 2);
    if (at + 8 > file.length) throw new Error(`${path} has no data chunk`);
  }
  const size = file.readUInt32LE(at + 4);
  if (size === 0) throw new Error(`${path} is empty`);
  return createHash("sha256")
    .update(file.subarray(at + 8, at + 8 + size))
    .digest("hex");
}
