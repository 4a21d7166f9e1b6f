// Without this script each line's link opens its track at that line; with it, the track on the page jumps there.
const players = document.querySelectorAll("audio");
for (const take of document.querySelectorAll(".take")) {
  const player = take.querySelector("audio");
  const lines = [];
  for (const link of take.querySelectorAll("a.jump")) {
    const button = document.createElement("button");
    const start = Number(link.dataset.start);
    button.type = "button";
    button.className = "jump";
    button.append(...link.childNodes);
    button.addEventListener("click", () => {
      player.currentTime = start;
      // A browser may refuse to begin; its own controls then do.
      player.play().catch(() => {});
    });
    lines.push({ start, item: link.closest("li") });
    link.replaceWith(button);
  }
  player.addEventListener("timeupdate", () => {
    // A line lasts through the rest after it. A little late, for a jump may land a moment before its line.
    const now = lines.findLast((line) => line.start <= player.currentTime + 0.05);
    for (const line of lines) {
      if (line === now) line.item.setAttribute("aria-current", "true");
      else line.item.removeAttribute("aria-current");
    }
  });
  player.addEventListener("play", () => {
    for (const other of players) if (other !== player) other.pause();
  });
}
