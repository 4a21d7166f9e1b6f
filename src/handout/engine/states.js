// What a player does when it is asked for something, or something happens to it: state × event → state, and what is done on the way.
// The engine's player and that of the finished tracks go by this one table. A pair that is not in it changes nothing: to go on while it
// plays, for one. tests/engine/states.mjs holds every pair.

/**
 * - `stopped`: nothing is to be heard until a line is chosen
 * - `starting`: it was asked to sound, and does not yet
 * - `playing`: a line sounds, or the clock runs through a rest
 * - `paused`: it stands still where it was
 * - `waiting`: a rest is held for as long as it takes; nothing sounds
 * - `interrupted`: the system has taken the sound away, as for a call
 * - `silent`: it was asked to sound, and two seconds later nothing is heard
 * - `ended`: the last line is over
 * @typedef {"stopped" | "starting" | "playing" | "paused" | "waiting" | "interrupted" | "silent" | "ended"} PlayerState
 */

/**
 * Asked for by a person:
 * - `play`: a line from its count-in
 * - `loop`: a part of a line, again and again
 * - `onward`: the loop is left when it has been played to its end; only where there is one
 * - `go`: go on
 * - `pause`
 * - `hold`: hold the rest; only where there is one
 * - `close`: the stand is left
 * - `change`: the line that is played is another now, in tempo or marks; a rest that runs or is held goes on
 *
 * Told by the device and the engine:
 * - `sounds`: the first frames are on their way and the clock of the device runs
 * - `quiet`: for two seconds nothing is heard, or the device is gone
 * - `lost`: the system takes the sound away
 * - `back`: the system gives it back
 * - `over`: the last frame has been heard
 * - `broken`: the engine broke down
 * @typedef {"play" | "loop" | "onward" | "go" | "pause" | "hold" | "close" | "change" | "sounds" | "quiet" | "lost" | "back" | "over" | "broken"} PlayerEvent
 */

/**
 * What is done:
 * - `countIn`: counts in what was asked for
 * - `again`: the same with a new sound device, as the old one is silent
 * - `goOn`: wakes the device where it stands
 * - `fromHold`: counts in the line after the rest that is held
 * - `fromTop`: counts in the first line
 * - `sleep`: stops the device where it stands
 * - `hold`: drops what would sound, and keeps the line that comes
 * - `forget`: drops what would sound; going on counts in
 * - `silence`: drops everything, and the device sleeps
 * - `finish`: the same, at the end
 * - `leave`: what is played goes on from the end of the loop
 * - `tell`: everything is dropped, and whoever uses the player is told
 * - `nothing`
 * @typedef {"countIn" | "again" | "goOn" | "fromHold" | "fromTop" | "sleep" | "hold" | "forget" | "silence" | "finish" | "leave" | "tell" | "nothing"} PlayerDeed
 */

/** @type {Record<PlayerState, Partial<Record<PlayerEvent, [PlayerState, PlayerDeed]>>>} */
const TRANSITIONS = {
  stopped: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    go: ["starting", "countIn"],
    broken: ["stopped", "tell"],
  },
  starting: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    onward: ["starting", "leave"],
    pause: ["paused", "sleep"],
    close: ["stopped", "silence"],
    change: ["starting", "countIn"],
    sounds: ["playing", "nothing"],
    quiet: ["silent", "nothing"],
    broken: ["stopped", "tell"],
  },
  playing: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    onward: ["playing", "leave"],
    pause: ["paused", "sleep"],
    hold: ["waiting", "hold"],
    close: ["stopped", "silence"],
    change: ["starting", "countIn"],
    quiet: ["silent", "nothing"],
    lost: ["interrupted", "nothing"],
    over: ["ended", "finish"],
    broken: ["stopped", "tell"],
  },
  paused: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    onward: ["paused", "leave"],
    go: ["starting", "goOn"],
    hold: ["waiting", "hold"],
    close: ["stopped", "silence"],
    change: ["paused", "forget"],
    broken: ["stopped", "tell"],
  },
  waiting: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    go: ["starting", "fromHold"],
    close: ["stopped", "silence"],
    broken: ["stopped", "tell"],
  },
  interrupted: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    onward: ["interrupted", "leave"],
    go: ["starting", "goOn"],
    pause: ["paused", "sleep"],
    hold: ["waiting", "hold"],
    close: ["stopped", "silence"],
    change: ["interrupted", "forget"],
    back: ["starting", "goOn"],
    broken: ["stopped", "tell"],
  },
  silent: {
    play: ["starting", "again"],
    loop: ["starting", "again"],
    onward: ["silent", "leave"],
    go: ["starting", "again"],
    close: ["stopped", "silence"],
    change: ["silent", "forget"],
    sounds: ["playing", "nothing"],
    back: ["starting", "goOn"],
    broken: ["stopped", "tell"],
  },
  ended: {
    play: ["starting", "countIn"],
    loop: ["starting", "countIn"],
    go: ["starting", "fromTop"],
    close: ["stopped", "silence"],
    broken: ["stopped", "tell"],
  },
};

/**
 * What a lock screen is told. While a rest is held its button must say that it goes on.
 * @type {Record<PlayerState, MediaSessionPlaybackState>}
 */
const ON_THE_LOCK_SCREEN = {
  stopped: "none",
  starting: "playing",
  playing: "playing",
  paused: "paused",
  waiting: "paused",
  interrupted: "paused",
  silent: "paused",
  ended: "none",
};

/** Milliseconds after which it is said that nothing is heard. */
const PATIENCE = 1700;

/** A player that goes by the table. It says "state" when its state changes. */
class ByTable extends EventTarget {
  /** @type {PlayerState} */
  #state = "stopped";

  get state() {
    return this.#state;
  }

  /**
   * An event, and what is done then. False if the table has nothing for it.
   * @param {PlayerEvent} event
   */
  send(event) {
    const found = TRANSITIONS[this.#state][event];
    if (!found) return false;
    const [next, deed] = found;
    // What takes time is watched by `quiet`; nothing waits for it here.
    this.deeds[deed]();
    this.#become(next);
    return true;
  }

  /** @returns {Record<PlayerDeed, () => void>} */
  get deeds() {
    throw new Error("a player says what it does");
  }

  /** @param {PlayerState} state */
  #become(state) {
    if (state === this.#state) return;
    this.#state = state;
    if (typeof navigator === "object" && "mediaSession" in navigator) {
      navigator.mediaSession.playbackState = ON_THE_LOCK_SCREEN[state];
    }
    this.dispatchEvent(new CustomEvent("state", { detail: { state } }));
  }
}
