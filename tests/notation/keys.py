"""Keys as music21 knows them: the table of tests/outside/keys.rs, and exported scales of all thirty keys, as written and
moved, each note by name against the scale of the key that the file says it is in.

Run as `python keys.py LEADPIPE FOLDER`.
"""

import re
import subprocess
import sys
from pathlib import Path

import music21

ROOT = Path(__file__).parent.parent.parent
MOVES = [0, -1, 1, -2, -3, -4, -5, -6]
ROW = re.compile(r'"([A-G][\w-]*) major",\s*"([A-G][\w-]*) minor",\s*(-?\d+),\s*"([A-G#b ]+)"')


def tonic(name):
    return name.replace("-sharp", "#").replace("-flat", "-")


def table():
    rows = ROW.findall((ROOT / "tests/outside/keys.rs").read_text())
    assert len(rows) == 15, rows
    for major, minor, sharps, notes in rows:
        for name, mode in [(major, "major"), (minor, "minor")]:
            key = music21.key.Key(tonic(name), mode)
            assert key.sharps == int(sharps), (name, mode, key.sharps)
            scale = {p.name for p in key.getScale().pitches}
            assert scale == {n.replace("b", "-") for n in notes.split()}, (name, mode, scale)
            yield name, mode, notes.split()


def scale_of(name, mode, notes):
    """An octave of the scale, from a tonic between C4 and B4 as sounding on the page; in minor with its raised seventh."""
    key = music21.key.Key(tonic(name), mode)
    low = music21.pitch.Pitch(tonic(name) + "4")
    while low.midi < 60:
        low.octave += 1
    while low.midi > 71:
        low.octave -= 1
    found = key.getScale().getPitches(low, low.transpose("P8"))
    if mode == "minor":
        raised = low.transpose("M7")
        if abs(raised.accidental.alter if raised.accidental else 0) < 2:
            found[6] = raised
    return [p.nameWithOctave.replace("-", "b") for p in found]


def routine(name, mode, notes):
    written = " ".join(f"{note}:quarter" for note in notes)
    return (
        f'format = 1\ntitle = "{name} {mode}"\ninstrument = "trumpet in C"\ncomfortable_top = "G5"\nreach = "C6"\n'
        f'tempo = 72\nkey = "{name} {mode}"\n[[line]]\nname = "scale"\nnotes = "{written}"\nhalf_steps = {MOVES}\n'
    )


def check(path, mode, notes):
    score = music21.converter.parse(path, forceSource=True)
    part = score.parts[0]
    first = [music21.pitch.Pitch(n.replace("b", "-")).midi for n in notes]
    found = [n for n in part.flatten().notes]
    fits = [by for by in MOVES if max(first) + by <= 84]
    assert len(found) == len(first) * len(fits), (path, len(found))
    keys = set()
    for place, note in enumerate(found):
        turn, degree = divmod(place, len(first))
        assert note.pitch.midi == first[degree] + fits[turn], (path, place, note.pitch)
        key = note.getContextByClass("KeySignature")
        assert key.sharps is not None and abs(key.sharps) <= (7 if fits[turn] == 0 else 6), (path, key)
        keys.add(key.sharps)
        of_key = music21.key.KeySignature(key.sharps).asKey(mode)
        allowed = {p.name for p in of_key.getScale().pitches}
        if mode == "minor" and degree == 6:
            allowed = {of_key.tonic.transpose("M7").name, of_key.tonic.transpose("m7").name}
        assert note.pitch.name in allowed, (path, place, note.pitch, of_key)
        # A sign stands at the note where the signature says something else.
        by_key = {p.step: p.accidental.alter for p in key.alteredPitches}
        alter = note.pitch.accidental.alter if note.pitch.accidental else 0
        shown = note.pitch.accidental is not None and note.pitch.accidental.displayStatus
        if alter != by_key.get(note.pitch.step, 0):
            assert shown, (path, place, note.pitch, of_key)
    return len(found), keys


def main(leadpipe, folder):
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    notes, keys = 0, set()
    for name, mode, scale in table():
        written = scale_of(name, mode, scale)
        source = folder / f"{name} {mode}.toml"
        source.write_text(routine(name, mode, written))
        out = folder / f"{name} {mode}"
        command = [leadpipe, "export", str(source), "--to", "musicxml", "--out", str(out), "--force"]
        subprocess.run(command, check=True, capture_output=True, text=True)
        (path,) = out.glob("*.musicxml")
        count, seen = check(path, mode, written)
        notes += count
        keys |= {(sharps, mode) for sharps in seen}
    print(f"{notes} notes of scales in {len(keys)} keys are spelt as music21 has them")


if __name__ == "__main__":
    main(*sys.argv[1:])
