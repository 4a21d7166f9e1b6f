"""From the text of a routine to what should be heard and when.

Worked out from the written meaning of the format in exact fractions, knowing nothing of leadpipe's
code: TOML by Python's own reader, pitch names by librosa. Only what routine.toml uses is understood;
anything else stops the check rather than being passed over.
"""

import copy
import math
import re
import tomllib
from dataclasses import dataclass, field
from fractions import Fraction

import librosa

VALUES = {
    "whole": Fraction(1),
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "eighth": Fraction(1, 8),
    "sixteenth": Fraction(1, 16),
}
# Half steps that a tube lies below the open horn: the first valve two, the second one, the third three.
TUBES = {"0": 0, "2": 1, "1": 2, "1-2": 3, "2-3": 4, "1-3": 5, "1-2-3": 6}
# A trumpet in B-flat sounds a whole tone below what is written.
TRANSPOSITION = -2
LEAD_IN = Fraction(1, 2)
FADE = Fraction(3, 10)
SHORTEST_SILENCE = Fraction(1, 2)
# Signs: in rests longer than 8 s, horn up 6 s before the next note and 2 s or more after horn down.
SIGNED_REST, UP_BEFORE, SIGNS_APART, SIGN = 8, 6, 2, Fraction(3, 5)


@dataclass
class Note:
    """A note that sounds, in seconds from its line's start."""

    start: Fraction
    end: Fraction
    midi: int
    slurred: bool


@dataclass
class Held:
    start: Fraction
    end: Fraction
    midi: int


@dataclass
class Breath:
    start: Fraction
    end: Fraction
    inward: bool


@dataclass
class Line:
    """A line; `start` is from the beginning of the track, all else from there."""

    label: str
    start: Fraction
    length: Fraction = Fraction(0)
    clicks: list = field(default_factory=list)  # (seconds, accented)
    notes: list = field(default_factory=list)
    drone: list = field(default_factory=list)
    breaths: list = field(default_factory=list)
    signs: list = field(default_factory=list)  # (seconds from the track's beginning, rising)

    def frame(self, seconds, rate):
        """The line's first frame is rounded once, all inside relative to it; halves go up."""
        return nearest(self.start * rate) + nearest(seconds * rate)


def nearest(exact):
    return math.floor(exact + Fraction(1, 2))


@dataclass
class Meter:
    bar: Fraction
    click: Fraction

    @staticmethod
    def read(text):
        beats, unit = (int(part) for part in text.split("/"))
        compound = unit == 8 and beats in (6, 9, 12)
        return Meter(Fraction(beats, unit), Fraction(3, 8) if compound else Fraction(1, unit))


def tokens(text):
    """(name, number of its slur or 0, value) of every note, rest and breathing action."""
    found, slurs, slur = [], 0, 0
    for word in text.split():
        if word == "slur(":
            slurs += 1
            slur = slurs
        elif word == ")":
            slur = 0
        elif word != "|" and not re.fullmatch(r"\[[0-3-]+\]", word):
            name, value = word.split(":")
            dot = Fraction(3, 2) if value.endswith(".") else 1
            found.append((name, slur, VALUES[value.rstrip(".")] * dot))
    return found


class Track:
    """All that should be heard at one tempo (a fraction of what is written) and key."""

    def __init__(self, text, tempo=Fraction(1), key=0):
        # Floats of the file as exact decimals.
        routine = tomllib.loads(text, parse_float=Fraction)
        if routine["instrument"] != "trumpet in B-flat":
            raise ValueError("only the trumpet in B-flat is understood here")
        self.lines = []
        start, owed, before = LEAD_IN, Fraction(0), None
        for number, written in enumerate(routine["line"], start=1):
            meter = Meter.read(written.get("meter", routine["meter"]))
            clicks_a_minute = Fraction(written.get("tempo", routine["tempo"])) * tempo
            seconds = 60 / (clicks_a_minute * meter.click)  # of a whole note
            count_in_bars = math.ceil(4 / (meter.bar / meter.click))
            count_in = count_in_bars * meter.bar * seconds
            if before is not None:
                rest = max(before[0], count_in + SHORTEST_SILENCE)
                end = self.lines[-1].start + self.lines[-1].length
                start = end + rest - count_in
            line = Line(f"{number} {written['name']}", start)
            played = self._passes(line, written, meter, seconds, count_in, key, owed)
            if before is not None and rest > SIGNED_REST:
                self._sign(line, end + FADE)
            self.lines.append(line)
            rest, owed = self._rest(written["rest"], played, meter.bar * seconds)
            before = (rest,)
        self.length = self.lines[-1].start + self.lines[-1].length + FADE

    def copy(self):
        return copy.deepcopy(self)

    @staticmethod
    def _rest(text, owed, bar):
        """Its seconds, and what is owed after it: a rest longer than nothing pays all."""
        if text == "none":
            return Fraction(0), owed
        if text == "same":
            return math.ceil(owed / bar) * bar, Fraction(0)
        number, unit = text.split()
        return Fraction(number) * {"s": 1, "bars": bar}[unit], Fraction(0)

    @staticmethod
    def _passes(line, written, meter, seconds, count_in, key, owed):
        on, events = written.get("on", "horn"), tokens(written.get("notes") or written["open"])
        fingered = "[" in written.get("notes", "")
        if "tubes" in written:
            moves = [-TUBES[tube] for tube in written["tubes"]]
        else:
            shift = 0 if fingered and on == "horn" else key
            moves = [n + shift for n in written.get("half_steps", [0])]
        articulations = written.get("articulation", ["as written"])
        if isinstance(articulations, str):
            articulations = [articulations]
        passes = [
            (move, articulation)
            for move in moves
            for _ in range(written.get("times", 1))
            for articulation in articulations
        ]
        bar = meter.bar * seconds
        length = math.ceil(sum(e[2] for e in events) * seconds / bar) * bar
        now = count_in
        for i, (move, articulation) in enumerate(passes):
            at, last = now, None  # last: pitch and slur of the note just before
            for name, slur, value in events:
                end = at + value * seconds
                note = None
                if name in ("in", "out"):
                    line.breaths.append(Breath(at, end, name == "in"))
                elif name not in ("rest", "hold"):
                    note = (int(librosa.note_to_midi(name)) + move, slur)
                    joins = {
                        "as written": slur > 0 and last is not None and last[1] == slur,
                        "slurred": last is not None,
                        "tongued": False,
                    }[articulation]
                    # The same pitch again is tongued even in a slur.
                    joins = joins and last[0] != note[0]
                    line.notes.append(Note(at, end, note[0] + TRANSPOSITION, joins))
                last, at = note, end
            now, owed = now + length, owed + length
            if on != "air":
                # Heard from the count-in on; it moves to the next pass's pitch where this one ends.
                begin = line.drone[-1].end if line.drone else Fraction(0)
                line.drone.append(Held(begin, now, Track._drone(written, move)))
            if i + 1 < len(passes):
                between, owed = Track._rest(written.get("between", "same"), owed, bar)
                now += between
        line.length = now
        beat = meter.click * seconds
        a_bar = meter.bar / meter.click
        line.clicks = [(n * beat, n % a_bar == 0) for n in range(math.ceil(now / beat))]
        return owed

    @staticmethod
    def _drone(written, move):
        """A pitch named for it, or the key note in the lowest octave from concert B-flat 2 upwards."""
        if "drone" in written:
            return int(librosa.note_to_midi(written["drone"]))
        first = next(e[0] for e in tokens(written.get("notes") or written["open"]))
        # Of a line on tubes the second partial of the tube, which on the open horn is C4.
        key_note = librosa.note_to_midi("C4" if "tubes" in written else first)
        lowest = int(librosa.note_to_midi("Bb2"))
        return lowest + (int(key_note) + move + TRANSPOSITION - lowest) % 12

    @staticmethod
    def _sign(line, down):
        up = line.start + line.notes[0].start - UP_BEFORE
        if up >= down + SIGNS_APART and up + SIGN <= line.start:
            line.signs = [(down, False), (up, True)]
