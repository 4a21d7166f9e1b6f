"""Exported files against the routines they were made of: MusicXML by the W3C's schema and by music21, MIDI by mido and by
music21. Then one thing after another is spoilt in a file, and each must be found.

Run as `python exported.py LEADPIPE FOLDER`.
"""

import functools
import re
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from itertools import repeat
from pathlib import Path

import mido
import music21
import musicxml
import xmlschema

import routine

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
VALUES = {"staccato": "staccato", "legato": "tenuto", "accent": "accent"}


@functools.cache
def schema():
    carried = Path(musicxml.__file__).parent / "generate_classes"
    local = {
        "http://www.musicxml.org/xsd/xml.xsd": str(carried / "xml.xsd"),
        "http://www.musicxml.org/xsd/xlink.xsd": str(HERE / "xlink.xsd"),
    }
    return xmlschema.XMLSchema(str(carried / "musicxml_4_0.xsd"), uri_mapper=lambda uri: local.get(uri, uri))


class Different(Exception):
    pass


def same(what, ours, theirs):
    if ours != theirs:
        raise Different(f"{what}: {ours} should be {theirs}")


def exact(quarters):
    """Another library's moments, which may be floating-point numbers."""
    return Fraction(quarters).limit_denominator(960)


def expected(line):
    """Notes of a line as a reader of notation finds them: quarters from the line's beginning."""
    found = []
    for one in line.passes:
        before = None
        for note in one.notes:
            if note.word not in ("rest",):
                found.append((note, before))
            before = note
    return found


def slurred_pairs(part):
    """Ids of notes that a slur joins to the note before them."""
    joined = set()
    notes = [n for n in part.flatten().notes]
    place = {id(n): i for i, n in enumerate(notes)}
    for slur in part.recurse().getElementsByClass("Slur"):
        ends = slur.getSpannedElements()
        first, last = place[id(ends[0])], place[id(ends[-1])]
        for note in notes[first + 1 : last + 1]:
            if note.tie is None or note.tie.type == "start":
                joined.add(id(note))
    return joined


def xml(path, written, lines, all_fingerings):
    score = music21.converter.parse(path, forceSource=True)
    same("parts", len(score.parts), 1)
    part = score.parts[0]
    half_steps = routine.TRANSPOSITIONS[written["instrument"]]
    pitched = lambda stream: [n.pitch.midi for n in stream.flatten().notes if hasattr(n, "pitch")]
    moved = {b - a for a, b in zip(pitched(part), pitched(part.toSoundingPitch()))}
    same("transposition", moved, {half_steps})
    same("title", score.metadata.title, written["title"])
    marks = list(part.recurse().getElementsByClass("RehearsalMark"))
    same("names", [m.content for m in marks], [l.name for l in lines])
    starts = [exact(m.getOffsetInHierarchy(part)) for m in marks]
    ends = starts[1:] + [exact(part.highestTime)]
    joined = slurred_pairs(part)
    flat = list(part.flatten().notes)
    tempos = [(exact(t.getOffsetInHierarchy(part)), t) for t in part.recurse().getElementsByClass("MetronomeMark")]
    for number, line in enumerate(lines):
        at = f"line {number + 1}"
        heads = [n for n in flat if starts[number] <= exact(n.getOffsetInHierarchy(part)) < ends[number]]
        found = []
        for head in heads:
            if head.tie is not None and head.tie.type in ("stop", "continue"):
                found[-1][2] += exact(head.quarterLength)
                found[-1][3].append(head)
            else:
                start = exact(head.getOffsetInHierarchy(part)) - starts[number]
                found.append([head, start, exact(head.quarterLength), [head]])
        wanted = expected(line)
        same(f"{at}, notes", len(found), len(wanted))
        for (head, start, length, all_heads), (note, before) in zip(found, wanted):
            where = f"{at}, {note.word} at {note.start}"
            same(f"{where}, start", start, note.start * 4)
            same(f"{where}, length", length, note.length * 4)
            if note.pitch is None:
                same(f"{where}, breathing", head.lyric, note.word)
                continue
            same(f"{where}, pitch", head.pitch.midi, note.pitch)
            same(f"{where}, slur", id(head) in joined, note.joined)
            signs = {a.name for h in all_heads for a in h.articulations}
            same(f"{where}, breath", "breath mark" in signs, note.breath)
            styles = {VALUES[m] for m in note.marks if m in VALUES}
            same(f"{where}, signs", signs & set(VALUES.values()), styles)
            fingerings = [a for a in head.articulations if isinstance(a, music21.articulations.Fingering)]
            if note.fingering is None:
                same(f"{where}, fingerings", fingerings, [])
            else:
                usual = routine.FINGERINGS[note.pitch - routine.LOWEST]
                if all_fingerings or note.fingering != usual:
                    same(f"{where}, fingering", [str(f.fingerNumber) for f in fingerings], [note.fingering])
                    same(f"{where}, alternate", bool(fingerings[0].alternate), note.fingering != usual)
        # What the metronome says, in quarters.
        quarter = line.tempo * routine.click_of(line.meter) * 4
        here = [t for offset, t in tempos if offset == starts[number]]
        same(f"{at}, tempo", [round(t.getQuarterBPM(), 3) for t in here][:1], [round(float(quarter), 3)])
        if number + 1 < len(lines):
            rest = ends[number] - starts[number] - line.length * 4
            same(f"{at}, rest", rest, rest_after(line) * 4)


def rest_after(line):
    """Whole bars after a line, in whole notes; no line here passes a rest on."""
    passes = line.passes
    owed = passes[-1].length if line.between != "none" else sum(p.length for p in passes)
    return routine.rest_length(line.after, owed, line.meter, line.tempo)


def seconds(line, wholes):
    return float(wholes / routine.click_of(line.meter) * 60 / line.tempo)


def count_in(line):
    """Whole notes: the fewest bars that hold four clicks."""
    clicks = routine.bar_of(line.meter) / routine.click_of(line.meter)
    return -(-4 // clicks) * routine.bar_of(line.meter)


def starts_of(lines):
    """Seconds from the track's beginning to each line's first beat."""
    found, now = [], 0.5 + seconds(lines[0], count_in(lines[0]))
    for index, line in enumerate(lines):
        found.append(now)
        if index + 1 == len(lines):
            break
        unit = re.match(r"([\d.]+)\s*(\w+)", line.after)
        if unit and unit.group(2) == "s":
            rest = float(unit.group(1))
        elif unit and unit.group(2).startswith("beat"):
            rest = seconds(line, Fraction(unit.group(1)) * routine.click_of(line.meter))
        else:
            rest = seconds(line, rest_after(line))
        least = seconds(lines[index + 1], count_in(lines[index + 1])) + 0.5
        now += seconds(line, line.length) + max(rest, least)
    return found


def midi(path, written, lines):
    file = mido.MidiFile(path)
    same("format", (file.type, file.ticks_per_beat), (1, 960))
    same("tracks", [t.name for t in file.tracks[1:]], ["guide", "click", "drone"])
    tempos, now = [], 0
    names = []
    for message in file.tracks[0]:
        now += message.time
        if message.type == "set_tempo":
            tempos.append((now, message.tempo))
        if message.type == "marker":
            names.append(message.text)
    same("markers", names, [l.name for l in lines])

    def at(tick):
        total = 0.0
        for index, (start, tempo) in enumerate(tempos):
            end = tempos[index + 1][0] if index + 1 < len(tempos) else tick
            if tick > start:
                total += (min(end, tick) - start) * tempo / 1e6 / 960
        return total

    struck, everything, now = [], [], 0
    for message in file.tracks[1]:
        now += message.time
        if message.type == "note_on" and message.velocity:
            everything.append((now, message.note))
            # Breathing has a channel of its own.
            if message.channel == 0:
                struck.append((now, message.note))
    half_steps = routine.TRANSPOSITIONS[written["instrument"]]
    wanted = []
    for line, start in zip(lines, starts_of(lines)):
        for note, _ in expected(line):
            if note.pitch is not None:
                wanted.append((start + seconds(line, note.start), note.pitch + half_steps))
    same("notes", len(struck), len(wanted))
    for (tick, key), (time, pitch) in zip(struck, wanted):
        same(f"key at {time:.3f} s", key, pitch)
        if abs(at(tick) - time) > 0.001:
            raise Different(f"key {key} at {at(tick):.4f} s should be at {time:.4f} s")
    # Another reader, by its own way of counting, breathing included.
    score = music21.converter.parse(path, forceSource=True, quantizePost=False)
    guides = [p for p in score.parts if p.partName == "guide"]
    same("guides", len(guides), 1)
    # It ties what crosses its bar lines.
    notes = [n for n in guides[0].flatten().notes if n.tie is None or n.tie.type == "start"]
    heard = [(float(n.getOffsetInHierarchy(score)), n.pitch.midi) for n in notes]
    same("notes of another reader", len(heard), len(everything))
    for (offset, pitch), (tick, key) in zip(sorted(heard), sorted(everything)):
        same(f"pitch at {offset}", pitch, key)
        same(f"offset {offset}", abs(offset - tick / 960) < 0.002, True)


def export(leadpipe, source, folder, *more):
    command = [leadpipe, "export", str(source), "--to", "musicxml,midi", "--out", str(folder), *more]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return [Path(row) for row in done.stdout.splitlines()]


SPOILT = [
    ("a pitch", "<octave>4</octave>", "<octave>5</octave>"),
    ("a slur", '<slur type="start" number="1"/>', ""),
    ("a fingering", '<fingering alternate="yes">1-3', '<fingering alternate="yes">1-2-3'),
    ("alternate", ' alternate="yes"', ""),
    ("a breath", "<breath-mark>comma</breath-mark>", ""),
    ("the transposition", "<chromatic>-2</chromatic>", "<chromatic>-3</chromatic>"),
    ("a name", "<rehearsal>Signs", "<rehearsal>Sings"),
    ("a tempo", "<per-minute>61.25", "<per-minute>61"),
    ("a staccato", "<staccato/>", "<tenuto/>"),
    ("breathing", "<text>in</text>", "<text>out</text>"),
]


def spoil(path, written, lines, folder):
    text = path.read_text()
    for what, old, new in SPOILT:
        assert old in text, what
        spoilt = folder / "spoilt.musicxml"
        changed = text.replace(old, new, 1)
        if what == "a slur":
            changed = changed.replace('<slur type="stop" number="1"/>', "", 1)
        if what == "a tempo":
            changed = changed.replace('tempo="61.25"', 'tempo="61"', 1)
        spoilt.write_text(changed)
        try:
            xml(spoilt, written, lines, True)
        except Different as found:
            print(f"  spoilt {what}: {found}")
        else:
            raise SystemExit(f"{what} was spoilt and nobody noticed")


def of_source(leadpipe, folder, source):
    """Exports a routine in both ways, and says what was found in it."""
    written, lines = routine.read(source)
    for fingerings in ("all", "unusual"):
        out = folder / f"{source.parent.name}-{source.stem}-{fingerings}"
        notation, played = export(leadpipe, source, out, "--fingerings", fingerings)
        schema().validate(str(notation))
        try:
            xml(notation, written, lines, fingerings == "all")
            if fingerings == "all":
                midi(played, written, lines)
        except Different as found:
            raise SystemExit(f"{source.name}: {found}")
    count = sum(len(expected(line)) for line in lines)
    return f"{source.parent.name}/{source.name}: {len(lines)} lines, {count} notes, valid and the same"


def main():
    leadpipe, folder = sys.argv[1], Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    spoilt = HERE / "routine.toml"
    # routine.py knows the fingerings of a trumpet; group.py looks at other instruments.
    built_in = [one for one in sorted((ROOT / "presets").glob("*.toml")) if '"trumpet in B-flat"' in one.read_text()]
    sources = [*built_in, ROOT / "tests/engraver/routine.toml", spoilt]
    with ProcessPoolExecutor(2) as pool:
        for said in pool.map(of_source, repeat(leadpipe), repeat(folder), sources):
            print(said, flush=True)
    notation = next((folder / f"{HERE.name}-{spoilt.stem}-all").glob("*.musicxml"))
    spoil(notation, *routine.read(spoilt), folder)


if __name__ == "__main__":
    main()
