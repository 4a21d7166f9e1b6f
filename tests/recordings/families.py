"""The recorded notes of horn, trombone and tuba, and the rows of src/synth/families.rs.

Left out: trombone and tuba of `timgm`, `a320u` and `csound-soundfont`, whose sample rates were lost (their tubas are
generaluser's at another rate, profile for profile), and those horns of `a320u` that are its trombones.
"""

import re
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

import numpy as np
import soundfile

import profiles
import sets
import soundfont

RECORDED = ("trumpet", "horn", "trombone", "tuba")
LOWEST_HZ = 25.0
# Samples of low notes are short: one window of the profile.
PERIODS = 14

FONTS = {
    "horn": {
        # A section; the left channel.
        "fluid": ("FluidR3_GM.sf2", "French Horns*(L)"),
        "solo": ("GeneralUser*.sf2", "French Horn-*"),
        "generaluser f": ("GeneralUser*.sf2", "Fr*nch*Hrn* [A-G]*|French Horn [A-G]*"),
        "generaluser mf": ("GeneralUser*.sf2", "Fr*Horn*mf*"),
        "timgm solo": ("TimGM6mb.sf2", "FRHORN*"),
        "timgm bright": ("TimGM6mb.sf2", "*FrenchHorn1"),
        "timgm section": ("TimGM6mb.sf2", "French Horns *"),
    },
    "trombone": {
        "fluid": ("FluidR3_GM.sf2", "trombone*"),
        "generaluser": ("GeneralUser*.sf2", "Trombone-*"),
        # A bass trombone, softer.
        "musescore": ("MuseScore_General_Full.sf2", "BassTrm_*_v[12]L"),
    },
    "tuba": {
        "fluid": ("FluidR3_GM.sf2", "Tuba*"),
        "generaluser": ("GeneralUser*.sf2", "Tuba-*"),
    },
}
NPM = {"horn": "french-horn", "trombone": "trombone", "tuba": "tuba"}
# One loop of four samples is too short to be measured: it starts after the highest note of a horn.
TOO_HIGH = 1000.0
# Their own files say that they were played softly, or they are of many dynamics.
SOFT = {"horn": ("generaluser mf", "npm"), "trombone": ("musescore", "npm"), "tuba": ()}
SOFT_TRUMPETS = sets.SOFT
# What the rows were fitted to; all other sets are unseen.
FITTED = {
    "trumpet": sets.ALL,
    "horn": ("fluid", "solo", "npm"),
    "trombone": ("fluid", "npm"),
    "tuba": ("fluid", "generaluser"),
}
# Five low notes of one set fall by 30 to 60 dB below this, and none above: a high-pass, not a horn.
CARRIES_FROM_HZ = {("horn", "npm"): 140.0}


@dataclass
class Row:
    bell_hz: float
    fall_hz: float
    fall_db: float
    fall_gentler_db: float
    formant_hz: float
    formant_octaves: float
    formant_db: float
    darkening_db: float
    darkening_hz: float
    darkening_less_hz: float

    def levels(self, f: np.ndarray, f0: float, brightness: float) -> np.ndarray:
        fall = self.fall_db - self.fall_gentler_db * np.log2(f0 / 466)
        darkening = self.darkening_db / np.sqrt(1 + (f0 / self.darkening_less_hz) ** 2)
        return (
            -10 * np.log10(1 + (self.bell_hz / f) ** 2)
            - 0.25 * fall * np.log2(1 + (f / self.fall_hz) ** 4)
            + self.formant_db * np.exp(-0.5 * (np.log2(f / self.formant_hz) / self.formant_octaves) ** 2)
            - 0.5 * darkening * (1 - brightness) * np.log2(1 + (f / self.darkening_hz) ** 2)
        )


def rows() -> dict[str, Row]:
    """As they stand in the program."""
    text = (Path(__file__).parents[2] / "src/synth/families.rs").read_text()
    found = {}
    for name, body in re.findall(r"static ([A-Z_]+): HornTone = HornTone \{(.*?)\n\};", text, re.DOTALL):
        numbers = dict(re.findall(r"(\w+): ([-\d_.]+),", body))
        values = {field: float(numbers[field].replace("_", "")) for field in Row.__annotations__}
        found[name.lower().replace("_", " ")] = Row(**values)
    return found


def brightness(db: float) -> float:
    """Of a note held at a level against forte, as in src/synth/contour.rs."""
    return min(max(1 + db / 30 * (1 - db / 36), 0), 1.2)


def notes(folder: Path, family: str) -> list[sets.Note]:
    """All notes that are there, lowest first."""
    if family == "trumpet":
        return sets.notes(folder)
    found = []

    def add(set_name: str, name: str, x: np.ndarray, rate: float) -> None:
        hz, levels = profiles.profile(x, rate, lowest=LOWEST_HZ)
        levels[np.arange(1, len(levels) + 1) * hz < CARRIES_FROM_HZ.get((family, set_name), 0)] = np.nan
        found.append(sets.Note(set_name, name, hz, levels))

    for set_name, (pattern, names) in FONTS[family].items():
        path = sets.one(folder, pattern)
        for sample in soundfont.samples(path) if path else []:
            if any(fnmatchcase(sample.name, each) for each in names.split("|")):
                try:
                    x = sets.recorded(sample, sample.rate, PERIODS, LOWEST_HZ)
                    add(set_name, sample.name.strip(), x, sample.rate)
                except ValueError:
                    # No pitch, or shorter than a window.
                    print(f"left out: {family} {set_name} {sample.name.strip()}")
    for path in sorted((folder / f"unpacked/npm-{NPM[family]}").rglob("*.mp3")):
        x, rate = soundfile.read(path, always_2d=True)
        add("npm", path.stem, sets.held(x.mean(axis=1), rate), rate)
    return sorted((note for note in found if note.hz < TOO_HIGH), key=lambda note: note.hz)
