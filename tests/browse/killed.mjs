// The browser is killed at random moments while somebody writes at the desk: what was written is there again.
//
//     node killed.mjs DESK CHROMIUM FOLDER [TIMES]
//
// DESK is the page as one file; FOLDER is emptied and used for the browser's profile. What a browser keeps lazily is written a moment
// later, so the last keystrokes before the kill may be missing: never more than those of the last moment, and never a torn text.
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const [desk, executablePath, folder] = process.argv.slice(2, 5).map((a) => path.resolve(a));
const times = Number(process.argv[5] ?? 20);
/** Milliseconds within which a browser has to have it on the disk. */
const SOON = 1500;
rmSync(folder, { recursive: true, force: true });
const address = pathToFileURL(desk).href;
let id = "";
let longest = 0;
let lost = 0;

async function opened() {
  const context = await chromium.launchPersistentContext(folder, { executablePath, args: ["--no-sandbox"] });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(id ? `${address}#${id}` : address);
  await page.waitForSelector("body[data-shows]");
  return { context, page };
}

/** Numbers one after the other, as somebody types; each is told when it is typed. */
let typed = 0;
/** @type {{ number: number, at: number }[]} */
let log = [];
for (let kill = 0; kill < times; kill++) {
  const { context, page } = await opened();
  if (!id) {
    await page.getByRole("button", { name: "Begin an empty routine" }).click();
    await page.waitForSelector(".card svg.strip");
    id = new URL(page.url()).hash.slice(1);
  }
  const say = page.locator(".card").first().getByLabel("How to play it", { exact: true });
  await say.waitFor();
  const found = await say.inputValue();
  if (kill > 0) {
    const last = Number(found.match(/^n(\d+)$/)?.[1] ?? NaN);
    assert(!Number.isNaN(last), `torn: “${found}”`);
    const due = log.filter(({ at }) => at < log.at(-1).at - SOON).at(-1)?.number ?? 0;
    assert(last >= due, `kill ${kill}: ${last} is there, ${due} was written ${SOON} ms before`);
    lost = Math.max(lost, log.at(-1).number - last);
    const undo = page.getByRole("button", { name: "Undo" });
    assert(await undo.isEnabled(), "its steps are gone");
  }
  log = [];
  const until = Date.now() + 300 + Math.random() * 2500;
  while (Date.now() < until) {
    typed++;
    await say.fill(`n${typed}`);
    log.push({ number: typed, at: Date.now() });
    longest = Math.max(longest, typed);
  }
  // As a power cut: nothing is closed.
  const pid = await processOf(context);
  process.kill(pid, "SIGKILL");
  await context.close().catch(() => {});
}
console.log(`ok   ${times} kills, ${typed} texts: at most the last ${lost} were not on the disk yet`);
process.exit(0);

/** The browser's process. */
async function processOf(context) {
  const session = await context
    .browser()
    ?.newBrowserCDPSession()
    .catch(() => null);
  if (session) {
    const { processInfo } = await session.send("SystemInfo.getProcessInfo");
    return processInfo.find(({ type }) => type === "browser").id;
  }
  const page = context.pages()[0];
  const own = await context.newCDPSession(page);
  const { processInfo } = await own.send("SystemInfo.getProcessInfo");
  return processInfo.find(({ type }) => type === "browser").id;
}
