// Debian's Firefox, with a sound device that plays into nothing: without one its clock stands, as on a machine that is mute.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import path from "node:path";
import { setTimeout as wait } from "node:timers/promises";
// What a newer version asks of a browser, this Firefox does not know yet.
import { firefox } from "playwright-core-of-firefox";

/**
 * A browser for each colour scheme: a page cannot be told here which it is to show.
 * @param {string} executablePath
 * @param {string} folder for what they write
 */
export async function launchFirefox(executablePath, folder) {
  const home = path.join(folder, "home");
  mkdirSync(home, { recursive: true });
  const socket = path.join(home, "sound");
  const modules = ["module-null-sink", `module-native-protocol-unix socket=${socket} auth-anonymous=1`];
  const device = spawn(
    "pulseaudio",
    ["-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no", ...modules.flatMap((one) => ["-L", one])],
    { stdio: "ignore", env: { ...process.env, HOME: home, PULSE_RUNTIME_PATH: home } },
  );
  for (let i = 0; i < 100 && !existsSync(socket); i++) await wait(100);
  const of = async (dark) => {
    const launched = await firefox.launch({
      executablePath,
      channel: "moz-firefox",
      env: { ...process.env, HOME: home, PULSE_SERVER: `unix:${socket}` },
      firefoxUserPrefs: { "layout.css.prefers-color-scheme.content-override": dark ? 0 : 1, "media.autoplay.default": 0 },
    });
    // With its last window this browser ends.
    await (await launched.newContext({ colorScheme: null })).newPage();
    return launched;
  };
  /** @type {Map<boolean, Promise<import("playwright-core").Browser>>} */
  const all = new Map();
  return {
    /** @type {(options: import("playwright-core").BrowserContextOptions) => Promise<any>} */
    async newContext({ colorScheme, viewport }) {
      const dark = colorScheme === "dark";
      if (!all.has(dark)) all.set(dark, of(dark));
      return (await all.get(dark)).newContext({ viewport, colorScheme: null, acceptDownloads: true });
    },
    async close() {
      for (const one of all.values()) await (await one).close();
      device.kill();
    },
  };
}
