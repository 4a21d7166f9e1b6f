"""The recorded notes: which samples of which files, and their steady parts."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile

import profiles
import soundfont

HIGHEST_HZ = 1100.0
LOWEST, HIGHEST = 52, 84
LOUD = ("fluid", "timgm", "generaluser", "lmms")
SOFT = ("a320u", "npm")
ALL = LOUD + SOFT

FONTS = {
    "fluid": ("FluidR3_GM.sf2", ("tp_e3", "tp_g3", "tp_c4", "tp_g4")),
    "timgm": ("TimGM6mb.sf2", ("TrumpC5", "TrumpD#5", "TrumpG5", "TrumpA#5", "TrumpC#6", "TrumpD#6", "TrumpG6")),
    "generaluser": (
        "GeneralUser*.sf2",
        ("Trumpet-A#3", "Trumpet-E4", "Trumpet-A4", "Trumpet-D5", "Trumpet-F#6", "Trumpet-G5", "Trumpet-B5"),
    ),
    "a320u": ("A320U.sf2", ("trpe4la", "trpc5la", "trpe5la", "trpg5la", "trpc6la")),
}
# Two of them say 44.1 kHz, 6.33 half steps sharp of their names; at their sisters' 31 kHz they are in tune.
MISLABELLED = {("generaluser", "Trumpet-G5"), ("generaluser", "Trumpet-B5")}


# Made from a sound of a lower rate: the noise between its partials falls by 35 dB from 5 to 7.5 kHz, where that of
# every other sample of its set falls by 5 to 12. What lies above was never recorded.
CARRIES_HZ = {("timgm", "TrumpG6"): 6500.0}


@dataclass
class Note:
    set: str
    name: str
    hz: float
    levels: np.ndarray

    @property
    def register(self) -> str:
        return "low" if self.hz < 320 else "middle" if self.hz < 480 else "high"

    @property
    def nearest(self) -> int:
        """MIDI note number of the guide's note to hold it against."""
        return min(max(round(69 + 12 * np.log2(self.hz / 440)), LOWEST), HIGHEST)


def held(x: np.ndarray, rate: float) -> np.ndarray:
    """From 150 ms after the onset, at most 1.6 s, before the sound fades."""
    level = np.sqrt(np.convolve(x**2, np.ones(512) / 512, "same"))
    on = int(np.argmax(level > 0.1 * level.max()))
    off = len(level) - int(np.argmax(level[::-1] > 0.3 * level.max()))
    return x[on + int(0.15 * rate) : max(on + int(0.3 * rate), min(off, on + int(1.6 * rate)))]


def recorded(sample: soundfont.Sample, rate: float, periods: int = 28, lowest: float = 140) -> np.ndarray:
    """What was played after the attack, up to the end of the loop: the last 28 periods (or so many) at least, from the loop
    turned round only where even these are not there. A loop of one period, turned over and over, is the chance
    spectrum of a moment, and the seam of a longer one weakens what does not meet in phase."""
    first, last = sample.loop
    wanted = int(periods * rate / profiles.pitch(sample.frames[:last][-8192:], rate, lowest)) + 1
    start = max(min(int(0.12 * rate), last - wanted), int(0.06 * rate))
    turns = max(0, -(-(wanted - (last - start)) // (last - first)))
    return np.concatenate([sample.frames[start:last]] + turns * [sample.frames[first:last]])


def one(folder: Path, pattern: str) -> Path | None:
    return next(iter(sorted(folder.rglob(pattern))), None)


def notes(folder: Path) -> list[Note]:
    """All notes that are there, lowest first."""
    found = []

    def add(set_name: str, name: str, x: np.ndarray, rate: float) -> None:
        hz, levels = profiles.profile(x, rate)
        levels[np.arange(1, len(levels) + 1) * hz > CARRIES_HZ.get((set_name, name), np.inf)] = np.nan
        if hz < HIGHEST_HZ:
            found.append(Note(set_name, name, hz, levels))

    for set_name, (pattern, names) in FONTS.items():
        path = one(folder, pattern)
        for sample in soundfont.samples(path) if path else []:
            if sample.name in names:
                rate = sample.rate
                if (set_name, sample.name) in MISLABELLED:
                    rate *= 2 ** (-6.33 / 12)
                add(set_name, sample.name, recorded(sample, rate), rate)
    files = {"lmms": [one(folder, "instruments/trumpet01.ogg")]}
    files["npm"] = sorted((folder / "unpacked/npm-trumpet").rglob("*.mp3"))
    for set_name, paths in files.items():
        for path in filter(None, paths):
            x, rate = soundfile.read(path, always_2d=True)
            add(set_name, path.stem, held(x.mean(axis=1), rate), rate)
    return sorted(found, key=lambda note: note.hz)
