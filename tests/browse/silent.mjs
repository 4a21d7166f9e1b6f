// Sound that does not start, or stops for good: it is said within two seconds, with what to do.

/** What goes wrong, put into the page before its own script; `watched.mended` ends it. */
const FAULTS = {
  "there is no sound device": () => {
    globalThis.AudioContext = class extends AudioContext {
      /** @param {ConstructorParameters<typeof AudioContext>} how */
      constructor(...how) {
        if (!globalThis.watched.mended) throw new DOMException("no device", "NotSupportedError");
        super(...how);
      }
    };
  },
  "the device never starts": () => {
    globalThis.AudioContext = class extends AudioContext {
      resume() {
        return globalThis.watched.mended ? super.resume() : super.suspend().then(() => new Promise(() => {}));
      }
    };
  },
  "the system keeps the device to itself": () => {
    globalThis.AudioContext = class extends AudioContext {
      resume() {
        if (globalThis.watched.mended) return super.resume();
        return super.suspend().then(() => Promise.reject(new DOMException("busy", "InvalidStateError")));
      }
    };
  },
  "the clock of the device stands": () => {
    const clock = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, "currentTime");
    Object.defineProperty(BaseAudioContext.prototype, "currentTime", {
      get() {
        return globalThis.watched.mended ? clock.get.call(this) : 0;
      },
    });
  },
};

export function silentChecks({ assert, phone, ready, figures, address }) {
  const state = (page, name) => page.waitForSelector(`#stand[data-state=${name}]`, { state: "attached", timeout: 10000 });
  /** Milliseconds from a touch, or from what is done in the page, until something is told. */
  const told = (page, does) =>
    page.evaluate(async (text) => {
      const began = performance.now();
      new Function(text)();
      while (document.getElementById("told").textContent === "") await new Promise((done) => setTimeout(done, 10));
      return performance.now() - began;
    }, does);
  const START = 'document.getElementById("start").click()';
  const words = (page) => page.locator("#told").textContent();

  const checks = {};
  for (const [name, fault] of Object.entries(FAULTS)) {
    checks[`${name}: it is said at once, and another try sounds`] = async () => {
      const page = await phone(`${address}short/`, { before: fault });
      await ready(page, "engine");
      const after = await told(page, START);
      figures.push(`${name}: said after ${after.toFixed(0)} ms`);
      assert(after < 2000, `${after} ms`);
      assert.match(await words(page), /No sound comes out of this phone.*Try again/);
      assert.equal(await page.locator("#main").textContent(), "Try again");
      await page.evaluate(() => (watched.mended = true));
      // A clock that runs again after all is heard without another touch.
      if (name !== "the clock of the device stands") await page.locator("#main").click();
      await state(page, "playing");
      assert.equal(await words(page), "");
      await page.waitForSelector("#stand[data-phase=play]", { state: "attached" });
      await page.close();
    };
  }

  checks["a device that is closed while a line sounds is said at once"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.locator("#start").click();
    await page.waitForSelector("#stand[data-phase=play]", { state: "attached" });
    const after = await told(page, "watched.contexts.at(-1).close()");
    assert(after < 2000, `${after} ms`);
    await page.locator("#main").click();
    await state(page, "playing");
    await page.close();
  };

  checks["an engine that does not answer is said, and in the end the finished tracks play"] = async () => {
    const page = await phone(`${address}short/`);
    await ready(page, "engine");
    await page.evaluate(async () => {
      // A device that is slow to start is another fault, and is told first: this one runs already.
      const awake = new AudioContext({ sampleRate: 44100 });
      while (awake.currentTime === 0) await new Promise((done) => setTimeout(done, 10));
      watched.worker.postMessage = () => {};
    });
    const after = await told(page, START);
    assert(after < 2000, `${after} ms`);
    assert.match(await words(page), /late/);
    await page.locator("#main").click();
    await state(page, "starting");
    await state(page, "silent");
    await page.locator("#main").click();
    await state(page, "stopped");
    assert.match(await words(page), /finished tracks play: touch Go on/);
    await page.locator("#main").click();
    await state(page, "playing");
    assert.equal(await page.evaluate(() => document.querySelector("audio").paused), false);
    await page.close();
  };

  checks["a track that does not arrive is said"] = async () => {
    const page = await phone(`${address}short/`, {
      engine: false,
      before: () => {
        const { play } = HTMLMediaElement.prototype;
        HTMLMediaElement.prototype.play = function () {
          return globalThis.watched.mended ? play.call(this) : new Promise(() => {});
        };
      },
    });
    await ready(page, "tracks");
    const after = await told(page, START);
    assert(after < 2000, `${after} ms`);
    await page.evaluate(() => (watched.mended = true));
    await page.locator("#main").click();
    await state(page, "playing");
    await page.close();
  };
  return checks;
}
