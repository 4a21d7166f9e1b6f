"""The score of a group: by the W3C's schema, and note for note by music21 against the routine and between its parts.

Run as `python group.py LEADPIPE FOLDER`.
"""

import subprocess
import sys
from pathlib import Path

import music21

import exported
from exported import Different, exact, same

INSTRUMENTS = ["trumpet in B-flat", "horn in F", "tenor horn", "trombone", "tuba in B-flat"]
TRANSPOSITIONS = {"trumpet in B-flat": -2, "horn in F": -7, "tenor horn": -9, "trombone": 0, "tuba in B-flat": 0}

ROUTINE = """\
format = 1
title = "Together"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
reach = "C5"
tempo = 240
key = "C major"
"""
LINES = """
[[line]]
name = "Five notes"
notes = "mf slur( C4:quarter D4:quarter E4:quarter F4:quarter | G4:whole ) | triplet( G4:eighth F4:eighth E4:eighth ) D4:quarter. rest:eighth C4:quarter"
half_steps = [0, -1]
rest = "1 bar"

[[line]]
name = "Tubes"
open = "slur( C4:half G4:half | C4:whole )"
tubes = ["0", "2", "1"]
between = "none"
rest = "1 bar"

[[line]]
name = "Waltz"
meter = "3/4"
key = "F major"
notes = "F4:quarter Bb4:quarter A4:quarter | G4:half tie:quarter | F4:half."
"""


def notes_of(part):
    """Turns of a part in order: name and notes as (offset in the turn, length, sounding pitch)."""
    marks = list(part.recurse().getElementsByClass("RehearsalMark"))
    starts = [exact(mark.getOffsetInHierarchy(part)) for mark in marks]
    ends = starts[1:] + [exact(part.highestTime)]
    flat = []
    for note in part.toSoundingPitch().flatten().notes:
        at, length = exact(note.offset), exact(note.quarterLength)
        if note.tie is not None and note.tie.type in ("stop", "continue"):
            flat[-1][1] += length
        else:
            flat.append([at, length, note.pitch.midi])
    turns = []
    for mark, start, end in zip(marks, starts, ends):
        inside = [(at - start, length, pitch) for at, length, pitch in flat if start <= at < end]
        turns.append((mark.content, start, inside))
    return turns


def check(path):
    exported.schema().validate(str(path))
    score = music21.converter.parse(path, forceSource=True)
    same("parts", [part.partName for part in score.parts], INSTRUMENTS)
    for part in score.parts:
        moved = {b.pitch.midi - a.pitch.midi for a, b in zip(part.flatten().notes, part.toSoundingPitch().flatten().notes)}
        # Written and sounding octaves are apart by whole octaves where a clef says so.
        same(f"transposition of {part.partName}", moved, {TRANSPOSITIONS[part.partName]})
    turns = [notes_of(part) for part in score.parts]
    clock = [(name, start) for name, start, _ in turns[0]]
    for name, of_part in zip(INSTRUMENTS, turns):
        same(f"clock of the {name}", [(n, s) for n, s, _ in of_part], clock)
    same("lengths", len({exact(part.highestTime) for part in score.parts}), 1)
    same("first line", [pitch for _, _, pitch in turns[0][0][2]][:5], [58, 60, 62, 63, 65])
    alone = 0
    for number, (line, _) in enumerate(clock):
        playing = [of_part[number][2] for of_part in turns if of_part[number][2]]
        same(f"somebody plays “{line}”", bool(playing), True)
        for notes in playing[1:]:
            same(f"moments of “{line}”", [n[:2] for n in notes], [n[:2] for n in playing[0]])
            same(f"notes of “{line}”", [n[2] % 12 for n in notes], [n[2] % 12 for n in playing[0]])
        # Whoever plays in turn plays what the first did, from another note.
        first = next(notes for n, _, notes in turns[0] if n == line and notes)
        if len(playing) < len(turns):
            alone += 1
        same(f"steps of “{line}”", steps(playing[0]), steps(first))
    same("turns that not everybody plays", alone, 3)


def steps(notes):
    pitches = [pitch for _, _, pitch in notes]
    return [b - a for a, b in zip(pitches, pitches[1:])]


def main():
    leadpipe, folder = sys.argv[1], Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "together.toml").write_text(ROUTINE + LINES)
    players = "".join(
        f'[[player]]\nname = "P{n}"\ngroup = "All"\ninstrument = "{name}"\n' for n, name in enumerate(INSTRUMENTS)
    )
    group = '[[group]]\nname = "All"\nroutine = "together.toml"\ntogether = true\n'
    (folder / "class.toml").write_text(f"format = 1\n{group}{players}")
    command = [leadpipe, "class", "class.toml", "--out", "out", "--format", "wav"]
    subprocess.run(command, cwd=folder, capture_output=True, text=True, check=True)
    path = folder / "out" / "all" / "score.musicxml"
    check(path)
    text = path.read_text()
    # Each must be found.
    for what, old, new in [
        ("a pitch of one part", "<step>G</step>", "<step>A</step>"),
        ("a transposition", "<chromatic>-7</chromatic>", "<chromatic>-5</chromatic>"),
    ]:
        assert old in text, what
        spoilt = folder / "spoilt.musicxml"
        at = text.rindex(old) if "part" in what else text.index(old)
        spoilt.write_text(text[:at] + new + text[at + len(old) :])
        try:
            check(spoilt)
        except Different:
            continue
        sys.exit(f"{what} was spoilt and not found")
    print("the score of a group agrees with its routine and between its parts")


if __name__ == "__main__":
    main()
