"""What a routine says, worked out from the written meaning of its file in exact fractions; nothing of leadpipe's code
is known here.

A routine becomes its lines, a line its times through, a time through its notes.
"""

import re
import tomllib
from dataclasses import dataclass, field
from fractions import Fraction

VALUES = {"whole": 1, "half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
TUBES = {"0": 0, "2": 1, "1": 2, "1-2": 3, "3": 3, "2-3": 4, "1-3": 5, "1-2-3": 6}
# A published overtone chart of the trumpet, F#3 up to C6 by half steps.
LOWEST = 54
FINGERINGS = (
    "1-2-3 1-3 2-3 1-2 1 2 0 1-2-3 1-3 2-3 1-2 1 2 0 2-3 1-2 1 2 0 1-2 1 2 0 1 2 0 2-3 1-2 1 2 0".split()
)
TRANSPOSITIONS = {"trumpet in B-flat": -2, "trumpet in C": 0, "cornet": -2, "flugelhorn": -2}
TOKEN = re.compile(r"slur\(|triplet\(|\)|\||[^\s()|]+(?:\[[^\]]*\]|\([a-z]+\)|\s+\[[^\]]*\]|\s+\([a-z]+\))*")


@dataclass
class Note:
    """A note, tied ones in one; a rest has no pitch."""

    pitch: int | None
    start: Fraction
    length: Fraction
    word: str = ""
    joined: bool = False
    bend: bool = False
    breath: bool = False
    fingering: str | None = None
    marks: set = field(default_factory=set)


def number(pitch):
    letter, accidental, octave = re.match(r"([A-G])([#b]?)(\d)", pitch).groups()
    return 12 * (int(octave) + 1) + LETTERS[letter] + {"#": 1, "b": -1, "": 0}[accidental]


def length_of(value):
    plain = Fraction(1, VALUES[value.rstrip(".")])
    return plain * Fraction(3, 2) if value.endswith(".") else plain


def notes(text, each):
    """Notes and rests of a line as written, with what joins them."""
    found, spans, slur, slurs = [], [], None, 0
    now = Fraction(0)
    slur_of_last = None
    # Without a length a note or rest has that of the line, or else of the one before it; a tie names its own.
    carried = None
    for word in TOKEN.findall(text):
        if word in ("slur(", "triplet("):
            spans.append(word)
            if word == "slur(":
                slurs += 1
                slur = slurs
            continue
        if word == ")":
            if spans.pop() == "slur(":
                slur = None
            continue
        if word == "breath":
            found[-1].breath = True
            continue
        if word in "| cresc dim pp p mp mf f ff".split():
            continue
        head = re.match(r"([A-G][#b]?\d|rest|tie|in|out|hold)(?::([a-z]+\.?))?", word)
        name, value = head.group(1), head.group(2) or each or carried
        if name != "tie":
            carried = value
        length = length_of(value) * (Fraction(2, 3) if "triplet(" in spans else 1)
        if name == "tie":
            found[-1].length += length
        else:
            pitched = name[0].isupper()
            note = Note(number(name) if pitched else None, now, length, name)
            before = found[-1] if found else None
            note.joined = (
                slur is not None
                and before is not None
                and slur_of_last == slur
                and not before.breath
                and before.pitch not in (None, note.pitch)
            )
            fingering = re.search(r"\[([^\]]*)\]", word)
            note.fingering = fingering.group(1) if fingering else None
            note.marks = set(re.findall(r"\(([a-z]+)\)", word))
            note.bend = "bend" in note.marks
            found.append(note)
        now += length
        slur_of_last = slur
    return found, now


@dataclass
class Pass:
    notes: list
    start: Fraction
    length: Fraction


@dataclass
class Line:
    """A line at one tempo, with the words for the rests between its passes and after it."""

    name: str
    meter: tuple
    tempo: Fraction
    passes: list
    length: Fraction
    between: str
    after: str


def bar_of(meter):
    beats, unit = meter
    return Fraction(beats, unit)


def click_of(meter):
    beats, unit = meter
    return Fraction(3, 8) if unit == 8 and beats in (6, 9, 12) else Fraction(1, unit)


def rest_length(words, owed, meter, tempo):
    """A rest in whole notes, up to a bar line; `owed` in whole notes of this line."""
    bar = bar_of(meter)
    if words == "none":
        length = Fraction(0)
    elif words == "same":
        length = owed
    else:
        count, unit = re.match(r"([\d.]+)\s*([a-z]+)", words).groups()
        count = Fraction(count)
        if unit.startswith("bar"):
            length = count * bar
        elif unit.startswith("beat"):
            length = count * click_of(meter)
        else:
            length = count * tempo / 60 * click_of(meter)
    return -(-length // bar) * bar


def played(note, before, articulation):
    """Whether it is joined to the note before."""
    if before is None or before.pitch is None or note.pitch is None or before.breath:
        return False
    if note.bend:
        return True
    if articulation == "slurred":
        return before.pitch != note.pitch
    return note.joined if articulation == "as written" else False


def passes(line, meter, tempo):
    text = line.get("open") or line["notes"]
    written, length = notes(text, line.get("each"))
    bar = bar_of(meter)
    length = -(-length // bar) * bar
    walk = (
        [(-TUBES[t], t) for t in line["tubes"]]
        if "open" in line
        else [(n, None) for n in line.get("half_steps", [0])]
    )
    ways = line.get("articulation", ["as written"])
    ways = [ways] if isinstance(ways, str) else ways
    found, now, owed = [], Fraction(0), Fraction(0)
    for by, tube in walk:
        for _ in range(line.get("times", 1)):
            for way in ways:
                moved, before = [], None
                for note in written:
                    pitch = None if note.pitch is None else note.pitch + by
                    usual = FINGERINGS[pitch - LOWEST] if pitch is not None and line.get("on") is None else None
                    fingering = tube or note.fingering or usual
                    if note.bend:
                        fingering = moved[-1].fingering
                    moved.append(
                        Note(
                            pitch,
                            now + note.start,
                            note.length,
                            note.word,
                            played(note, before, way),
                            note.bend,
                            note.breath,
                            fingering if line.get("on") is None else None,
                            note.marks,
                        )
                    )
                    before = note
                found.append(Pass(moved, now, length))
                owed += length
                now += length
                between = line.get("between", "same")
                now += rest_length(between, owed, meter, tempo)
                if between != "none":
                    owed = Fraction(0)
    # After the last time there is no rest between.
    end = found[-1].start + length
    return found, end


def read(path):
    """The routine as TOML, and its lines."""
    with open(path, "rb") as file:
        routine = tomllib.load(file, parse_float=Fraction)
    lines = []
    for line in routine["line"]:
        beats, unit = (int(n) for n in line.get("meter", routine.get("meter", "4/4")).split("/"))
        tempos = line.get("tempo", routine["tempo"])
        tempos = tempos if isinstance(tempos, list) else [tempos]
        between, rest = line.get("between", "same"), line.get("rest", "same")
        # At several tempos it is played once at each, with the rest between its passes from one to the next.
        for place, tempo in enumerate(map(Fraction, tempos), 1):
            all_passes, end = passes(line, (beats, unit), tempo)
            after = rest if place == len(tempos) else between
            lines.append(Line(line["name"], (beats, unit), tempo, all_passes, end, between, after))
    return routine, lines
