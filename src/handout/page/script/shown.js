// What the screen says while a routine is played: in each state of the player, and at each moment of the music.

/**
 * The words of the large button at the thumb, and what is to be done. Where a line sounds it pauses; else it goes on.
 * @type {Record<PlayerState, { main: string, told?: string }>}
 */
const SHOWN = {
  stopped: { main: phrase("go-on") },
  starting: { main: phrase("pause") },
  playing: { main: phrase("pause") },
  paused: { main: phrase("go-on") },
  waiting: { main: phrase("go-on") },
  interrupted: {
    main: phrase("go-on"),
    told: phrase("interrupted"),
  },
  silent: { main: phrase("try-again") },
  ended: { main: phrase("from-the-top") },
};

/**
 * Why nothing is heard, and what to do.
 * @type {Record<PlayerOfPage["cause"], string>}
 */
const SILENT = {
  device: phrase("silent-device"),
  engine: phrase("silent-engine"),
  network: phrase("silent-network"),
};

/** @param {PlayerOfPage} player */
function toldOf({ state, cause }) {
  return state === "silent" ? SILENT[cause] : (SHOWN[state].told ?? "");
}

/** @param {PlayerOfPage} player */
function sounding({ state }) {
  return state === "starting" || state === "playing";
}

/**
 * Where the player is, by what is heard.
 * @param {PlayerOfPage} player
 * @param {Heard} heard
 */
function whereabouts({ lines, sampleRate }, { index, frame, pass, counted }) {
  const now = whereIs(lines, index, frame, sampleRate);
  if (now.phase === "count" && counted) {
    const left = Math.max(1, Math.ceil((counted.left - CLOCK_ERROR * sampleRate) / lines[index].click));
    return { ...now, left, pass: counted.pass, moment: counted.moment };
  }
  return now.phase === "count" && pass !== undefined ? { ...now, pass } : now;
}

/**
 * What the screen says of a moment: which pass it is, and the large word or number.
 * @param {Protocol.TimetableLine} line
 * @param {Whereabouts} now
 */
function wordsFor(line, now) {
  const times = line.passes.length;
  const which = "pass" in now && times > 1 ? [phrase("which-time", { n: now.pass + 1, times }), line.passes[now.pass].name] : [];
  return { pass: which.filter(Boolean).join(" · "), count: largeWord(line, now) };
}

/**
 * @param {Protocol.TimetableLine} line
 * @param {Whereabouts} now
 */
function largeWord(line, now) {
  switch (now.phase) {
    case "count":
      if (now.left > 1) return String(now.beat);
      if (line.on === "rest") return phrase("count");
      return line.on === "air" ? phrase("ready") : phrase("breathe");
    case "between":
      return phrase("rest-left", { seconds: Math.ceil(now.left) });
    case "listen":
      return phrase("listen");
    case "turn":
      return phrase("your-turn");
    case "done":
      return phrase("done");
    default:
      return "";
  }
}
