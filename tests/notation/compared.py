"""Holds an adopted routine against the notes that music21 finds: every difference must be listed among what was not kept.

A difference is listed if a row of the list names its bar, or no bar and so the whole, and says something of notes.
"""

import collections
import re
from dataclasses import dataclass
from fractions import Fraction

import routine

# Rows of the list that say what became of a note: its key, its length, its moment, or that it is not there.
OCTAVE = re.compile(r"lies (above|below) the")
OF_NOTES = re.compile(
    r"uneven groups|only the highest|is a rest|are rests|half step below|comes again|"
    r"tie|jump|jumps|repeat|ending|not played|too short|another instrument|percussion|shorter than|moved to|"
    r"mode of the key|overlap|without a length|small notes"
)


@dataclass
class Difference:
    bar: str
    what: str
    octave: bool = False
    # The bar of the note before it, if the two do not lie as far apart as they should: either may have been moved.
    before: str | None = None


def ours(path):
    """Line, start and length in quarters, and key of each note of a routine."""
    _, lines = routine.read(path)
    return [
        (index, (one.start + note.start) * 4, note.length * 4, note.pitch)
        for index, line in enumerate(lines)
        for one in line.passes
        for note in passed(one)
        if note.pitch is not None
    ]


def passed(one):
    """The notes of a pass, from its own start."""
    for note in one.notes:
        yield routine.Note(note.pitch, note.start - one.start, note.length)


def most(values):
    return collections.Counter(values).most_common(1)[0][0]


def same(a, b):
    """Lengths in a file may be rounded to its divisions."""
    return abs(a - b) < Fraction(1, 50)


def paired(found, wanted):
    """Pairs of a note of each, None where one has no such note, and the interval between the two."""
    if len(found) == len(wanted):
        by = most(a[3] - b.pitch for a, b in zip(found, wanted))
        return list(zip(found, wanted)), by
    # Where one has notes that the other has not, what comes after them is alike again.
    by = max(range(-36, 37), key=lambda by: alike(found, wanted, by, 0, 0, 200))
    pairs, i, j = [], 0, 0
    while i < len(found) and j < len(wanted):
        if alike(found, wanted, by, i, j, 1) < 1:
            skips = ((n - m, m) for n in range(1, 61) for m in range(n + 1))
            more = next((s for s in skips if alike(found, wanted, by, i + s[0], j + s[1], 6) > 5), None)
            if more:
                pairs += [(one, None) for one in found[i : i + more[0]]]
                pairs += [(None, one) for one in wanted[j : j + more[1]]]
                i, j = i + more[0], j + more[1]
                continue
        pairs.append((found[i], wanted[j]))
        i, j = i + 1, j + 1
    pairs += [(one, None) for one in found[i:]] + [(None, one) for one in wanted[j:]]
    return pairs, by


def alike(found, wanted, by, i, j, count):
    """How many of the next notes have the same key, but for whole octaves."""
    pairs = zip(found[i : i + count], wanted[j : j + count])
    return sum((a[3] - b.pitch - by) % 12 == 0 for a, b in pairs) + (
        0.001 * sum(a[3] - b.pitch == by for a, b in zip(found[:count], wanted[:count])) if count > 6 else 0
    )


def differences(found, wanted):
    """Every place where a routine's notes are not those that are wanted."""
    if not found or not wanted:
        return [Difference(one.bar, "nothing of it") for one in wanted] or ([Difference("", "all")] if found else [])
    pairs, by = paired(found, wanted)
    of_line = collections.defaultdict(list)
    for a, b in pairs:
        if a and b and b.length:
            of_line[a[0]].append(a[2] / b.length)
    ratios = {line: most(all) for line, all in of_line.items()}
    told, before, bar = [], None, wanted[0].bar
    for a, b in pairs:
        bar = b.bar if b else bar
        if a is None:
            told.append(Difference(bar, "is missing"))
        elif b is None:
            told.append(Difference(bar, "is not in the file"))
        else:
            moved = a[3] - b.pitch - by
            ratio = ratios[a[0]]
            if moved:
                told.append(Difference(bar, f"moved by {moved}", moved % 12 == 0))
            if not same(a[2], b.length * ratio):
                told.append(Difference(bar, f"lasts {a[2] / ratio}, not {b.length}"))
            elif before and before[0][0] == a[0] and not same(
                a[1] - before[0][1], (b.start - before[1].start) * ratio
            ):
                gap = (a[1] - before[0][1]) / ratio
                what = f"begins {gap} after the one before, not {b.start - before[1].start}"
                told.append(Difference(bar, what, before=before[1].bar))
        before = (a, b) if a and b else None
    return told


def rows(stderr):
    """What was not kept, in whole rows."""
    found = []
    for row in stderr.split("Not kept")[-1].split("\n")[1:] if "Not kept" in stderr else []:
        if row.startswith("- "):
            found.append(row[2:])
        elif row.startswith("  ") and found:
            found[-1] += f" {row.strip()}"
        else:
            break
    return found


def split(row):
    """The bars that a row names, and what it says; of many bars only the first are named, and then all are meant."""
    match = re.match(r"(?:line \d+ “.*?”(?:, )?)?(?:bars? ([^:]*))?: (.*)", row)
    if not match or match.group(1) is None:
        return None, re.sub(r"^line \d+ “.*?”: ", "", row)
    bars, what = match.groups()
    if "more" in bars:
        return None, what
    return set(re.split(r", | and ", bars)), what


def unlisted(told, listed, numbered=True):
    """The differences that no row of the list is about. Bars of ABC have no numbers, which everyone counts as they will."""
    taken = [split(row) for row in listed]

    def is_listed(difference):
        pattern = OCTAVE if difference.octave else OF_NOTES
        return any(
            pattern.search(what) and (bars is None or not numbered or bars & {difference.bar, difference.before})
            for bars, what in taken
        )

    return [one for one in told if not is_listed(one)]
