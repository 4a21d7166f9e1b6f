"""How notes start, recorded and rendered: rise, overshoot, and what lies between the partials. starts.py RECORDINGS LEADPIPE"""

import subprocess
import sys
import tempfile
from pathlib import Path

import judge
import numpy as np
import profiles
import sets
import soundfile
import soundfont


def start(x: np.ndarray, rate: float, hz: float) -> tuple[float, float, float]:
    """Milliseconds from 10 to 90 %, dB of overshoot within 120 ms, and dB of what lies between the partials over the
    whole in the first eight periods, through a Hann window, up to 10 kHz."""
    n = round(2 * rate / hz)
    level = np.sqrt(np.convolve(x**2, np.ones(n) / n, "full")[: len(x)])
    steady = np.sqrt(np.mean(x[int(0.15 * rate) : int(0.4 * rate)] ** 2))
    low, high = (int(np.argmax(level > share * steady)) for share in (0.1, 0.9))
    most = level[high : high + int(0.12 * rate)].max()
    first = max(int(np.argmax(level > 0.05 * steady)) - int(rate / hz / 2), 0)
    part = x[first : first + round(8 * rate / hz)]
    power = abs(np.fft.rfft(part * np.hanning(len(part)), 8 * len(part))) ** 2
    place = np.arange(len(power)) * rate / (8 * len(part)) / hz
    heard = (place > 0.5) & (place * hz < min(10_000, 0.45 * rate))
    off = power[heard & (abs(place - np.round(place)) > 0.3)].sum() / power[heard].sum()
    return (high - low) / rate * 1e3, 20 * np.log10(most / steady), 10 * np.log10(off)


def show(name: str, x: np.ndarray, rate: float, hz: float | None = None) -> None:
    x = np.concatenate([np.zeros(2000), x - x.mean()])
    hz = hz or profiles.pitch(x[int(0.2 * rate) :], rate)
    rise, over, off = start(x, rate, hz)
    print(f"{name:24} {hz:7.1f} Hz  rise {rise:6.1f} ms, overshoot {over:5.2f} dB, between partials {off:6.1f} dB")


def main() -> None:
    folder = Path(sys.argv[1])
    for name, (pattern, names) in sets.FONTS.items():
        path = sets.one(folder, pattern)
        for sample in soundfont.samples(path) if path else []:
            if sample.name in names:
                rate = sample.rate * (2 ** (-6.33 / 12) if (name, sample.name) in sets.MISLABELLED else 1)
                first, last = sample.loop
                turns = int(0.6 * rate / (last - first)) + 1
                show(f"{name} {sample.name}", np.concatenate([sample.frames[:last], *turns * [sample.frames[first:last]]]), rate)
    for path in sorted((folder / "unpacked/npm-trumpet").rglob("*.mp3")):
        x, rate = soundfile.read(path, always_2d=True)
        show(f"npm {path.stem}", x.mean(axis=1), rate)
    for mark in judge.MARKS:
        with tempfile.TemporaryDirectory() as out:
            numbers = range(sets.LOWEST, sets.HIGHEST + 1, 4)
            pitches = [f"{judge.NAMES[n % 12]}{n // 12 - 1}" for n in numbers]
            options = ["--dynamic", mark, "--rate", "48000", "--bits", "24", "--out", out]
            subprocess.run([sys.argv[2], "tone", *pitches, *options], check=True, stdout=subprocess.DEVNULL)
            for number in numbers:
                x, rate = soundfile.read(Path(out) / judge.tone_file(number))
                show(f"{mark} {number}", x, rate, 440 * 2 ** ((number - 69) / 12))


if __name__ == "__main__":
    main()
