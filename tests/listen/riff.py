"""WAV files as RIFF says they are: chunks, frames, cue points with their labels and regions."""

import struct
from dataclasses import dataclass


@dataclass
class Cue:
    frame: int
    frames: int
    label: str


def chunks(data):
    at = 0
    while at < len(data):
        name, size = struct.unpack_from("<4sI", data, at)
        body = data[at + 8 : at + 8 + size]
        if len(body) != size:
            raise ValueError(f"chunk {name} ends beyond its file")
        yield name, body
        # A chunk of odd length is followed by a byte of padding.
        at += 8 + size + size % 2


def cues(path):
    """The cue points of a file in order of their numbers."""
    with open(path, "rb") as file:
        data = file.read()
    magic, size, form = struct.unpack_from("<4sI4s", data)
    if (magic, form) != (b"RIFF", b"WAVE") or size != len(data) - 8:
        raise ValueError(f"{path} is no RIFF file of its own length")
    points, labels, regions = {}, {}, {}
    for name, body in chunks(data[12:]):
        if name == b"cue ":
            (count,) = struct.unpack_from("<I", body)
            if len(body) != 4 + 24 * count:
                raise ValueError("the cue chunk is not as long as it says")
            for i in range(count):
                number, _, chunk, _, _, frame = struct.unpack_from("<II4sIII", body, 4 + 24 * i)
                if chunk != b"data":
                    raise ValueError("a cue point lies outside the sound")
                points[number] = frame
        elif name == b"LIST" and body[:4] == b"adtl":
            for sub, text in chunks(body[4:]):
                (number,) = struct.unpack_from("<I", text)
                if sub == b"labl":
                    if not text.endswith(b"\0"):
                        raise ValueError("a label has no end")
                    labels[number] = text[4:-1].decode()
                elif sub == b"ltxt" and text[8:12] == b"rgn ":
                    (regions[number],) = struct.unpack_from("<I", text, 4)
    return [Cue(points[n], regions.get(n, 0), labels.get(n, "")) for n in sorted(points)]
