"""From the text of a routine to Humdrum **kern, an open text format for notation.

Worked out from the written meaning of the routine file, in exact fractions; nothing of leadpipe's code is
known here. Only heads matter: slurs, dynamics and marks are passed over.
"""

import re
import tomllib
from dataclasses import dataclass
from fractions import Fraction

VALUES = {"whole": 1, "half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}
TUBES = {"0": 0, "2": 1, "1": 2, "1-2": 3, "3": 3, "2-3": 4, "1-3": 5, "1-2-3": 6}
# A moved pitch is spelt as in the trumpet's fingering chart.
CHART = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
TOKEN = re.compile(r"(slur|triplet)\(|\)|\||\S+")
# What can be written as one note, longest first.
WRITABLE = [
    (Fraction(n, 2 * d), d, n == 3) for d in (1, 2, 4, 8, 16, 32, 64) for n in (3, 2)
]


@dataclass
class Piece:
    """A head or a rest: its length, its value as written, and whether it goes on from the one before."""

    pitch: str | None
    length: Fraction
    division: int
    dotted: bool
    triplet: bool
    tied: bool


def length_of(value):
    name, dot = (value[:-1], True) if value.endswith(".") else (value, False)
    return VALUES[name], dot


def pieces(text, each):
    """Heads and rests of a line, not yet cut at bar lines."""
    found, open_spans = [], []
    for match in TOKEN.finditer(text):
        word = match.group(0)
        if word in ("slur(", "triplet("):
            open_spans.append(match.group(1))
            continue
        # A bracket may close right behind a word.
        closing = 0
        while word.endswith(")") and word.count("(") < word.count(")"):
            word, closing = word[:-1], closing + 1
        token = re.match(r"^([A-G][#b]?\d|rest|tie|in|out|hold)(?::([a-z]+\.?))?(?:[\[(].*)?$", word)
        if token:
            name, value = token.group(1), token.group(2) or each
            division, dotted = length_of(value)
            length = Fraction(3 if dotted else 2, 2 * division)
            triplet = "triplet" in open_spans
            if triplet:
                length *= Fraction(2, 3)
            tied = name == "tie"
            pitch = found[-1].pitch if tied else None if name == "rest" else name
            found.append(Piece(pitch, length, division, dotted, triplet, tied))
        elif word and word not in "| breath cresc dim pp p mp mf f ff".split():
            raise ValueError(f"{word} is not understood")
        for _ in range(closing):
            open_spans.pop()
    return found


def moved(pitch, steps):
    if steps == 0:
        return pitch
    letter, accidental, octave = re.match(r"([A-G])([#b]?)(\d)", pitch).groups()
    number = 12 * int(octave) + LETTERS[letter] + {"#": 1, "b": -1, "": 0}[accidental] + steps
    return f"{CHART[number % 12]}{number // 12}"


def kern_pitch(pitch):
    letter, accidental, octave = re.match(r"([A-G])([#b]?)(\d)", pitch).groups()
    octave = int(octave)
    name = letter.lower() * (octave - 3) if octave >= 4 else letter * (4 - octave)
    return name + accidental.replace("b", "-")


def cut(piece, at, bar):
    """The piece in parts that end at bar lines."""
    end, parts = at + piece.length, []
    if at // bar == (end - Fraction(1, 1000)) // bar:
        return [piece]
    scale = Fraction(2, 3) if piece.triplet else Fraction(1)
    while at < end:
        stop = min(end, (at // bar + 1) * bar)
        left = (stop - at) / scale
        for length, division, dotted in WRITABLE:
            while left >= length:
                part = Piece(
                    piece.pitch, length * scale, division, dotted, piece.triplet, piece.tied or bool(parts)
                )
                parts.append(part)
                left -= length
        assert left == 0, piece
        at = stop
    return parts


def rests(length):
    """Silence in any values: rests are not compared."""
    found = []
    for step, division, dotted in WRITABLE:
        while length >= step:
            found.append(Piece(None, step, division, dotted, False, False))
            length -= step
    assert length == 0
    return found


def rest_in_halves(piece):
    value = f"{piece.division * 2}{'.' if piece.dotted else ''}r"
    return [value, value]


def passes_of(line):
    """Every half step or tube once, as (text of notes, half steps to move it by)."""
    if "open" in line:
        return line["open"], [-TUBES[tube] for tube in line["tubes"]]
    return line["notes"], line.get("half_steps", [0])


def kern(line, meter):
    """A line as **kern, or nothing for a line of breaths."""
    if line.get("on") == "air":
        return None
    beats, unit = (int(n) for n in meter.split("/"))
    bar = Fraction(beats, unit)
    text, walk = passes_of(line)
    rows = ["**kern", "*clefG2", "*k[]", f"*M{beats}/{unit}", "=1-"]
    number = 1
    for place, steps in enumerate(walk):
        row, at = [], Fraction(0)
        for piece in pieces(text, line.get("each")):
            for part in cut(piece, at, bar):
                row.append(part)
                at += part.length
        row.extend(rests(-at % bar))
        at = Fraction(0)
        for index, piece in enumerate(row):
            follows = row[index + 1].tied if index + 1 < len(row) else False
            value = piece.division * 3 // 2 if piece.triplet else piece.division
            value = f"{value}{'.' if piece.dotted else ''}"
            if piece.triplet and piece.division == 1:
                value = f"3%2{'.' if piece.dotted else ''}"
            if piece.pitch is None:
                # Whole bars of rest would be drawn as one rest of several bars.
                whole = piece.length == bar
                rows += [f"{value}r"] if not whole else rest_in_halves(piece)
            else:
                tie = {(True, True): "_", (True, False): "]", (False, True): "["}.get((piece.tied, follows), "")
                start, end = ("[", "") if tie == "[" else ("", tie)
                rows.append(f"{start}{value}{kern_pitch(moved(piece.pitch, steps))}{end}")
            at += piece.length
            if at % bar == 0:
                number += 1
                last = place + 1 == len(walk) and index + 1 == len(row)
                rows.append("==" if last else f"={number}")
    rows += ["*-", "!!!filter: autobeam"]
    return "\n".join(rows) + "\n"


def lines(path):
    """Number and **kern of each line of a routine that has pitches."""
    with open(path, "rb") as file:
        routine = tomllib.load(file)
    for number, line in enumerate(routine["line"], 1):
        text = kern(line, line.get("meter", routine.get("meter", "4/4")))
        if text:
            yield number, text
