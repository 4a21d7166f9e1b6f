"""What music21 finds in a file: for each player the notes in the order in which they are played."""

import math
import re
import warnings
from dataclasses import dataclass
from fractions import Fraction

import music21

import players

warnings.simplefilter("ignore")


@dataclass
class Sound:
    """A note, tied ones in one: the number of its bar, its start and length in quarters, its key."""

    bar: str
    start: Fraction
    length: Fraction
    pitch: int
    tied: bool = False


def exact(number):
    return Fraction(number).limit_denominator(20_160)


def part_of(score, player):
    """The part, or the staff of it; music21 counts the staves of a part as parts of their own, one after the other."""
    grouped = []
    for part in score.parts or [score]:
        staff = re.search(r"-Staff(\d+)$", str(part.id))
        if staff and int(staff.group(1)) > 1 and grouped:
            grouped[-1].append(part)
        else:
            grouped.append([part])
    staves = grouped[player.part] if player.part < len(grouped) else []
    place = (player.staff or 1) - 1
    return staves[place] if place < len(staves) else None


def has_repeats(part):
    """True if anything in it is played other than once in a row."""
    signs = (music21.bar.Repeat, music21.spanner.RepeatBracket, music21.repeat.RepeatMark)
    return any(isinstance(e, signs) for e in part.recurse()) or any(
        isinstance(side, music21.bar.Repeat)
        for measure in part.getElementsByClass(music21.stream.Measure)
        for side in (measure.leftBarline, measure.rightBarline)
    )


def begin_repeats(found, part, double):
    """A repeat that begins nowhere begins where the one before it ends, its last ending included: music21 would go back
    to the beginning. In ABC it begins at a double bar, too."""
    brackets = {m.number for b in part.recurse().getElementsByClass("RepeatBracket") for m in b.getSpannedElements()}
    is_open, pending, ended = False, None, False
    for place, measure in enumerate(found):
        begins = isinstance(measure.leftBarline, music21.bar.Repeat) and measure.leftBarline.direction == "start"
        if begins:
            is_open, pending, ended = True, None, False
        elif ended and measure.number not in brackets:
            pending, ended = place, False
        right = measure.rightBarline
        if isinstance(right, music21.bar.Repeat) and right.direction == "end":
            if pending is not None and not is_open:
                found[pending].leftBarline = music21.bar.Repeat(direction="start")
            is_open, pending, ended = False, None, True
        elif double and right is not None and right.type in ("double", "final", "heavy-light"):
            ended = ended or not is_open


def bound_signs(measure):
    """A sign that is said to stand after the end of its bar (`<offset>`) stands at its end: where repeats are written out,
    music21 would begin the next bar after the sign."""
    streams = [measure, *measure.voices]
    end = max((exact(n.offset) + exact(n.quarterLength) for s in streams for n in s.notesAndRests), default=None)
    for sign in list(measure.getElementsNotOfClass((music21.note.GeneralNote, music21.stream.Stream))):
        if end is not None and exact(sign.offset) > end:
            measure.setElementOffset(sign, end)


def measures(part, double):
    """Each measure as it is played, with its place in the part."""
    found = list(part.getElementsByClass(music21.stream.Measure))
    begin_repeats(found, part, double)
    if not found:
        return [(None, part)]
    for place, measure in enumerate(found):
        measure.editorial.place = place
    if has_repeats(part):
        for measure in found:
            bound_signs(measure)
        found = list(part.expandRepeats().getElementsByClass(music21.stream.Measure))
    return [(m.editorial.get("place"), m) for m in found]


def of_measure(measure, voice, voices):
    """Notes of one voice: those of its own stream, or of the measure if it is the only one in it."""
    streams = list(measure.voices)
    if not streams:
        return measure.notes if voice is None or voices is None or voice in voices or not voices else []
    return [n for s in streams if voice is None or str(s.id) == voice for n in s.notes] + (
        list(measure.notes) if voice is None else []
    )


def sounds(part, player=None, double=False):
    """The notes of a part, of one voice of it, repeats written out."""
    found = []
    for place, measure in measures(part, double):
        voices, bar = None, "1" if measure is part else str(measure.number)
        if player and place is not None and place < len(player.voices):
            voices, bar = player.voices[place], player.bars[place]
        here = []
        for note in of_measure(measure, player and player.voice, voices):
            if note.duration.isGrace or isinstance(note, music21.harmony.Harmony):
                continue
            # Another's notes are small; so are some of an editor's, which are played.
            small = any(one.style.noteSize == "cue" for one in [note, *getattr(note, "notes", ())])
            if small and player and player.has_cues:
                continue
            start = exact(0 if measure is part else measure.offset) + exact(note.getOffsetBySite(note.activeSite))
            pitch = max((p for p in getattr(note, "pitches", ())), key=lambda p: p.ps, default=None)
            if pitch is None or isinstance(note, music21.percussion.PercussionChord):
                continue
            tie = note.tie and note.tie.type
            if isinstance(note, music21.chord.Chord):
                highest = max(note.notes, key=lambda n: n.pitch.ps)
                tie = highest.tie and highest.tie.type
            here.append((start, exact(note.quarterLength), math.floor(pitch.ps), tie))
        for start, length, pitch, tie in sorted(here, key=lambda n: n[0]):
            before = found[-1] if found else None
            if tie in ("stop", "continue") and before and before.pitch == pitch and before.tied:
                before.length += length
                before.tied = tie == "continue"
            else:
                found.append(Sound(bar, start, length, pitch, tie in ("start", "continue")))
    return found


def read(path):
    """Every player of a file with the notes that music21 finds, or with a word on why it finds none."""
    score = music21.converter.parse(path, forceSource=True)
    for player in players.players(path):
        part = part_of(score, player)
        if part is None:
            yield player, None, "music21 has no such part"
            continue
        if players.has_jumps(path) and not list(part.recurse().getElementsByClass("RepeatExpressionCommand")):
            yield player, None, "music21 does not know its jumps (D.C., D.S.)"
            continue
        try:
            yield player, sounds(part, player), None
        except Exception as error:
            yield player, None, f"music21 cannot write its repeats out: {type(error).__name__}"


def plain(tune):
    """A tune without what says nothing of its notes' keys and lengths, for music21 trips over some of it: text, grace
    notes, slurs, signs at notes, repeats that share a bar line. What is left counts by the standard 2.1."""
    head, key, music = re.split(r"(?m)^(K:.*)$", tune, maxsplit=1)
    rows = []
    for row in music.split("\n"):
        if not re.match(r"[I-Zmrsw]:|%", row):
            row = re.sub(r'"[^"]*"|\{[^}]*\}|![A-Za-z0-9.<>()]+!', "", row)
            row = re.sub(r"\((?!\d)|\)|[uvTHLMOPS~`](?=[\^_=A-Ga-g(\[.uv])|\.(?![|])", "", row)
            # A tie keeps its accidental over a bar line, and between notes that are not one there is none.
            row = re.sub(r"([\^_=]+)([A-Ga-g][,']*)([\d/]*-\s*\|\s*)(?=\2(?![,']))", r"\1\2\3\1", row)
            row = re.sub(r"([<>]+)-", r"\1", row)
            row = row.replace("::", ":|\n|:")
        rows.append(row)
    return "%abc-2.1\n" + head + key + "\n".join(rows)


def tune(text):
    """The notes of a tune in ABC, or a word on why music21 finds none."""
    try:
        score = music21.converter.parse(plain(text), format="abc", forceSource=True)
        score = score.scores[0] if isinstance(score, music21.stream.Opus) else score
        return sounds((list(score.parts) or [score])[0], double=True), None
    except Exception as error:
        return None, f"music21 cannot read it: {type(error).__name__}"
