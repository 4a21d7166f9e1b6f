// The buttons of a headset and of the locked screen (W3C Media Session).

function sessionControls(stand) {
  const session = navigator.mediaSession;
  if (!session) return;
  const press = { play: "pause", pause: "pause", previoustrack: "previous", nexttrack: "next" };
  for (const [action, id] of Object.entries(press)) {
    try {
      session.setActionHandler(action, () => stand.open && by(id).click());
    } catch {
      // A browser that knows fewer actions.
    }
  }
}

function sessionLine(name) {
  if (!navigator.mediaSession || !globalThis.MediaMetadata) return;
  navigator.mediaSession.metadata = new MediaMetadata({ title: name, artist: document.querySelector("h1").textContent });
}
