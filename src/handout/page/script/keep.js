// Keeping the handout on the phone: where browsers let a page do that (https, or this very machine), and an honest word where not.

/** @param {boolean} tracksToo */
async function keepOnPhone(tracksToo) {
  if (location.protocol === "file:") return;
  const place = by("kept");
  const say = (/** @type {string} */ words) => {
    place.hidden = false;
    find("p", place).textContent = words;
  };
  if (!isSecureContext || !navigator.serviceWorker) {
    say(phrase("kept-needs-https"));
    return;
  }
  offerHomeScreen(find("button", place));
  try {
    navigator.serviceWorker.addEventListener("message", ({ data: { kept, of, failed } }) => {
      if (failed) say(phrase("kept-no-room"));
      else if (kept === of) say(phrase("kept"));
      else say(phrase("being-kept", { kept, of }));
    });
    await navigator.serviceWorker.register("leadpipe-worker.js");
    const { active } = await navigator.serviceWorker.ready;
    if (tracksToo) active?.postMessage("keep");
    else say(phrase("kept"));
  } catch (error) {
    say(phrase("not-kept", { why: /** @type {Error} */ (error).message }));
  }
}

/**
 * Shows the button where the browser can put the page on the home screen.
 * @param {HTMLElement} button
 */
function offerHomeScreen(button) {
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    button.hidden = false;
    button.onclick = async () => {
      await /** @type {Event & { prompt(): Promise<void> }} */ (event).prompt();
      button.hidden = true;
    };
  });
}
