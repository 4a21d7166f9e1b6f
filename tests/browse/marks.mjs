// The marks of a player: a file that is opened, two pages at once, and a phone that keeps nothing.
import { writeFileSync } from "node:fs";

const BO = `format = 1
player = "Bo"

[[mark]]
line = 1
tempo = "70%"

[[mark]]
line = 2
loudness = "softer"

[[mark]]
line = 9
tempo = "slower"
`;

export function markChecks({ assert, phone, ready, inFolder, address }) {
  const words = (page) =>
    page.evaluate(() => [...document.querySelectorAll("#lines .pencilled")].map((one) => one.textContent).join(" | "));
  const shows = (page, wanted) =>
    page.waitForFunction(
      (text) => [...document.querySelectorAll("#lines .pencilled")].map((one) => one.textContent).join(" | ") === text,
      wanted,
    );
  async function mark(page, line, name) {
    await page.locator("#lines > li").nth(line).locator(".mark").click();
    const before = await words(page);
    await page.locator("#marks").getByRole("button", { name, exact: true }).first().click();
    await page.waitForFunction(
      (text) => [...document.querySelectorAll("#lines .pencilled")].map((one) => one.textContent).join(" | ") !== text,
      before,
    );
  }
  const done = (page) => page.locator("#marks").getByRole("button", { name: "Done" }).click();
  const undo = (page) => page.locator("#pencil").getByRole("button", { name: "Undo" }).click();
  async function open(page, name, text) {
    writeFileSync(inFolder(name), text);
    await page.locator("#open-pencil").setInputFiles(inFolder(name));
    await page.waitForSelector("#opening[open]");
    return page.locator("#opening").innerText();
  }
  const choose = async (page, name) => {
    await page.locator("#opening").getByRole("button", { name, exact: true }).click();
    await page.waitForSelector("#opening", { state: "hidden" });
  };
  const SLOWER = "slower (85 % of the tempo)";
  const SEVENTY = "at 70 % of the tempo";

  const checks = {};
  checks["a file that is opened says what it is, and changes nothing by itself"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await mark(page, 0, "slower");
    await done(page);
    await mark(page, 2, "louder");
    await done(page);
    const mine = await words(page);
    const routine = 'format = 1\ntitle = "Other"\n[[line]]\nname = "One"\nnotes = "C4"\n';
    for (const [name, text, said] of [
      ["routine.toml", routine, /routine, “Other”, not a pencil/],
      ["letter.txt", "Dear teacher", /not a pencil/],
      ["class.toml", 'format = 1\n[[player]]\nname = "Bo"\n', /not a pencil/],
      ["empty.toml", "", /not a pencil/],
    ]) {
      assert.match(await open(page, name, text), said, name);
      assert.equal(await words(page), mine, `${name}, while it is asked`);
      await choose(page, "Leave my marks as they are");
      assert.equal(await words(page), mine, name);
    }
    const text = await open(page, "bo.toml", BO);
    assert.match(text, /The pencil of Bo, with 3 marks/);
    assert.match(text, /1\. Down: at 70 % of the tempo, instead of “slower/);
    assert.match(text, /2\. Two tubes: a step softer/);
    assert.match(text, /Only yours[^]*3\. Steps: a step louder/);
    assert.match(text, /There is no line 9/);
    assert.equal(await words(page), mine);
    await choose(page, "Add them to my marks");
    await shows(page, `${SEVENTY} | a step softer | a step louder | `);
    await open(page, "bo.toml", BO);
    await choose(page, "Replace my marks with them");
    await shows(page, `${SEVENTY} | a step softer |  | `);
    // What was there comes back, after the page is loaded anew as well.
    await page.reload();
    await ready(page, "engine");
    await shows(page, `${SEVENTY} | a step softer |  | `);
    await undo(page);
    await shows(page, `${SEVENTY} | a step softer | a step louder | `);
    await undo(page);
    await shows(page, mine);
    await page.close();
  };

  for (const locks of [true, false]) {
    checks[`two pages at once lose no mark, ${locks ? "with locks" : "without"}`] = async () => {
      const before = locks ? undefined : () => Object.defineProperty(navigator, "locks", { value: undefined });
      const one = await phone(`${address}short/`, { before });
      await ready(one, "engine");
      const two = await one.context().newPage();
      await two.goto(one.url());
      await ready(two, "engine");
      await mark(one, 0, "slower");
      await done(one);
      await shows(two, `${SLOWER} |  |  | `);
      await mark(two, 1, "softer");
      await done(two);
      await shows(one, `${SLOWER} | a step softer |  | `);
      // Where the other page is not told: it looks before it writes.
      await two.evaluate(() => addEventListener("storage", (event) => event.stopImmediatePropagation(), { capture: true }));
      await mark(one, 2, "louder");
      await done(one);
      await mark(two, 3, "softer");
      await done(two);
      await shows(two, `${SLOWER} | a step softer | a step louder | a step softer`);
      await shows(one, `${SLOWER} | a step softer | a step louder | a step softer`);
      // Both within the same moment.
      await Promise.all([mark(one, 0, "louder"), mark(two, 1, "slower")]);
      await one.reload();
      await ready(one, "engine");
      const all = await words(one);
      assert(/slower.*a step louder \| /.test(all) && all.split(" | ")[1].includes("slower"), all);
      await one.context().close();
    };
  }

  checks["a phone that keeps nothing, or is full, says so where the mark is made"] = async () => {
    const full = () => {
      const { setItem } = Storage.prototype;
      Storage.prototype.setItem = function (name, text) {
        if (name.includes("pencil")) throw new DOMException("full", "QuotaExceededError");
        setItem.call(this, name, text);
      };
    };
    const denied = () =>
      Object.defineProperty(globalThis, "localStorage", {
        get() {
          throw new DOMException("denied", "SecurityError");
        },
      });
    for (const before of [full, denied]) {
      const page = await phone(`${address}short/`, { before });
      await ready(page, "engine");
      await mark(page, 0, "slower");
      await page.waitForFunction(() => /does not keep your marks/.test(document.querySelector("#marks .wrong").textContent));
      await done(page);
      await mark(page, 0, "softer");
      await done(page);
      assert.match(await words(page), /^slower \(85 % of the tempo\) · a step softer/, "they are here as long as the page is");
      await page.close();
    }
  };

  checks["marks that cannot be read are laid aside and told"] = async () => {
    for (const unreadable of ["{broken", '{"text":"neither a pencil"}', "[]"]) {
      const page = await phone(`${address}short/`);
      await ready(page, "engine");
      await mark(page, 0, "slower");
      await done(page);
      const name = await page.evaluate((text) => {
        const key = Object.keys(localStorage).find((one) => one.startsWith("leadpipe pencil"));
        localStorage.setItem(key, text);
        return key;
      }, unreadable);
      await page.reload();
      await ready(page, "engine");
      assert.match(await page.locator("#aside").textContent(), /could not be read/);
      await mark(page, 1, "softer");
      await done(page);
      await page.reload();
      await ready(page, "engine");
      await shows(page, " | a step softer |  | ");
      // Not every browser tells of its downloads here.
      await page.evaluate(() => {
        URL.createObjectURL = (file) => {
          /** @type {Blob} */ (file).text().then((text) => (watched.saved = text));
          return "#saved";
        };
      });
      await page.getByRole("button", { name: "Save them as a file for my teacher" }).click();
      await page.waitForFunction((text) => watched.saved === text, unreadable);
      assert.equal(await page.evaluate((key) => JSON.parse(localStorage.getItem(`${key} aside`))[0], name), unreadable);
      await page.close();
    }
  };
  return checks;
}
