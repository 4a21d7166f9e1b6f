// A media element that plays silence. Lock screens and headset buttons know media elements, not an AudioContext; and on phones the
// sound of a media element is heard although the silent switch is on, and that of an AudioContext with it.

class Silence {
  /** @type {HTMLAudioElement} */
  #audio;
  #pausing = false;

  /** @param {() => void} onInterrupted called where the system has paused it: headphones pulled, a call */
  constructor(onInterrupted) {
    this.#audio = new Audio(URL.createObjectURL(silentFile(10)));
    this.#audio.loop = true;
    this.#audio.onpause = () => {
      if (!this.#pausing && this.#audio.paused) onInterrupted();
    };
  }

  play() {
    this.#pausing = false;
    // Where it may not play, only the lock screen misses it.
    this.#audio.play().catch(() => {});
  }

  pause() {
    this.#pausing = true;
    this.#audio.pause();
  }
}

/**
 * A WAV file of silence.
 * @param {number} seconds
 */
function silentFile(seconds) {
  const rate = 8000;
  const size = rate * seconds;
  const bytes = new Uint8Array(44 + size).fill(128, 44);
  const view = new DataView(bytes.buffer);
  /** @type {(at: number, letters: string) => void} */
  const text = (at, letters) => [...letters].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)));
  text(0, "RIFF");
  view.setUint32(4, 36 + size, true);
  text(8, "WAVEfmt ");
  // PCM, one channel, 8 bits.
  [16, 0x00010001, rate, rate, 0x00080001].forEach((value, i) => view.setUint32(16 + 4 * i, value, true));
  text(36, "data");
  view.setUint32(40, size, true);
  return new Blob([bytes], { type: "audio/wav" });
}
