// What a teacher's hands do at the desk, by pointer and by keys: for desk.mjs.
import assert from "node:assert/strict";

/** What the two ways of writing must come to, as it would be typed. */
export const TYPED = `format = 1
title = "Tuesday"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 72
meter = "4/4"

[[line]]
name = "Down and up"
notes = "p slur( G4:half F#4:half ) G4:half. breath C4:quarter[1-3]"
half_steps = [0, -1]

[[line]]
name = "Threes"
notes = "triplet( C4:eighth D4:eighth E4:eighth ) F4:half tie:half"
rest = "2 bars"
`;

export const card = (page, number) => page.locator(".card").nth(number - 1);
export const field = (page, number, label) => card(page, number).getByLabel(label, { exact: true });

export async function emptyRoutine(page) {
  await page.getByRole("button", { name: "Begin an empty routine" }).click();
  await page.waitForSelector(".card svg.strip");
}

/** Opens the built-in routine whose title begins so. */
export async function open(page, title) {
  const routine = page.getByRole("button", { name: new RegExp(`^${title}`) });
  await routine.first().click();
  await page.waitForSelector(".card svg.strip");
}

/** Opens it, and shows what can be made of it. */
export async function openToMake(page, title) {
  await open(page, title);
  await page.getByRole("button", { name: "Make", exact: true }).click();
}

/** The file that a button gives. */
export async function fileOf(page, button) {
  const coming = page.waitForEvent("download", { timeout: 120000 });
  await page.getByRole("button", { name: button }).click();
  return coming;
}

/** Where a pitch lies on the staff of a line, to the right of its last note. */
export async function spot(page, number, pitch, right = 0.9) {
  const drawing = card(page, number).locator("svg.strip");
  await settled(page);
  await card(page, number).locator(".drawing").scrollIntoViewIfNeeded();
  return drawing.evaluate(
    (svg, { pitch, right }) => {
      const path = svg.querySelector(".staff-line").getAttribute("d");
      const ys = [...path.matchAll(/M[\d.]+ ([\d.]+)L/g)].map((found) => Number(found[1])).slice(0, 5);
      const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
      const step = (name) => "CDEFGAB".indexOf(name[0]) + 7 * Number(name.at(-1));
      const y = top + ((step("F5") - step(pitch)) * (bottom - top)) / 8;
      const box = svg.getBoundingClientRect();
      const scale = box.width / svg.viewBox.baseVal.width;
      return { x: box.left + box.width * right, y: box.top + y * scale };
    },
    { pitch, right },
  );
}

/** Touches the staff of a line at a pitch. */
export async function touch(page, number, pitch) {
  const { x, y } = await spot(page, number, pitch);
  await page.mouse.click(x, y);
  await settled(page);
}

/** The drawing is that of the text. */
export async function settled(page) {
  await page.waitForTimeout(40);
  await page.waitForSelector("body:not([aria-busy])");
}

export const tool = (page, name) => page.locator(".tools").getByRole("button", { name, exact: true }).click();

/** Touches a note, and with Shift all up to it. */
export async function choose(page, number, note, shift = false) {
  const drawing = card(page, number).locator("svg.strip");
  const at = await drawing.evaluate((svg, note) => {
    const heads = [...svg.querySelectorAll(".head use")].map((one) => one.getBoundingClientRect());
    const sorted = heads.sort((a, b) => a.left - b.left);
    const head = sorted[note - 1];
    return { x: head.left + head.width / 2, y: head.top + head.height / 2 };
  }, note);
  if (shift) await page.keyboard.down("Shift");
  await page.mouse.click(at.x, at.y);
  if (shift) await page.keyboard.up("Shift");
  await settled(page);
}

/** Goes to a control by keys alone. */
export async function tabTo(page, name, back = false) {
  for (let tries = 0; tries < 150; tries++) {
    await page.keyboard.press(back ? "Shift+Tab" : "Tab");
    const here = await page.evaluate(() => {
      const one = document.activeElement;
      const label = one?.getAttribute("aria-label") ?? one?.closest("label")?.querySelector("span")?.textContent;
      return label ?? one?.textContent ?? "";
    });
    if (here.startsWith(name)) return;
  }
  assert.fail(`no key leads to ${name}`);
}

export const keys = async (page, ...all) => {
  for (const key of all) {
    await page.keyboard.press(key);
    await settled(page);
  }
};

/** The routine that both ways come to, by pointer. */
export async function byPointer(page) {
  await emptyRoutine(page);
  await page.getByLabel("Title").fill("Tuesday");
  await field(page, 1, "Name").fill("Down and up");
  await touch(page, 1, "G4");
  await tool(page, "half");
  await touch(page, 1, "F4");
  await tool(page, "Sharp");
  await touch(page, 1, "G4");
  await tool(page, "Dot");
  await touch(page, 1, "C4");
  await tool(page, "quarter");
  await page.locator(".tools .finger").fill("1-3");
  await page.locator(".tools .finger").press("Enter");
  await settled(page);
  await choose(page, 1, 3);
  await tool(page, "Breath");
  await settled(page);
  await choose(page, 1, 1);
  await choose(page, 1, 2, true);
  await tool(page, "Slur");
  await settled(page);
  await choose(page, 1, 1);
  await page.locator(".tools select").selectOption("p");
  await field(page, 1, "Walk in half steps").fill("0, -1");
  await page.getByRole("button", { name: "Add a line" }).click();
  await page.locator(".card").nth(1).locator("svg.strip").waitFor();
  await field(page, 2, "Name").fill("Threes");
  await touch(page, 2, "C4");
  await tool(page, "eighth");
  await touch(page, 2, "D4");
  await touch(page, 2, "E4");
  await touch(page, 2, "F4");
  await tool(page, "half");
  await settled(page);
  await tool(page, "Tie");
  await settled(page);
  await choose(page, 2, 1);
  await choose(page, 2, 3, true);
  await tool(page, "Triplet: 3 for 2");
  await field(page, 2, "Rest after it").fill("2 bars");
}

/** The same by keys alone. */
export async function byKeys(page) {
  await tabTo(page, "Begin an empty");
  await keys(page, "Enter");
  await page.waitForSelector(".card svg.strip");
  await tabTo(page, "Title");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("Tuesday");
  await tabTo(page, "Name");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("Down and up");
  await tabTo(page, "Music of line 1");
  await keys(page, "g", "2", "f", "+", "g", ".", "c", "3", "Shift+ArrowDown");
  await tabTo(page, "Fingering");
  await page.keyboard.type("1-3");
  await keys(page, "Enter");
  await tabTo(page, "Music of line 1", true);
  await keys(page, "ArrowLeft", ",", "ArrowLeft", "ArrowLeft", "Shift+ArrowRight", "s", "ArrowLeft");
  await tabTo(page, "How loud from here");
  await keys(page, "ArrowDown", "ArrowDown");
  await tabTo(page, "Walk in half steps");
  await page.keyboard.type("0, -1");
  await tabTo(page, "Add a line");
  await keys(page, "Enter");
  await page.locator(".card").nth(1).locator("svg.strip").waitFor();
  // The name of the new line is chosen, to be written over.
  await page.keyboard.type("Threes");
  await tabTo(page, "Music of line 2");
  await keys(
    page,
    "c",
    "4",
    "Shift+ArrowDown",
    "d",
    "e",
    "f",
    "2",
    "t",
    "Home",
    "ArrowRight",
    "Shift+ArrowRight",
    "Shift+ArrowRight",
  );
  await tabTo(page, "Triplet");
  await keys(page, "Enter");
  await tabTo(page, "Rest after it");
  await page.keyboard.type("2 bars");
}
