// What the locked screen shows, and the buttons of a headset (W3C Media Session).

/** @param {Stand} stand */
function sessionControls(stand) {
  const session = navigator.mediaSession;
  if (!session) return;
  /** @type {[MediaSessionAction, string][]} */
  const buttons = [
    ["play", "pause"],
    ["pause", "pause"],
    ["previoustrack", "previous"],
    ["nexttrack", "next"],
  ];
  for (const [action, id] of buttons) {
    try {
      session.setActionHandler(action, () => {
        if (stand.open) by(id).click();
      });
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
