"""Every family's row against recorded notes, and against each other: judge_families.py RECORDINGS [--fit]

The curve of src/synth/families.rs is what the guide renders, within the 1 dB that tests/sound/families.rs allows.
With `--fit`, the numbers that a fit to the named sets gives are printed beside those that stand in the row.
"""

import sys
from dataclasses import fields
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

import families
import fit
import floor
import judge
import profiles
import sets

MARKS = dict(zip(judge.MARKS, (-18, -13, -9, -5, 0, 4)))


def difference(note: sets.Note, row: families.Row, mark: str, tilt: bool = False) -> float:
    levels = row.levels(fit.K * note.hz, note.hz, families.brightness(MARKS[mark]))
    return profiles.difference(note.levels, levels, tilt)


def median(notes: list[sets.Note], row: families.Row, mark: str, tilt: bool = False) -> float:
    return float(np.median([difference(note, row, mark, tilt) for note in notes]))


def soft(family: str) -> tuple[str, ...]:
    return sets.SOFT if family == "trumpet" else families.SOFT[family]


def against_other_sets(notes: list[sets.Note], name: str, tilt: bool) -> float:
    pairs = [
        profiles.difference(a.levels, b.levels, tilt)
        for a in notes
        for b in notes
        if a.set == name != b.set and floor.half_steps(a, b) < 2.5
    ]
    return float(np.median(pairs)) if pairs else np.nan


def table(family: str, notes: list[sets.Note], row: families.Row) -> None:
    for name in dict.fromkeys(note.set for note in notes):
        of_set = [note for note in notes if note.set == name]
        mark = min(MARKS, key=lambda mark: median(of_set, row, mark)) if name in soft(family) else "f"
        seen = "fitted" if name in families.FITTED[family] else "unseen"
        print(
            f"{family:9} {name:15} {len(of_set):3} {seen:7} {mark:3} {median(of_set, row, mark):5.1f} "
            f"{median(of_set, row, mark, True):5.1f}   other sets {against_other_sets(notes, name, False):5.1f} "
            f"{against_other_sets(notes, name, True):5.1f}"
        )


def confusion(recorded: dict[str, list[sets.Note]], rows: dict[str, families.Row]) -> None:
    """Of each family's guide at forte against the loud recordings of each."""
    loud = {family: [n for n in notes if n.set not in soft(family)] for family, notes in recorded.items()}
    print(f"\n{'guide at f against recorded':27}" + "".join(f"{family:>10}" for family in loud))
    for name, row in rows.items():
        cells = {family: median(notes, row, "f") for family, notes in loud.items()}
        nearest = min(cells, key=cells.get)
        said = "" if name not in cells else "own" if nearest == name else f"NEARER TO {nearest}"
        print(f"{name:27}" + "".join(f"{cell:10.1f}" for cell in cells.values()) + f"  {said}")
    for family, notes in loud.items():
        own = [min(families.RECORDED, key=lambda name: difference(note, rows[name], "f")) == family for note in notes]
        print(f"recorded notes of {family}: nearest to their own guide {sum(own)} of {len(own)}")


def fitted(family: str, notes: list[sets.Note], row: families.Row) -> families.Row:
    """The seven numbers at forte; what softness does is given. Each note has a brightness of its own: near 1 in the
    loud sets, free in the softer ones."""
    names = [field.name for field in fields(families.Row)]
    start = np.array([getattr(row, name) for name in names])
    free = np.array([0.35] * 7 + [0.0] * 3)
    free[names.index("fall_gentler_db")] = 0.8
    usual = np.array([0.6 if note.set in soft(family) else 1.0 for note in notes])
    loose = np.array([0.6 if note.set in soft(family) else 0.1 for note in notes])
    weight = [sum(m.set == n.set for m in notes) ** -0.25 * (0.7 if n.set in soft(family) else 1.0) for n in notes]

    def at(v: np.ndarray) -> families.Row:
        return families.Row(*np.maximum(start * (1 + free * v[: len(start)]), 0.05 * start))

    def residuals(v: np.ndarray) -> np.ndarray:
        guess, parts = at(v), [0.3 * v[: len(start)], 0.5 * (v[len(start) :] - usual) / loose]
        for note, w, bright in zip(notes, weight, v[len(start) :]):
            there = floor.strong(note.levels)
            k = floor.K[there]
            d = note.levels[: len(floor.K)][there] - guess.levels(k * note.hz, note.hz, bright)
            d = (d - d.mean()) / 3
            parts.append(3 * np.sign(d) * np.sqrt(2 * (np.sqrt(1 + d**2) - 1)) * w / np.sqrt(len(k)))
        return np.concatenate(parts)

    return at(least_squares(residuals, np.concatenate([np.zeros(len(start)), usual])).x)


def main() -> None:
    rows = families.rows()
    recorded = {family: families.notes(Path(sys.argv[1]), family) for family in families.RECORDED}
    print("family, set, notes, fitted or unseen, at which mark: median dB, and without tilt; the same of set against set")
    for family, notes in recorded.items():
        table(family, notes, rows[family])
    confusion(recorded, rows)
    if "--fit" in sys.argv:
        for family in families.RECORDED[1:]:
            found = fitted(family, [n for n in recorded[family] if n.set in families.FITTED[family]], rows[family])
            print(f"\n{family:20} {'fit':>8} {'row':>8}")
            for field in fields(families.Row)[:7]:
                print(f"{field.name:20} {getattr(found, field.name):8.2f} {getattr(rows[family], field.name):8.2f}")


if __name__ == "__main__":
    main()
