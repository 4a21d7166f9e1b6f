// Keeping the handout on the phone: where browsers let a page do that (https, or this very machine), and an honest word where not.

async function keepOnPhone(tracksToo) {
  const place = by("kept");
  const say = (words) => {
    place.hidden = false;
    place.querySelector("p").textContent = words;
  };
  if (location.protocol === "file:") return;
  if (!isSecureContext || !navigator.serviceWorker) {
    say("Plays here; to keep it on the phone, open it from an https site.");
    return;
  }
  const button = place.querySelector("button");
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    button.hidden = false;
    button.onclick = async () => {
      await event.prompt();
      button.hidden = true;
    };
  });
  try {
    navigator.serviceWorker.addEventListener("message", ({ data: { kept, of, failed } }) => {
      if (failed) say("There was no room on the phone for all tracks: they play from the network.");
      else say(kept === of ? "Kept on this phone: it plays without a network." : `Being kept on this phone: track ${kept} of ${of}.`);
    });
    await navigator.serviceWorker.register("leadpipe-worker.js");
    const { active } = await navigator.serviceWorker.ready;
    if (tracksToo) active.postMessage("keep");
    else say("Kept on this phone: it plays without a network.");
  } catch (error) {
    say(`It could not be kept on this phone: ${error.message}`);
  }
}
