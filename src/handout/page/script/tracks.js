// Plays finished tracks. What plays, this or the engine, has these, and says "change" when it begins, stops or ends:
//   lines           the course
//   playing         true while it sounds
//   position()      { index, t }: which line, and seconds since the start of its count-in
//   play(index)     from the count-in of a line
//   pause(), resume(), stop()
//   wait(), ready(index)    holds a rest for as long as it takes; counts in the line after it
//   volumes         what can be made softer: { name: [words, get, set] }

class Tracks extends EventTarget {
  #audio;
  volumes = {};

  constructor(players, takes) {
    super();
    this.takes = takes.map((take, index) => ({ ...take, audio: players[index], course: courseOf(take.lines) }));
    for (const { audio } of this.takes) {
      for (const name of ["play", "pause", "ended", "error"]) {
        audio.addEventListener(name, () => {
          if (audio === this.#audio) this.dispatchEvent(new Event("change"));
        });
      }
    }
    this.choose(0);
    // Some phones leave the volume to their own buttons, and say so by not keeping what is set.
    const { audio } = this.takes[0];
    audio.volume = 0.5;
    if (audio.volume === 0.5) {
      this.volumes.all = ["Volume", () => audio.volume, (value) => this.takes.forEach((take) => (take.audio.volume = value))];
    }
    audio.volume = 1;
  }

  choose(index) {
    this.#audio?.pause();
    this.take = index;
    this.#audio = this.takes[index].audio;
    this.lines = this.takes[index].course;
    this.key = this.takes[index].key;
  }

  get playing() {
    return !this.#audio.paused && !this.#audio.ended;
  }

  get failed() {
    return this.#audio.error !== null;
  }

  position() {
    const time = this.#audio.currentTime;
    // A jump may land a moment before its line.
    const index = Math.max(0, this.lines.findLastIndex((line) => line.start <= time + 0.05));
    return { index, t: time - this.lines[index].start };
  }

  async play(index) {
    // A player that broke off begins anew.
    if (this.failed) this.#audio.load();
    this.#audio.currentTime = this.lines[index].start;
    await this.#audio.play();
  }

  pause() {
    this.#audio.pause();
  }

  async resume() {
    await this.#audio.play();
  }

  wait() {
    this.pause();
  }

  ready(index) {
    return this.play(index);
  }

  stop() {
    this.pause();
  }
}
