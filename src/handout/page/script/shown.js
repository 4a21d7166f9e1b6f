// What the screen says while a routine is played: in each state of the player, and at each moment of the music.

/**
 * The words of the large button at the thumb, and what is to be done. Where a line sounds it pauses; else it goes on.
 * @type {Record<PlayerState, { main: string, told?: string }>}
 */
const SHOWN = {
  stopped: { main: "Go on" },
  starting: { main: "Pause" },
  playing: { main: "Pause" },
  paused: { main: "Go on" },
  waiting: { main: "Go on" },
  interrupted: {
    main: "Go on",
    told: "The phone has taken the sound away, as for a call. Touch Go on when you are ready.",
  },
  silent: { main: "Try again" },
  ended: { main: "From the top" },
};

/**
 * Why nothing is heard, and what to do.
 * @type {Record<PlayerOfPage["cause"], string>}
 */
const SILENT = {
  device:
    "No sound comes out of this phone. Close other apps that play, look after the headphones, and touch Try again. " +
    "If it stays silent, load the page again.",
  engine: "The sound is late: this phone is busy. It may come yet; if not, touch Try again.",
  network: "The track does not arrive. Is the phone still connected? Then touch Try again.",
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
  const which = "pass" in now && times > 1 ? [`${now.pass + 1} of ${times}`, line.passes[now.pass].name] : [];
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
      if (line.on === "rest") return "count";
      return line.on === "air" ? "ready" : "breathe";
    case "between":
      return `rest ${Math.ceil(now.left)}`;
    case "listen":
      return "listen";
    case "turn":
      return "your turn";
    case "done":
      return "done";
    default:
      return "";
  }
}
