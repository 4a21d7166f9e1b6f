"""The guide as `leadpipe tone` renders it against recorded trumpets: judge.py RECORDINGS LEADPIPE"""

import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import soundfile

import profiles
import sets

MARKS = ("pp", "p", "mp", "mf", "f", "ff")
NAMES = "C C# D Eb E F F# G Ab A Bb B".split()
PITCHES = range(52, 85)


def rendered(program: str) -> dict[tuple[str, int], np.ndarray]:
    """Profiles of every note at every dynamic."""
    found = {}
    pitches = [f"{NAMES[n % 12]}{n // 12 - 1}" for n in PITCHES]
    with tempfile.TemporaryDirectory() as folder:
        for mark in MARKS:
            options = ["--dynamic", mark, "--rate", "48000", "--bits", "24", "--out", folder]
            subprocess.run([program, "tone", *pitches, *options], check=True, stdout=subprocess.DEVNULL)
            for number in PITCHES:
                x, rate = soundfile.read(Path(folder) / f"tone-{number}.wav")
                found[mark, number] = profiles.profile(x[int(0.3 * rate) : int(1.8 * rate)], rate)[1]
    return found


def nearest(hz: float) -> int:
    number = round(69 + 12 * np.log2(hz / 440))
    return min(max(number, PITCHES[0]), PITCHES[-1])


def line(name: str, pairs: list[tuple[np.ndarray, np.ndarray]]) -> str:
    if not pairs:
        return f"{name:24} none"
    plain = np.median([profiles.difference(a, b) for a, b in pairs])
    level = np.median([profiles.difference(a, b, tilt=True) for a, b in pairs])
    return f"{name:24} {len(pairs):3} notes  {plain:5.2f} dB  without tilt {level:5.2f} dB"


def main() -> None:
    recorded = sets.notes(Path(sys.argv[1]))
    guide = rendered(sys.argv[2])
    loud = [note for note in recorded if note.set in sets.LOUD]
    print("loud sets against the guide at forte")
    for name in sets.LOUD:
        print(line(name, [(n.levels, guide["f", nearest(n.hz)]) for n in loud if n.set == name]))
    for register in ("low", "middle", "high"):
        print(line(register, [(n.levels, guide["f", nearest(n.hz)]) for n in loud if n.register == register]))
    print(line("all", [(n.levels, guide["f", nearest(n.hz)]) for n in loud]))
    print("softer sets against the dynamic that comes nearest to the whole set")
    for name in sets.SOFT:
        lines = [
            line(f"{name}, {mark}", [(n.levels, guide[mark, nearest(n.hz)]) for n in recorded if n.set == name])
            for mark in MARKS
        ]
        print(min(lines, key=lambda text: float(text.split("notes")[1].split()[0])) if lines else f"{name} none")
    print("recordings against one another, within two half steps and a half")
    close = [
        (a.levels, b.levels)
        for i, a in enumerate(loud)
        for b in loud[:i]
        if a.set != b.set and abs(np.log2(a.hz / b.hz)) < 2.5 / 12
    ]
    print(line("loud sets", close))


if __name__ == "__main__":
    main()
