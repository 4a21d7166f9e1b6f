"""How near any one curve can come to these recordings: what the guide's distance is to be held against."""

import numpy as np
from scipy.interpolate import BSpline

import fit
import profiles
import sets

K = np.arange(1, profiles.PARTIALS + 1)
NEAR_HALF_STEPS = 4.0


def half_steps(a: sets.Note, b: sets.Note) -> float:
    return abs(12 * np.log2(a.hz / b.hz))


def strong(levels: np.ndarray) -> np.ndarray:
    """Which of the first partials lie above the floor (and within what the recording carries)."""
    return levels[: len(K)] > np.nanmax(levels[: len(K)]) + profiles.FLOOR_DB


def mean_of_others(note: sets.Note, notes: list[sets.Note]) -> np.ndarray | None:
    """Mean of every other set's nearest note, each shifted in Hz to this note's partials."""
    rows = []
    for name in sorted({n.set for n in notes} - {note.set}):
        of_set = [n for n in notes if n.set == name and half_steps(n, note) <= NEAR_HALF_STEPS]
        if of_set:
            other = min(of_set, key=lambda n: half_steps(n, note))
            there = ~np.isnan(other.levels)
            octaves = np.log2(np.arange(1, len(other.levels) + 1)[there] * other.hz)
            wanted = np.log2(K * note.hz)
            read = np.interp(wanted, octaves, other.levels[there], right=np.nan)
            rows.append(np.maximum(read - np.nanmax(read), profiles.FLOOR_DB - 10))
    if not rows:
        return None
    for row in rows[1:]:
        both = strong(row) & strong(rows[0])
        row -= np.mean((row - rows[0])[both])
    # A partial that no other set carries is left out of the comparison.
    found = np.stack(rows)
    count = (~np.isnan(found)).sum(axis=0)
    return np.where(count > 0, np.nansum(found, axis=0) / np.maximum(count, 1), np.nan)


def own_colour(note: sets.Note, notes: list[sets.Note], guide: dict[int, np.ndarray]) -> np.ndarray:
    """What room, microphone and instrument of a set add at each frequency, whatever is played: the mean distance
    of the set's *other* notes from the guide, tilt removed, over a third of an octave."""
    at, apart = [np.zeros(0)], [np.zeros(0)]
    for other in notes:
        if other.set == note.set and other is not note:
            levels, shown = other.levels[: len(K)], guide[other.nearest][: len(K)]
            use = strong(levels) & strong(shown)
            terms = np.stack([np.ones(use.sum()), np.log2(K[use])], axis=1)
            left = (levels - shown)[use]
            at.append(np.log2(K[use] * other.hz))
            apart.append(left - terms @ np.linalg.lstsq(terms, left, rcond=None)[0])
    weight = np.exp(-0.5 * ((np.log2(K * note.hz)[:, None] - np.concatenate(at)) * 6) ** 2)
    return weight @ np.concatenate(apart) / (weight.sum(axis=1) + 1)


def _terms(hz: float) -> np.ndarray:
    """24 splines over 200 Hz to 20 kHz, 16 that grow with the octave of the note, and partials 1 to 6."""

    def splines(count: int) -> np.ndarray:
        place = np.clip(np.log2(K * hz / 200) / np.log2(100), 0, 1 - 1e-9)
        knots = np.concatenate([[0] * 4, np.linspace(0, 1, count - 2)[1:-1], [1] * 4])
        return BSpline.design_matrix(place, knots, 3).toarray()

    return np.hstack([splines(24), splines(16) * np.log2(hz / 466), K[:, None] == np.arange(1, 7)])


def free_curve(notes: list[sets.Note]) -> list[np.ndarray]:
    """The profiles of a curve of 46 free numbers fitted to the very notes it is then held against: no model that is
    smooth in frequency and pitch comes much nearer, and on other notes this one does worse than the guide."""
    rows, wanted = [], []
    for note in notes:
        use = strong(note.levels)
        weight = 1 / np.sqrt(use.sum())
        apart = (note.levels[: len(K)] - fit.model(fit.OURS, K * note.hz, note.hz, 1.0))[use]
        terms = _terms(note.hz)[use]
        rows.append((terms - terms.mean(axis=0)) * weight)
        wanted.append((apart - apart.mean()) * weight)
    terms, apart = np.vstack(rows), np.concatenate(wanted)
    count, trust = terms.shape[1], np.ones(len(apart))
    for _ in range(20):
        # A touch of ridge, for some splines have nothing under them; beyond 3 dB a partial counts by its distance.
        left = np.vstack([terms * trust[:, None], 0.05 * np.eye(count)])
        found = np.linalg.lstsq(left, np.concatenate([apart * trust, np.zeros(count)]), rcond=None)[0]
        trust = (1 + ((apart - terms @ found) * np.sqrt(len(K)) / 3) ** 2) ** -0.25
    return [fit.model(fit.OURS, K * n.hz, n.hz, 1.0) + _terms(n.hz) @ found for n in notes]
