"""The guide as `leadpipe tone` renders it against recorded trumpets: judge.py RECORDINGS LEADPIPE"""

import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import numpy as np
import soundfile

import fit
import floor
import profiles
import sets

MARKS = ("pp", "p", "mp", "mf", "f", "ff")
NAMES = "C C# D Eb E F F# G Ab A Bb B".split()
PITCHES = range(sets.LOWEST, sets.HIGHEST + 1)
REGISTERS = ("low", "middle", "high")


def tone_file(number: int) -> str:
    """The file that `leadpipe tone` writes for a MIDI note number, spelt as in the fingering chart."""
    chart = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
    return f"tone-{chart[number % 12]}{number // 12 - 1}.wav"


def rendered(program: str, marks: tuple[str, ...] = MARKS) -> dict[str, dict[int, np.ndarray]]:
    """Profiles at every dynamic, by MIDI note number."""
    found = {mark: {} for mark in marks}
    pitches = [f"{NAMES[n % 12]}{n // 12 - 1}" for n in PITCHES]
    with tempfile.TemporaryDirectory() as folder:
        for mark in marks:
            options = ["--dynamic", mark, "--rate", "48000", "--bits", "24", "--out", folder]
            subprocess.run([program, "tone", *pitches, *options], check=True, stdout=subprocess.DEVNULL)
            for number in PITCHES:
                x, rate = soundfile.read(Path(folder) / tone_file(number))
                found[mark][number] = profiles.profile(x[int(0.3 * rate) : int(1.8 * rate)], rate)[1]
    return found


Pair = tuple[np.ndarray, np.ndarray]


def distances(pairs: list[Pair]) -> tuple[float, float]:
    """Median RMS difference in dB, and the same without tilt."""
    return tuple(np.median([[profiles.difference(a, b, tilt) for tilt in (False, True)] for a, b in pairs], axis=0))


def line(name: str, pairs: list[Pair]) -> str:
    if not pairs:
        return f"{name:24} none"
    plain, level = distances(pairs)
    return f"{name:24} {len(pairs):3} notes  {plain:5.2f} dB  without tilt {level:5.2f} dB"


def row(name: str, pairs: list[tuple[set[str], Pair]], divisor: float = 1.0) -> str:
    """One line of the table by registers; `pairs` come with the registers they belong to."""
    cells = []
    for register in (*REGISTERS, "all"):
        here = [pair for where, pair in pairs if register == "all" or register in where]
        plain, level = np.divide(distances(here), divisor) if here else (np.nan, np.nan)
        cells.append(f"{plain:5.2f} {level:5.2f} ({len(here):2})")
    return f"{name:58} " + "  ".join(cells)


def by_register(loud: list[sets.Note], recorded: list[sets.Note], guide: dict[int, np.ndarray]) -> None:
    def each(profile: Callable[[sets.Note], np.ndarray | None]) -> list[tuple[set[str], Pair]]:
        found = [(n, profile(n)) for n in loud]
        return [({n.register}, (n.levels, p)) for n, p in found if p is not None]

    held_out = {name: fit.fit([n for n in recorded if n.set != name]) for name in sorted({n.set for n in loud})}
    free = dict(zip([(n.set, n.name) for n in loud], floor.free_curve(loud)))
    against = [
        ({a.register, b.register}, (a.levels, b.levels))
        for i, a in enumerate(loud)
        for b in loud[:i]
        if a.set != b.set and floor.half_steps(a, b) < 2.5
    ]
    print(f"\n{'median dB, and without tilt (notes or pairs)':58} " + "  ".join(f"{r:16}" for r in (*REGISTERS, "all")))
    print(row("the guide at forte", each(lambda n: guide[n.nearest])))
    print(row("its curve, fitted without the set", each(lambda n: fit.model(held_out[n.set], fit.K * n.hz, n.hz, 1.0))))
    print(row("the mean of the other sets, nearest notes", each(lambda n: floor.mean_of_others(n, loud))))
    print(row("a curve of 46 numbers fitted to these very notes", each(lambda n: free[n.set, n.name])))
    coloured = each(lambda n: guide[n.nearest][: len(floor.K)] + floor.own_colour(n, loud, guide))
    print(row("the guide, a set's colour in its other notes taken out", coloured))
    print(row("set against set within two half steps and a half", against))
    print(row("  the same over √2: a set against the mean of many", against, np.sqrt(2)))


def main() -> None:
    recorded = sets.notes(Path(sys.argv[1]))
    guide = rendered(sys.argv[2])
    loud = [note for note in recorded if note.set in sets.LOUD]
    print("loud sets against the guide at forte")
    for name in sets.LOUD:
        print(line(name, [(n.levels, guide["f"][n.nearest]) for n in loud if n.set == name]))
    print("softer sets against the dynamic that comes nearest to the whole set")
    for name in sets.SOFT:
        lines = [
            line(f"{name}, {mark}", [(n.levels, guide[mark][n.nearest]) for n in recorded if n.set == name])
            for mark in MARKS
        ]
        print(min(lines, key=lambda text: float(text.split("notes")[1].split()[0])))
    by_register(loud, recorded, guide["f"])


if __name__ == "__main__":
    main()
