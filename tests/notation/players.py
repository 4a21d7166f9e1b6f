"""Who plays what in a MusicXML file: its parts, their staves, and voices that sound at once. Read with Python's own XML
reader, so that nothing of leadpipe's code and nothing of music21's decides whom the two are asked for."""

import functools
import xml.etree.ElementTree as ElementTree
import zipfile
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass
class Player:
    """A part, one staff of it, one voice if there are several at once; the voices that each measure has, and its number."""

    part: int
    staff: int | None
    voice: str | None
    voices: list = field(default_factory=list)
    bars: list = field(default_factory=list)
    percussion: bool = False
    has_cues: bool = False


@functools.lru_cache(maxsize=1)
def root_of(path):
    if path.suffix != ".mxl":
        return ElementTree.parse(path).getroot()
    with zipfile.ZipFile(path) as archive:
        names = [n for n in archive.namelist() if n.endswith((".xml", ".musicxml")) and not n.startswith("META-INF")]
        container = ElementTree.fromstring(archive.read("META-INF/container.xml"))
        named = [e.get("full-path") for e in container.iter() if e.tag.endswith("rootfile")]
        return ElementTree.fromstring(archive.read(named[0] if named else names[0]))


def number(node, name):
    text = node.findtext(name)
    return Fraction(text) if text else Fraction(0)


def sounding(measures):
    """For each measure and staff, its notes: start, end, voice."""
    found = []
    voice, staff = "1", 1
    for measure in measures:
        now, start, staves = Fraction(0), Fraction(0), defaultdict(list)
        for node in measure:
            if node.tag == "backup":
                now -= number(node, "duration")
            elif node.tag == "forward":
                now += number(node, "duration")
            elif node.tag == "note":
                chord = node.find("chord") is not None
                # The notes of a chord may leave out whose they are.
                voice = node.findtext("voice") or (voice if chord else "1")
                staff = int(node.findtext("staff") or (staff if chord else 1))
                if node.find("grace") is not None:
                    continue
                length = number(node, "duration")
                start, now = (start, now) if chord else (now, now + length)
                cue = node.find("cue") is not None
                if not cue and (node.find("pitch") is not None or node.find("unpitched") is not None):
                    staves[staff].append((start, start + length, voice.strip()))
        found.append(staves)
    return found


def at_once(notes):
    latest = None
    for start, end, voice in sorted(notes):
        if latest and start < latest[0] and voice != latest[1]:
            return True
        if latest is None or end >= latest[0]:
            latest = (end, voice)
    return False


def players(path):
    """Everyone with a note to play, in the order in which leadpipe counts them."""
    root = root_of(path)
    found = []
    for index, part in enumerate(root.findall("part")):
        measures = part.findall("measure")
        notes = sounding(measures)
        bars = [(measure.get("number") or str(place)).strip()[:12] for place, measure in enumerate(measures, 1)]
        staves = sorted({staff for one in notes for staff in one})
        pitched = part.find(".//pitch") is not None
        has_cues = part.find(".//note/cue") is not None
        for staff in staves:
            of_staff = [one.get(staff, []) for one in notes]
            voices = sorted({voice for one in of_staff for _, _, voice in one}, key=lambda v: (len(v), v))
            several = any(at_once(one) for one in of_staff)
            everywhere = [{voice for _, _, voice in one} for one in of_staff]
            for voice in voices if several else [None]:
                several_staves = staff if len(staves) > 1 or part.find(".//staves") is not None else None
                found.append(Player(index, several_staves, voice, everywhere, bars, not pitched, has_cues))
    return found


def has_jumps(path):
    """True if one is to jump back somewhere."""
    root = root_of(path)
    sounds = any(one.get("dacapo") or one.get("dalsegno") for one in root.iter("sound"))
    words = (" ".join((one.text or "").lower().split()) for one in root.iter("words"))
    return sounds or any(word.startswith(("d.c", "d.s", "da capo", "dal segno")) for word in words)
