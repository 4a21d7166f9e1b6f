"""From the text of a routine to Humdrum **kern, an open text format for notation.

Worked out from the written meaning of the routine file, in exact fractions; nothing of leadpipe's code is
known here. Only heads matter: slurs, dynamics and marks are passed over.
"""

import dataclasses
import re
import tomllib
from dataclasses import dataclass
from fractions import Fraction

VALUES = {"whole": 1, "half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}
TUBES = {"0": 0, "2": 1, "1": 2, "1-2": 3, "3": 3, "2-3": 4, "1-3": 5, "1-2-3": 6}
# Letters on the line of fifths: a moved line keeps its intervals, and moves along it to where it has fewer accidentals.
FIFTHS = "FCGDAEB"
SIMPLE = range(-6, 11)
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
    found, open_spans, carried = [], [], None
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
            # Without `each` a length carries over, but not that of a tie.
            name, value = token.group(1), token.group(2) or each or carried
            carried = carried if name == "tie" else value
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


def parts(pitch):
    """Place on the line of fifths, C at 0, and number of a pitch."""
    letter, accidental, octave = re.match(r"([A-G])([#b]*)(\d)", pitch).groups()
    alter = accidental.count("#") - accidental.count("b")
    return FIFTHS.index(letter) - 1 + 7 * alter, 12 * int(octave) + LETTERS[letter] + alter


def named(fifths, number):
    letter, alter = FIFTHS[(fifths + 1) % 7], (fifths + 1) // 7
    octave = (number - alter - LETTERS[letter]) // 12
    return f"{letter}{'#' * alter}{'b' * -alter}{octave}"


def letter_of(fifths):
    return (fifths + 1) % 7


def other(fifths):
    return fifths - 12 if fifths > 2 else fifths + 12


def altered(before, this, after):
    """A neighbour or passing note with the letter of a note beside it, as in B-Bb-B."""
    figure = (this[1] - before[1], after[1] - this[1])
    steps = figure in [(1, -1), (1, 2), (-1, 1), (-1, -2), (2, 1), (-2, -1)]
    return steps and letter_of(this[0]) in (letter_of(before[0]), letter_of(after[0]))


def shifted(melody, by, steps):
    line = []
    for index, (fifths, number) in enumerate(melody):
        near = melody[max(index - 1, 0) : index] + melody[index + 1 : index + 2]
        run = any(letter_of(f) == letter_of(fifths) and f != fifths for f, _ in near)
        place = fifths + by
        if run and place not in SIMPLE and other(place) in SIMPLE:
            place = other(place)
        line.append((place, number + steps))
    for index in range(1, len(line) - 1):
        renamed = (other(line[index][0]), line[index][1])
        if -8 <= renamed[0] <= 12 and altered(line[index - 1], line[index], line[index + 1]):
            if not altered(line[index - 1], renamed, line[index + 1]):
                line[index] = renamed
    return line


def moved(pitches, steps, tonic):
    """The notes of a line, moved together."""
    if steps % 12 == 0:
        return [named(fifths, number + steps) for fifths, number in map(parts, pitches)]
    melody = [parts(pitch) for pitch in pitches]
    key = parts(tonic or pitches[0])[0]
    names = [fifths for fifths, _ in melody]
    if key - 3 in names and key + 4 not in names:
        key -= 3

    def cost(by):
        line = shifted(melody, by, steps)
        alters = [abs((fifths + 1) // 7) for fifths, _ in line]
        figures = sum(altered(*line[i : i + 3]) for i in range(len(line) - 2))
        return (sum(a if a < 2 else 4 for a in alters) + 4 * figures, abs(key + by), abs(by), -by)

    up = 7 * steps % 12
    return [named(*note) for note in shifted(melody, min([up, up - 12], key=cost), steps)]


def spelt(written, steps, tonic):
    """The pieces of a line with their pitches moved; a tied one has that of the one before."""
    names = iter(moved([p.pitch for p in written if p.pitch and not p.tied], steps, tonic))
    found, pitch = [], None
    for piece in written:
        if piece.pitch:
            pitch = pitch if piece.tied else next(names)
            piece = dataclasses.replace(piece, pitch=pitch)
        found.append(piece)
    return found


def kern_pitch(pitch):
    letter, accidental, octave = re.match(r"([A-G])([#b]*)(\d)", pitch).groups()
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
    tonic = line.get("tonic", "C4" if "open" in line else None)
    rows = ["**kern", "*clefG2", "*k[]", f"*M{beats}/{unit}", "=1-"]
    number = 1
    for place, steps in enumerate(walk):
        row, at = [], Fraction(0)
        for piece in spelt(pieces(text, line.get("each")), steps, tonic):
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
                rows.append(f"{start}{value}{kern_pitch(piece.pitch)}{end}")
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
