// Without this script each line's link opens its track at that line; with it, the track on the page jumps there.
const players = [...document.querySelectorAll("audio")];
const marks = players.map(() => []);
for (const link of document.querySelectorAll("a.jump")) {
  const place = link.closest(".play");
  const player = players[place.dataset.take];
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
  marks[place.dataset.take].push({ start, item: link.closest("li") });
  link.replaceWith(button);
}
for (const [take, player] of players.entries()) {
  player.addEventListener("timeupdate", () => {
    // A line lasts through the rest after it. A little late, for a jump may land a moment before its line.
    const now = marks[take].findLast((line) => line.start <= player.currentTime + 0.05);
    for (const item of document.querySelectorAll("#lines > li")) {
      if (item === now?.item) item.setAttribute("aria-current", "true");
      else item.removeAttribute("aria-current");
    }
  });
  player.addEventListener("play", () => {
    for (const other of players) if (other !== player) other.pause();
  });
}
