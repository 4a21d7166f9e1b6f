// A walk over the states of the stand: in each, at every size of a screen, all there is to touch can be reached, nothing prints over
// anything else, and every dialog opens.

/** A phone upright and on its side, tablets, and each phone drawn twice as large. */
const SIZES = [
  [320, 480],
  [480, 320],
  [568, 320],
  [320, 568],
  [390, 844],
  [844, 390],
  [430, 932],
  [932, 430],
  [768, 1024],
  [1024, 768],
];
const AT_TWICE = SIZES.slice(0, 8).map(([width, height]) => [Math.round(width / 2), Math.round(height / 2)]);

export function walkChecks({ assert, phone, ready, figures, accessible, address }) {
  const is = (page, what) =>
    page.waitForSelector(`#stand[${what}]`, { state: "attached", timeout: 30000 }).catch(async (error) => {
      const now = await page.evaluate(() => {
        const { state, phase } = document.getElementById("stand").dataset;
        return `${state}, ${phase}: ${document.getElementById("told").textContent}`;
      });
      throw new Error(`not ${what} but ${now}`, { cause: error });
    });
  const state = (page, name) => is(page, `data-state=${name}`);
  const phase = (page, name) => is(page, `data-phase=${name}`);

  /** What stands in the way at the size that is shown; `least` is the least a finger can hit. */
  function wrong({ least }) {
    const found = [];
    const shown = (element) => element && element.getClientRects().length > 0 && element.textContent.trim() !== "";
    const isOff = (element) => {
      const { left, top, right, bottom } = element.getBoundingClientRect();
      return left < -0.5 || top < -0.5 || right > innerWidth + 0.5 || bottom > innerHeight + 0.5;
    };
    const controls = ["main", "again", "others", "worse", "rest"].map((id) => document.getElementById(id)).filter(shown);
    if (controls.length < 3) found.push(`only ${controls.map((one) => one.id)}`);
    for (const control of controls) {
      const { left, top, right, bottom, width, height } = control.getBoundingClientRect();
      if (isOff(control)) found.push(`#${control.id} lies off the screen`);
      if (width < least || height < least) found.push(`#${control.id} is ${width} × ${height}`);
      const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
      if (!control.contains(hit) && hit?.id !== "told") found.push(`#${control.id} is under ${hit?.id || hit?.tagName}`);
      if (control.scrollWidth > control.clientWidth + 1) found.push(`#${control.id} does not hold its words`);
    }
    const texts = ["pass", "count"].map((id) => document.getElementById(id)).filter(shown);
    for (const text of texts) {
      if (isOff(text)) found.push(`#${text.id} lies off the screen`);
      if (text.scrollWidth > text.clientWidth + 1) found.push(`#${text.id} is wider than its place`);
    }
    const boxes = [...controls.filter(({ id }) => id !== "rest"), ...texts].map((one) => ({
      id: one.id,
      box: one.getBoundingClientRect(),
    }));
    for (const [i, { id, box: a }] of boxes.entries()) {
      for (const { id: other, box: b } of boxes.slice(i + 1)) {
        const apart = a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 1 || b.bottom <= a.top + 1;
        if (!apart) found.push(`#${id} prints over #${other}`);
      }
    }
    if (document.documentElement.scrollWidth > innerWidth) found.push(`the page is ${document.documentElement.scrollWidth} wide`);
    const music = document.querySelector("#music li[aria-current]").getBoundingClientRect();
    if (music.height < 0.45 * innerHeight) found.push(`the music has ${music.height} of ${innerHeight}`);
    return found;
  }

  async function reachable(page, where, sizes, { least = 44, scale = "" } = {}) {
    const all = [];
    for (const [width, height] of sizes) {
      await page.setViewportSize({ width, height });
      await page.evaluate((size) => (document.documentElement.style.fontSize = size), scale);
      await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
      const found = await page.evaluate(wrong, { least });
      if (found.length > 0) all.push(`${where} at ${width} × ${height}${scale && `, letters at ${scale}`}: ${found.join("; ")}`);
    }
    await page.evaluate(() => (document.documentElement.style.fontSize = ""));
    return all;
  }

  /** All that is behind More, one after another; and every dialog of the page is seen when it is opened. */
  async function dialogs(page, where) {
    for (const [width, height] of [SIZES[0], SIZES[2], AT_TWICE[4], AT_TWICE[5]]) {
      await page.setViewportSize({ width, height });
      await page.locator("#others").click();
      const found = await page.evaluate((broken) => {
        const names = ["previous", "next", "slower", "faster", "mark", "leave", "left-handed", "back"];
        if (!broken) names.push("loop-bar", "loop-pass", "loop-notes");
        if (document.body.classList.contains("looping")) names.push("onward");
        const out = names.map((id) => {
          const control = document.getElementById(id);
          if (control.getClientRects().length === 0) return document.body.dataset.plays === "engine" && `#${id} is not shown`;
          control.scrollIntoView({ block: "center" });
          const { left, top, right, bottom } = control.getBoundingClientRect();
          const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
          return !control.contains(hit) && `#${id} is under ${hit?.id || hit?.tagName}`;
        });
        return out.filter(Boolean);
      }, where === "the engine broken");
      assert.deepEqual(found, [], `${where}: behind More at ${width} × ${height}`);
      await page.locator("#back").click();
    }
    const unseen = await page.evaluate(() => {
      const all = /** @type {NodeListOf<HTMLDialogElement>} */ (document.querySelectorAll("dialog"));
      return [...all].flatMap((dialog) => {
        dialog.showModal();
        const { width, height } = dialog.getBoundingClientRect();
        dialog.close();
        return width > 20 && height > 20 ? [] : [dialog.id];
      });
    });
    assert.deepEqual(unseen, [], `${where}: dialogs that are open and not seen`);
  }

  /** @type {Record<string, (page: any) => Promise<unknown>>} */
  const enter = {
    "playing, counted in": async (page) => phase(page, "count"),
    "playing, a line": async (page) => phase(page, "play"),
    "paused in a line": async (page) => {
      await page.locator("#main").click();
      return state(page, "paused");
    },
    "playing again": async (page) => {
      await page.locator("#main").click();
      return state(page, "playing");
    },
    "a rest": async (page) => phase(page, "rest"),
    "paused in a rest": async (page) => {
      await page.locator("#main").click();
      return state(page, "paused");
    },
    waiting: async (page) => {
      await page.locator("#rest").click();
      return state(page, "waiting");
    },
    // What has been dead: to go on while a rest is held.
    "playing after a rest that was held": async (page) => {
      await page.locator("#main").click();
      await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
      return state(page, "playing");
    },
    interrupted: async (page) => {
      await page.evaluate(() => watched.contexts.at(-1).suspend());
      return state(page, "interrupted");
    },
    "playing after an interruption": async (page) => {
      await page.locator("#main").click();
      return state(page, "playing");
    },
    silent: async (page) => {
      await page.evaluate(() => watched.contexts.at(-1).close());
      return state(page, "silent");
    },
    "playing after silence": async (page) => {
      await page.locator("#main").click();
      return state(page, "playing");
    },
    "playing in a loop": async (page) => {
      await page.locator("#others").click();
      await page.locator("#loop-bar").click();
      await phase(page, "count");
      return state(page, "playing");
    },
    "paused in a loop": async (page) => {
      await phase(page, "play");
      await page.locator("#main").click();
      return state(page, "paused");
    },
    "a loop that is left": async (page) => {
      await page.locator("#others").click();
      await page.locator("#onward").click();
      await page.waitForFunction(() => !document.body.classList.contains("looping"));
      return state(page, "paused");
    },
    ended: async (page) => {
      for (const times of [1, 2]) {
        await page.locator("#others").click();
        await page.locator("#next").click();
        await page.waitForSelector(`#lines > li[data-line="${1 + times}"][aria-current]`);
      }
      return state(page, "ended");
    },
    "the engine broken": async (page) => {
      await page.locator("#main").click();
      await state(page, "playing");
      await page.evaluate(() => watched.worker.dispatchEvent(new ErrorEvent("error", { message: "taken away" })));
      await page.evaluate(() => document.getElementById("slower").click());
      return state(page, "stopped");
    },
  };

  const checks = {};
  for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
    checks[`in every state of the stand everything can be reached, ${colorScheme}`] = async () => {
      const page = await phone(`${address}short/`, { colorScheme, viewport: { width: 390, height: 844 } });
      await ready(page, "engine");
      const found = [];
      await page.locator("#start").click();
      for (const [where, into] of Object.entries(enter)) {
        await into(page);
        const moves = where.startsWith("playing") || where === "a rest";
        // What moves on is looked at upright and on its side, what stays at every size and drawn twice as large.
        found.push(...(await reachable(page, where, moves ? [SIZES[0], SIZES[2]] : SIZES)));
        if (moves) continue;
        found.push(...(await reachable(page, where, AT_TWICE, { least: 24 })));
        found.push(...(await reachable(page, where, SIZES.slice(0, 6), { scale: "200%" })));
        await dialogs(page, where);
        await page.setViewportSize({ width: 390, height: 844 });
        await accessible(page, `${where}, ${colorScheme}`);
      }
      assert.deepEqual(found, []);
      await page.close();
    };
  }

  checks["the pencil opens over a line and over a rest, and marks"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").click();
    for (const name of ["count", "play", "rest"]) {
      await phase(page, name);
      await page.locator("#others").click();
      await page.locator("#mark").click();
      await page.waitForSelector("#marks[open] .zoomed .note");
      const { width } = await page.locator("#marks").boundingBox();
      assert(width > 200, `${name}: ${width}`);
      await page.locator("#marks").getByRole("button", { name: "softer", exact: true }).click();
      await page.waitForFunction(() => document.querySelectorAll("#marks .there li").length === 1);
      await page.locator("#marks").getByRole("button", { name: "softer", exact: true }).click();
      await page.waitForFunction(() => document.querySelectorAll("#marks .there li").length === 0);
      await page.getByRole("button", { name: "Done" }).click();
      await page.locator("#main").click();
      await state(page, "playing");
    }
    await page.close();
  };

  checks["music on its side is no smaller than upright, and fills the screen while it is played"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").click();
    const look = async (width, height) => {
      await page.setViewportSize({ width, height });
      return page.evaluate(() => {
        const strips = [...document.querySelectorAll("#lines > li[aria-current] .music:not([hidden]) .strip")];
        const strip = /** @type {SVGSVGElement} */ (strips.find((one) => one.getClientRects().length > 0));
        const { height: room } = document.querySelector("#music li[aria-current]").getBoundingClientRect();
        return { scale: strip.getBoundingClientRect().width / strip.viewBox.baseVal.width, room: room / innerHeight };
      });
    };
    await page.locator("#main").click();
    const counted = await look(390, 844);
    await page.locator("#main").click();
    await phase(page, "play");
    await page.locator("#main").click();
    const played = await look(390, 844);
    assert(played.room > counted.room + 0.05 && played.room > 0.8, `${JSON.stringify(counted)} ${JSON.stringify(played)}`);
    for (const [small, large] of SIZES.filter(([width, height]) => width < height)) {
      const upright = await look(small, large);
      const side = await look(large, small);
      assert(side.scale >= upright.scale, `${large} × ${small}: ${side.scale}, upright ${upright.scale}`);
      figures.push(
        `music at ${small} × ${large}: ${upright.scale.toFixed(2)} pixels a point upright, ${side.scale.toFixed(2)} on its side`,
      );
    }
    await page.close();
  };

  checks["the button of a headset pauses and goes on in every state"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    const press = (action) => page.evaluate((name) => watched.actions[name]?.(), action);
    const lock = () => page.evaluate(() => navigator.mediaSession.playbackState);
    await page.locator("#start").click();
    await phase(page, "play");
    await press("pause");
    await state(page, "paused");
    assert.equal(await lock(), "paused");
    await press("pause");
    await state(page, "paused");
    await press("play");
    await phase(page, "rest");
    await page.locator("#rest").click();
    await state(page, "waiting");
    assert.equal(await lock(), "paused", "the button must say that it goes on");
    await press("play");
    await page.waitForSelector('#lines > li[data-line="1"][aria-current]');
    await state(page, "playing");
    await press("nexttrack");
    await page.waitForSelector('#lines > li[data-line="2"][aria-current]');
    await page.close();
  };

  checks["buttons at the left hand stay there"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").click();
    const left = (id) => page.locator(id).evaluate((one) => one.getBoundingClientRect().left);
    const right = await left("#main");
    await page.locator("#others").click();
    await page.locator("#left-handed").check();
    await page.locator("#back").click();
    assert((await left("#main")) < 10 && right > 100);
    await page.reload();
    await ready(page, "engine");
    await page.locator("#start").click();
    await page.locator("#main").click();
    for (const [width, height] of [SIZES[0], SIZES[2], AT_TWICE[2]]) {
      await page.setViewportSize({ width, height });
      assert((await left("#main")) < 10, `${width} × ${height}`);
    }
    assert.deepEqual(await reachable(page, "left-handed", SIZES), []);
    await page.close();
  };

  checks["a slower tempo goes on at the pass that is played"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#lines .jump:visible").nth(1).click();
    await page.waitForFunction(() => document.getElementById("pass").textContent.includes("2 of 2"));
    await phase(page, "play");
    const drawn = await page.evaluate(() => document.getElementById("pass").textContent);
    await page.locator("#others").click();
    await page.locator("#slower").click();
    await phase(page, "count");
    assert.equal(await page.evaluate(() => document.getElementById("pass").textContent), drawn, "while it is counted in");
    await phase(page, "play");
    assert.equal(await page.evaluate(() => document.getElementById("pass").textContent), drawn);
    await phase(page, "rest");
    await page.close();
  };
  return checks;
}
