"""That the check can fail: one thing at a time is written or heard otherwise, and has to be found."""

import copy
import dataclasses
from fractions import Fraction

from judge import SUBJECTS
from written import Breath


def with_line(number, change):
    """A spoiler that changes one line of what is written."""

    def spoil(track, sound):
        track = track.copy()
        change(track.lines[number])
        return track, sound

    return spoil


def with_sound(change):
    """A spoiler that changes what is heard."""

    def spoil(track, sound):
        sound = dataclasses.replace(sound, parts=dict(sound.parts), cues=copy.deepcopy(sound.cues))
        change(sound)
        return track, sound

    return spoil


def assign(of, **values):
    for name, value in values.items():
        setattr(of, name, value)


def later(line, frames):
    """The line's third click by so many frames of 44.1 kHz."""
    at, accented = line.clicks[2]
    line.clicks[2] = (at + Fraction(frames, 44100), accented)


def swap_accent(line):
    line.clicks[1] = (line.clicks[1][0], not line.clicks[1][1])


def move_note(line, seconds):
    note = line.notes[1]
    note.start += Fraction(seconds)
    line.notes[0].end = note.start


def add_to(sound, part, frame, steps):
    sound.parts[part] = sound.parts[part].copy()
    sound.parts[part][frame] += steps / 32768


def detune(sound, name, by_cents):
    setattr(sound, name, getattr(sound, name) * 2 ** (by_cents / 1200))


def breathe(line):
    note = line.notes[4]
    line.breaths = [Breath(note.start, note.end, True)]


# Subject that must complain, and what was done.
SPOILERS = [
    ("length", "a beat more", with_line(-1, lambda l: assign(l, length=l.length + Fraction(1)))),
    ("stems", "three steps too much in the drone", with_sound(lambda s: add_to(s, "drone", 90000, 3))),
    (
        "cues",
        "a frame later",
        with_sound(lambda s: assign(s.cues["mix"][2], frame=s.cues["mix"][2].frame + 1)),
    ),
    ("cues", "a shorter region", with_sound(lambda s: assign(s.cues["guide"][1], frames=1))),
    ("cues", "another label", with_line(3, lambda l: assign(l, label="4 Else"))),
    ("clicks", "one frame later", with_line(1, lambda l: later(l, 1))),
    ("clicks", "another accent", with_line(2, swap_accent)),
    ("clicks", "one not written", with_line(4, lambda l: l.clicks.pop())),
    ("click_onsets", "20 ms later", with_line(0, lambda l: later(l, 882))),
    ("click_onsets", "one not written", with_line(3, lambda l: l.clicks.pop())),
    ("signs", "the wrong way", with_line(2, lambda l: assign(l, signs=[(at, not up) for at, up in l.signs]))),
    ("signs", "none written", with_line(2, lambda l: assign(l, signs=[]))),
    (
        "signs",
        "20 ms later",
        with_line(2, lambda l: assign(l, signs=[(at + Fraction(1, 50), up) for at, up in l.signs])),
    ),
    ("note_onsets", "50 ms later", with_line(1, lambda l: move_note(l, "0.05"))),
    ("note_onsets", "one not written", with_line(4, lambda l: l.notes.pop(3))),
    ("changes", "40 ms later", with_line(3, lambda l: move_note(l, "0.04"))),
    ("changes", "a leap the other way", with_line(1, lambda l: assign(l.notes[2], midi=l.notes[3].midi - 4))),
    ("pitches", "half a step higher", with_line(1, lambda l: assign(l.notes[3], midi=l.notes[3].midi + 1))),
    ("pitches", "an octave lower", with_line(4, lambda l: assign(l.notes[0], midi=l.notes[0].midi - 12))),
    ("pitches", "5 cents higher", with_sound(lambda s: detune(s, "guide_hz", 5))),
    ("pitches", "20 cents lower", with_sound(lambda s: detune(s, "guide_coarse_hz", -20))),
    ("joins", "tongued in place of slurred", with_line(3, lambda l: assign(l.notes[1], slurred=False))),
    ("joins", "slurred in place of tongued", with_line(2, lambda l: assign(l.notes[4], slurred=True))),
    ("silence", "one step in a count-in", with_sound(lambda s: add_to(s, "guide", 30000, 1))),
    ("silence", "a rest in place of a note", with_line(1, lambda l: l.notes.pop(7))),
    ("breaths", "in for out", with_line(0, lambda l: [assign(b, inward=not b.inward) for b in l.breaths])),
    ("breaths", "a tone for noise", with_line(1, lambda l: breathe(l))),
    ("drone", "half a step lower", with_line(2, lambda l: assign(l.drone[0], midi=l.drone[0].midi - 1))),
    ("drone", "2 cents higher", with_sound(lambda s: detune(s, "drone_hz", 2))),
    ("loudness", "half as loud", with_sound(lambda s: assign(s, lufs=s.lufs - 6))),
]


def unseen(track, sound):
    """What was spoilt and not found."""
    subjects = {subject.__name__: subject for subject in SUBJECTS}
    for name, what, spoil in SPOILERS:
        if not list(subjects[name](*spoil(track, sound))):
            yield f"{name}: {what} is not found"
    for name in subjects.keys() - {name for name, _, _ in SPOILERS}:
        yield f"{name}: nothing was spoilt"
