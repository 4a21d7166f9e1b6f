// What the locked screen shows, and the buttons of a headset (W3C Media Session).

/** @param {Stand} stand */
function sessionControls(stand) {
  const session = navigator.mediaSession;
  if (!session) return;
  /** @type {[MediaSessionAction, () => void][]} */
  const buttons = [
    ["play", () => stand.goOn()],
    ["pause", () => stand.pause()],
    ["previoustrack", () => stand.turn(-1)],
    ["nexttrack", () => stand.turn(1)],
  ];
  for (const [action, does] of buttons) {
    try {
      session.setActionHandler(action, () => stand.open && does());
    } catch {
      // A browser that knows fewer actions.
    }
  }
}

/** @param {string} name of the line that is played */
function sessionLine(name) {
  if (!navigator.mediaSession || !globalThis.MediaMetadata) return;
  navigator.mediaSession.metadata = new MediaMetadata({ title: name, artist: find("h1").textContent ?? "" });
}
