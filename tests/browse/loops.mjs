// A bar, a pass or the notes between two again and again, and faster each time.

export function loopChecks({ assert, phone, ready, address, inFolder, figures }) {
  const phase = (page, name) => page.waitForSelector(`#stand[data-phase=${name}]`, { state: "attached", timeout: 60000 });
  const words = (page, id) => page.evaluate((one) => document.getElementById(one).textContent.replaceAll("\u00a0", " "), id);
  const current = (page) => page.locator("#lines > li[aria-current]").getAttribute("data-line");
  const heading = (page) => page.locator("#clicks").textContent();

  /** Keeps what is given to the device: when, how many frames, and which. */
  function listen() {
    globalThis.given = [];
    const { start } = AudioBufferSourceNode.prototype;
    AudioBufferSourceNode.prototype.start = function (when, ...how) {
      const { sampleRate, length, numberOfChannels } = this.buffer;
      let sum = 0;
      for (let channel = 0; channel < numberOfChannels; channel++) {
        for (const sample of this.buffer.getChannelData(channel)) sum = (Math.imul(sum, 31) + sample * 2 ** 30) | 0;
      }
      globalThis.given.push({ at: Math.round(when * sampleRate), frames: length, sum, rate: sampleRate });
      return start.call(this, when, ...how);
    };
  }

  async function touch(page, ...ids) {
    for (const id of ids) await page.locator(`#${id}`).click();
  }

  /** From the count-in to the music and back, so many times. */
  async function turns(page, times) {
    for (let i = 0; i < times; i++) {
      await phase(page, "play");
      await phase(page, "count");
    }
  }

  const checks = {};
  checks["a bar is played again and again, the same frames each time, until told to go on"] = async () => {
    const page = await phone(`${address}short/`, { before: listen });
    await ready(page, "engine");
    await page.locator("#start").click();
    await phase(page, "play");
    await touch(page, "others");
    assert.match(await words(page, "loop-bar"), /^Bar [12]$/);
    assert.equal(await words(page, "loop-pass"), "The whole line");
    await page.evaluate(() => (globalThis.given.length = 0));
    await touch(page, "loop-bar");
    await phase(page, "count");
    await turns(page, 2);
    assert.equal(await current(page), "0");
    const given = await page.evaluate(() => globalThis.given);
    // A count-in of a bar and a bar: 8 clicks at 160.
    const turn = (8 * 60 * given[0].rate) / 160;
    const first = given.filter(({ at }) => at < given[0].at + turn - 1);
    assert.equal(
      first.reduce((all, { frames }) => all + frames, 0),
      turn,
    );
    for (const [i, { at, frames, sum }] of given.entries()) {
      const like = first[i % first.length];
      const times = Math.floor(i / first.length);
      assert.deepEqual([at - times * turn, frames, sum], [like.at, like.frames, like.sum], `part ${i}`);
    }
    assert(given.length >= 2 * first.length, `${given.length} parts`);
    figures.push(`a loop of a bar: ${given.length} parts, turns of ${turn} frames each`);
    await touch(page, "others", "onward");
    assert.equal(await words(page, "again"), "Again");
    await phase(page, "rest");
    await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
    await page.close();
  };

  checks["a loop goes faster after a good go, and slower at a touch"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").click();
    await phase(page, "count");
    await touch(page, "others", "loop-pass");
    assert.deepEqual([await words(page, "again"), await words(page, "worse")], ["Good: 105 %", "Slower 95 %"]);
    const before = Number(await heading(page));
    await phase(page, "play");
    await page.waitForTimeout(300);
    await touch(page, "again");
    await page.waitForFunction(() => document.getElementById("again").textContent.includes("110"));
    assert.equal(await page.locator("#stand").getAttribute("data-phase"), "play", "it is played to its end");
    await phase(page, "count");
    assert.equal(Number(await heading(page)), before * 1.05);
    await phase(page, "play");
    await touch(page, "worse");
    // A go that failed is not played to its end.
    await phase(page, "count");
    assert.deepEqual([await words(page, "again"), await words(page, "worse")], ["Good: 105 %", "Slower 95 %"]);
    await touch(page, "worse");
    await page.waitForFunction(() => document.getElementById("worse").textContent.includes("90"));
    await turns(page, 1);
    assert.equal(await current(page), "0");
    await touch(page, "others", "next");
    assert.equal(await words(page, "again"), "Again");
    assert.equal(await page.locator("#worse").isVisible(), false);
    await page.close();
  };

  checks["from one touched note to another, in the pass that is played"] = async () => {
    const page = await phone(`${address}short/`, { before: listen });
    await ready(page, "engine");
    await page.locator("#lines .jump:visible").nth(1).click();
    await page.waitForFunction(() => document.getElementById("pass").textContent.includes("2 of 2"));
    await phase(page, "play");
    await touch(page, "others", "loop-notes");
    await page.getByRole("button", { name: /^From note 2,/ }).click();
    await page.evaluate(() => (globalThis.given.length = 0));
    await page.getByRole("button", { name: /^To note 2,/ }).click();
    await phase(page, "count");
    assert.match(await words(page, "pass"), /^2 of 2/);
    await turns(page, 2);
    const { length, at, rate } = await page.evaluate(() => {
      const [{ at: first, rate }] = globalThis.given;
      const starts = globalThis.given.map((one) => one.at - first);
      return { length: globalThis.given.length, at: starts, rate };
    });
    // A half note after a bar: 6 clicks.
    const turn = (6 * 60 * rate) / 160;
    assert(at.includes(turn) && at.includes(2 * turn), `${at} of ${length}, not ${turn}`);
    await page.close();
  };

  checks["pictures of a loop"] = async () => {
    for (const [width, height] of [
      [320, 480],
      [568, 320],
      [390, 844],
    ]) {
      const page = await phone(`${address}short/`, { viewport: { width, height }, deviceScaleFactor: 1 });
      await ready(page, "engine");
      await page.locator("#lines .jump:visible").nth(2).click();
      await phase(page, "play");
      await touch(page, "others");
      await page.screenshot({ path: inFolder(`loop-more-${width}.png`) });
      await touch(page, "loop-notes");
      await page.waitForSelector("#from-to .note");
      await page.screenshot({ path: inFolder(`loop-notes-${width}.png`) });
      await page.getByRole("button", { name: "Back", exact: true }).click();
      await touch(page, "others", "loop-bar");
      await phase(page, "play");
      await page.screenshot({ path: inFolder(`loop-${width}.png`) });
      await phase(page, "count");
      await page.screenshot({ path: inFolder(`loop-count-${width}.png`) });
      await page.close();
    }
  };
  return checks;
}
