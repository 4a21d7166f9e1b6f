"""Raw samples of a SoundFont 2 file (RIFF; its `shdr` and `smpl` chunks)."""

import struct
from dataclasses import dataclass
from pathlib import Path

import numpy as np


@dataclass
class Sample:
    name: str
    frames: np.ndarray
    rate: float
    loop: tuple[int, int]


def samples(path: Path) -> list[Sample]:
    data = path.read_bytes()
    chunks: dict[bytes, tuple[int, int]] = {}

    def walk(at: int, end: int) -> None:
        while at + 8 <= end:
            name, size = data[at : at + 4], struct.unpack_from("<I", data, at + 4)[0]
            if name in (b"RIFF", b"LIST"):
                walk(at + 12, at + 8 + size)
            else:
                chunks[name] = (at + 8, size)
            at += 8 + size + size % 2

    walk(0, len(data))
    start, size = chunks[b"smpl"]
    pool = np.frombuffer(data, "<i2", size // 2, start) / 32768.0
    at, size = chunks[b"shdr"]
    found = []
    for header in range(at, at + size - 46, 46):
        name, first, last, loop, loop_end, rate = struct.unpack_from("<20s5I", data, header)
        found.append(
            Sample(
                name.split(b"\0")[0].decode("latin1"),
                pool[first:last],
                float(rate),
                (loop - first, loop_end - first),
            )
        )
    return found
