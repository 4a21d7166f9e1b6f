#!/usr/bin/env python3
"""Makes the inputs that fuzzing starts from: fuzz/seeds.py LEADPIPE FOLDER.

They are what leadpipe reads and writes: the built-in routines, the examples of README.md, exported and rendered files.
"""

import json
import re
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PROGRAM, FOLDER = Path(sys.argv[1]).resolve(), Path(sys.argv[2])
# libFuzzer changes small inputs much faster, and a reader that copies sound needs none of it.
SHORT = 2048

SMALL = """format = 1
title = "Small"
instrument = "trumpet"
comfortable_top = "G4"
tempo = 240
meter = "1/4"
[[line]]
name = "One"
notes = "G4:quarter"
rest = "none"
"""


def seed(target, name, content):
    place = FOLDER / target / name
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(content if isinstance(content, bytes) else content.encode())


def leadpipe(*arguments):
    ended = subprocess.run([PROGRAM, *arguments], capture_output=True, text=True)
    if ended.returncode not in (0, 1):
        sys.exit(f"leadpipe {arguments}: {ended.stderr}")


def texts(presets):
    for name, text in presets.items():
        seed("routine", name, text)
        for n, notes in enumerate(re.findall(r'^(?:notes|open) = "([^"]*)"', text, re.M)):
            seed("notes", f"{name}-{n}", notes)
    seed("routine", "small", SMALL)
    blocks = re.findall(r"^```toml\n(.*?)^```", (ROOT / "README.md").read_text(), re.M | re.S)
    for n, block in enumerate(blocks):
        for target, table in [("pencil", "[[mark]]"), ("class", "[[player]]"), ("routine", "[[line]]")]:
            if table in block:
                seed(target, f"readme-{n}", block)
    seed("pencil", "many", 'format = 1\nplayer = "Anna"\n' + "".join(
        f'[[mark]]\nline = "Long notes"\ndate = 2026-11-27\n{mark}\n'
        for mark in ("tempo = 60", 'tempo = "90%"', "times = 2", 'rest = "1 bar"', 'note = "Breathe"', "leave_out = true",
                     'guide = "off"', "half_steps = [0, -1]", 'tubes = ["0", "1-2"]')))
    seed("marks", "all", "\n".join(
        ["tempo 60", "tempo 90%", "times 2", "rest 1 bar", "rest none", "rest rest of the day", "note Breathe deep",
         "left out", "guide off", "half steps 0 -1", "tubes 0 1-2", "from 2 to 3", "drone off", "articulation legato",
         "breath after 2", "fingering 1-2 at 3", "hold 2"]))
    seed("class", "two", 'format = 1\ntitle = "Class"\ntempo = [60, "90%"]\nkey = 0\nguide = "echo"\n'
         '[[player]]\nname = "Anna"\nroutine = "first-steps"\npencil = "anna.toml"\nage = 9\ncomfortable_top = "C5"\n'
         '[[player]]\nname = "Ben"\nroutine = "second-steps"\nkey = [0, -2]\n')
    seed("options", "all", "\n".join(["72", "85%", "60,5", "-3", "echo", "off", "together", "440", "442.5", "equal",
                                      "guide=-6", "drone=off", "click=50%", "1/4", "3/3"]))


def exported(presets):
    folder = FOLDER / "made"
    folder.mkdir(parents=True, exist_ok=True)
    small = folder / "small.toml"
    small.write_text(SMALL)
    for name in [*sorted(presets)[:2], str(small)]:
        leadpipe("export", name, "--to", "musicxml,midi", "--out", folder)
    for n, path in enumerate(sorted(folder.rglob("*.musicxml"))):
        seed("musicxml", path.stem, path.read_bytes())
        packed = FOLDER / "mxl" / f"{n}.mxl"
        packed.parent.mkdir(parents=True, exist_ok=True)
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("META-INF/container.xml", '<container><rootfiles><rootfile full-path="a.musicxml"/>'
                             "</rootfiles></container>")
            archive.write(path, "a.musicxml")
    for path in folder.rglob("*.mid"):
        seed("midi", path.stem, path.read_bytes())
    leadpipe("render", small, "--out", folder / "tracks", "--format", "wav,flac,mp3")
    for path in (folder / "tracks").rglob("*"):
        match path.suffix:
            case ".json":
                # The target calls its track t.
                seed("record", "t", path.read_text().replace(path.stem, "t"))
            case ".wav":
                seed("wav", "t", bytes(8) + b"\x10" + path.read_bytes()[:SHORT])
            case ".flac" | ".mp3":
                seed("packed", path.suffix[1:], path.read_bytes()[:SHORT])
    seed("record", "player", "Anna\n")


def tunes():
    head = "X:1\nT:Tune\nM:6/8\nL:1/8\nQ:3/8=60\nK:D mix ^g\n"
    music = ['|:d>e f/g/ a2-|a3 (3bc\'d (e2|f) z2 Z2:|', "A,,B,|[1 ^c_d:|[2 =e2||", '"Am"{gag}.f [CEG]2 !f!u!trill!T~g "^D.C."|]',
             "V:1\n[K:Bb transpose=-2][M:C|][L:1/4]c & e|\nw:la la\nP:B\nV:2\nd2|", "%%propagate-accidentals octave\n^f F|:: [|]"]
    for n, row in enumerate(music):
        seed("abc", f"{n}", head + row + "\n")
    seed("abc", "all", head + "\n".join(music) + "\n\nX:2\nK:Hp\nA|\n")


def requests(presets):
    opened = {"do": "open", "routine": SMALL, "pencil": 'format = 1\n[[mark]]\nline = "One"\ntempo = 200\n',
              "take": {"tempo": "90%", "key": -2, "guide": "echo", "a4": 442, "temperament": "equal", "signs": True},
              "sampleRate": 44100}
    # A start and a begin build tables, which takes a while; inputs without them are much faster.
    strips = {"do": "strips", "width": 40.5, "lines": [0], "passes": "all"}
    mark = {"do": "mark", "pencil": None, "of": 0, "mark": "tempo 60", "date": "2026-11-27", "player": "Anna"}
    erase = {"do": "mark", "pencil": opened["pencil"], "of": 0, "mark": "tempo 200", "erase": True}
    begin = {"do": "begin", "opened": 1, "unit": 0, "from": 64, "volume": ["guide=-6"]}
    for name, rows in {"start": [{"do": "start", "sampleRate": 48000}], "open": [opened], "strips": [opened, strips],
                       "mark": [opened, mark, erase], "begin": [opened, begin, {"do": "end", "performance": 1}]}.items():
        seed("engine", name, "\n".join(map(json.dumps, rows)))
    seed("engine", "preset", json.dumps({"do": "open", "routine": presets["first-steps"]}))


def shared():
    for n, path in enumerate(["/", "/a%201.mp3", "/in%20it/", "/in%20it", "/c:%20d.txt", "/link.txt", "/../secret.txt",
                              "/%2e%2e/secret.txt", "/.leadpipe/t.json"]):
        seed("share-path", f"{n}", path)
        seed("share-fields", f"{n}", f"{path}\nlocalhost:80\nbytes=0-9, -3")
    seed("share-fields", "absolute", "http://127.0.0.1:8642/a%201.mp3\n127.0.0.1:8642\nbytes=5-")
    heads = ["GET /a%201.mp3 HTTP/1.1\r\nHost: localhost\r\n\r\n",
             "GET / HTTP/1.0\r\n\r\n",
             "HEAD http://localhost/in%20it/ HTTP/1.1\r\nHost: localhost\r\nRange: bytes=0-\r\nIf-Range: \"a\"\r\n\r\n",
             "GET /a%201.mp3 HTTP/1.1\r\nHost: [::1]:80\r\nIf-None-Match: W/\"1\", *\r\n"
             "If-Modified-Since: Sat, 01 Jan 2000 00:00:00 GMT\r\n\r\n",
             "POST / HTTP/1.1\r\nHost: studio.local\r\nTransfer-Encoding: chunked\r\n\r\n1\r\na\r\n0\r\n\r\n",
             "PUT /a HTTP/1.1\r\nHost: localhost\r\nContent-Length: 3\r\nExpect: 100-continue\r\n\r\nabc"]
    for n, head in enumerate(heads):
        seed("share", f"{n}", head)
    seed("share", "all", "".join(heads))


presets = {path.stem: path.read_text() for path in sorted((ROOT / "presets").glob("*.toml"))}
texts(presets)
exported(presets)
tunes()
requests(presets)
shared()
