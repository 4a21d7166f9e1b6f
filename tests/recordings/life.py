"""Attack, order of partials and noise of the guide as rendered, every note and dynamic: life.py LEADPIPE"""

import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import soundfile

import judge
import profiles


def attack_ms(x: np.ndarray, rate: float, hz: float) -> float:
    """From 10 to 90 % of the steady RMS, over two periods."""
    n = round(2 * rate / hz)
    level = np.sqrt(np.convolve(x**2, np.ones(n) / n, "valid"))
    steady = np.sqrt(np.mean(x[int(0.3 * rate) : int(1.7 * rate)] ** 2))
    return (np.argmax(level > 0.9 * steady) - np.argmax(level > 0.1 * steady)) / rate * 1e3


def later_ms(x: np.ndarray, rate: float, hz: float) -> float:
    """How much later each partial is at half its height than the one below, mean over the first eight that
    are strong enough to be seen in the noise."""
    n = round(4 * rate / hz)
    shape = np.hanning(n) / np.hanning(n).sum()
    x = np.concatenate([np.zeros(n), x[: int(0.3 * rate)]])
    time = np.arange(len(x)) / rate
    at, full = [], []
    for k in range(1, 9):
        level = abs(np.convolve(x * np.exp(-2j * np.pi * k * hz * time), shape, "same"))
        full.append(np.median(level[int(0.15 * rate) : int(0.25 * rate)]))
        at.append(np.argmax(level > 0.5 * full[-1]) / rate * 1e3)
    weak = [k for k in range(8) if full[k] < 0.03 * max(full)] + [8]
    return (at[weak[0] - 1] - at[0]) / (weak[0] - 1) if weak[0] > 2 else np.nan


def harmonics_over_noise_db(x: np.ndarray, rate: float, hz: float) -> float:
    """Noise is what lies in the middle between partials, taken to be as dense under them."""
    n, found = int(0.25 * rate), []
    for start in range(int(0.3 * rate), int(1.6 * rate), n // 2):
        power = abs(np.fft.rfft(x[start : start + n] * profiles.window(n))) ** 2
        place = np.arange(len(power)) * rate / n / hz
        whole = noise = 0.0
        for k in range(1, int(9000 / hz) + 1):
            band = abs(place - k) <= 0.5
            # The median of power that is spread like a square of two normal parts is ln 2 of its mean.
            noise += np.median(power[band & (abs(place - k) > 0.42)]) / np.log(2) * band.sum()
            whole += power[band].sum()
        found.append(10 * np.log10(whole / noise - 1))
    return float(np.median(found))


def main() -> None:
    pitches = [f"{judge.NAMES[n % 12]}{n // 12 - 1}" for n in judge.PITCHES]
    for mark in judge.MARKS:
        rows = []
        with tempfile.TemporaryDirectory() as folder:
            options = ["--dynamic", mark, "--rate", "48000", "--bits", "24", "--out", folder]
            subprocess.run([sys.argv[1], "tone", *pitches, *options], check=True, stdout=subprocess.DEVNULL)
            for number in judge.PITCHES:
                x, rate = soundfile.read(Path(folder) / judge.tone_file(number))
                hz = 440 * 2 ** ((number - 69) / 12)
                rows.append([f(x, rate, hz) for f in (attack_ms, later_ms, harmonics_over_noise_db)])
        low, high = np.nanmin(rows, axis=0), np.nanmax(rows, axis=0)
        print(
            f"{mark:3} attack {low[0]:.1f} to {high[0]:.1f} ms, each partial {low[1]:.1f} to {high[1]:.1f} ms later, "
            f"noise {low[2]:.1f} to {high[2]:.1f} dB below"
        )


if __name__ == "__main__":
    main()
