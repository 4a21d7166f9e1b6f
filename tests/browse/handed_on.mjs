// What goes from the desk to others and comes back from them: the pupil's page, other programs' files, a pupil's marks.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { card, fileOf, open, openToMake, settled } from "./hands.mjs";

/** The checks, with what desk.mjs has at hand. */
export const handedOn = ({ atDesk, browser, leadpipe, folder, text, kept, accessible, figures }) => {
  const inFolder = (name) => path.join(folder, name);

  /** A pupil's page from a folder, on a phone's screen, on which nothing may go wrong unseen. */
  async function atPupils(file) {
    const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
    page.on("pageerror", (error) => assert.fail(error.stack));
    page.on("console", (said) => said.type() === "error" && assert.fail(said.text()));
    const url = pathToFileURL(file).href;
    page.on("request", (request) => {
      const asked = request.url();
      assert(/^(blob|data):/.test(asked) || asked.split("#")[0] === url, `the page asked for ${asked}`);
    });
    await page.goto(url);
    await page.waitForSelector("body[data-plays=engine]");
    return page;
  }

  return {
    async "the pupil's page that is made plays, as one file"() {
      const page = await atDesk();
      await openToMake(page, "First sounds");
      await page.getByLabel("For (may stay empty)").fill("Bo");
      const download = await fileOf(page, "Make the page");
      assert.equal(download.suggestedFilename(), "First sounds, Bo.html");
      const file = inFolder("bo.html");
      await download.saveAs(file);
      const html = readFileSync(file);
      figures.push(`the pupil's page of one file: ${html.length} bytes, packed ${gzipSync(html, { level: 9 }).length}`);
      await page.close();
      const pupils = await atPupils(file);
      await pupils.getByRole("button", { name: "I have read this" }).click();
      await pupils.getByRole("button", { name: "Start from line 1" }).click();
      await pupils.waitForFunction(() => document.getElementById("stand")?.dataset.state === "playing", null, { timeout: 20000 });
      await pupils.waitForFunction(() => document.querySelector(".place") !== null, null, { timeout: 30000 });
      assert.deepEqual(await pupils.locator("#takes audio, a[href]").count(), 0);
      await pupils.screenshot({ path: inFolder("pupils-page.png") });
      await pupils.keyboard.press("Escape");
      // A mark of the pupil's is heard and kept, as on a handout.
      await pupils.getByRole("button", { name: /^Pencil: 1/ }).click();
      await pupils.getByRole("button", { name: "slower", exact: true }).click();
      await pupils.getByRole("button", { name: "Done" }).click();
      assert.match(await pupils.locator(".pencilled").first().textContent(), /slower/);
      await pupils.close();
    },

    async "for other programs it writes what the command line writes"() {
      const page = await atDesk();
      await openToMake(page, "First sounds");
      execFileSync(leadpipe, ["export", "first-sounds", "--to", "musicxml,midi", "--out", "exported"], {
        cwd: folder,
        stdio: "ignore",
      });
      for (const [name, ending] of [
        ["Take MusicXML", "musicxml"],
        ["Take MIDI", "mid"],
      ]) {
        const download = await fileOf(page, name);
        assert.equal(download.suggestedFilename(), `First sounds.${ending}`);
        const [file] = readdirSync(inFolder("exported")).filter((one) => one.endsWith(`.${ending}`));
        assert.deepEqual(readFileSync(await download.path()), readFileSync(inFolder(`exported/${file}`)));
      }
      await page.close();
    },

    async "a file of another program is adopted, and its losses are shown"() {
      const tune = inFolder("tune.abc");
      writeFileSync(tune, "X:1\nT:Tune\nM:4/4\nL:1/4\nK:C\n~CDEF|G2z2|\n\nX:2\nT:Other\nM:4/4\nL:1/4\nK:C\nGFED|C4|\n");
      const page = await atDesk();
      await page.locator("input[type=file]").setInputFiles(tune);
      const dialog = page.locator("dialog.adopting");
      await dialog.locator(".problems").waitFor();
      assert(!(await dialog.textContent()).includes("--"), "options of the command line");
      assert(await dialog.getByRole("button", { name: "Open as a routine" }).isDisabled());
      await dialog.getByLabel(/^Whose part/).fill("1");
      await dialog.getByLabel(/^Whose part/).press("Tab");
      await dialog.getByText(/^Not kept/).waitFor();
      await page.screenshot({ path: inFolder("adopting.png") });
      await accessible(page, "a file that is adopted");
      await dialog.getByRole("button", { name: "Open as a routine" }).click();
      await page.waitForSelector(".card svg.strip");
      execFileSync(leadpipe, ["adopt", tune, "--part", "1", "--out", "tune.toml"], { cwd: folder, stdio: "ignore" });
      assert.equal(await text(page), readFileSync(inFolder("tune.toml"), "utf8"));
      await page.close();
    },

    async "a pupil's marks stand over the print, and each is taken in or left out"() {
      const file = inFolder("bo.pencil.toml");
      const marks =
        '[[mark]]\nline = 3\ntempo = 60\n\n[[mark]]\nline = 3\nbreath_after = 1\n\n[[mark]]\nline = 4\nrest = "longer"\n';
      writeFileSync(file, `format = 1\nplayer = "Bo"\n\n${marks}`);
      const page = await atDesk();
      await open(page, "First sounds");
      const before = await text(page);
      const printed = await card(page, 3).locator("svg.strip").innerHTML();
      await page.locator(".bar input[type=file]").setInputFiles(file);
      await page.getByRole("heading", { name: "Marks of Bo: 3" }).waitFor();
      await settled(page);
      assert.notEqual(await card(page, 3).locator("svg.strip").innerHTML(), printed, "the breath is not drawn");
      await page.screenshot({ path: inFolder("marks.png"), fullPage: true });
      await accessible(page, "a pupil's marks");
      await card(page, 3).locator(".marks li").first().getByRole("button", { name: "Take into the routine" }).click();
      await kept(page, "tempo = 60");
      await page.getByRole("heading", { name: "Marks of Bo: 2" }).waitFor();
      await card(page, 4).getByRole("button", { name: "Take into the routine" }).click();
      await card(page, 4)
        .getByText(/has no words for this mark/)
        .waitFor();
      await page.reload();
      await page.getByRole("heading", { name: "Marks of Bo: 2" }).waitFor();
      await card(page, 4).getByRole("button", { name: "Leave it out" }).click();
      await page.getByRole("heading", { name: "Marks of Bo: 1" }).waitFor();
      await page.getByRole("button", { name: "Put the marks away" }).click();
      await page.getByRole("heading", { name: /^Marks of Bo/ }).waitFor({ state: "hidden" });
      await page.getByRole("button", { name: "Undo" }).click();
      await kept(page, "First sounds");
      assert.equal(await text(page), before);
      await page.close();
    },
  };
};
