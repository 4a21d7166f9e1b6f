"""Reads FLAC and MP3 files again with other people's libraries and programs, and says what is not as it should be.

    python reread.py LEADPIPE FOLDER

LEADPIPE is the program; FOLDER is emptied and filled with tracks. mutagen reads tags and chapters, libsndfile
(with libFLAC and mpg123) decodes, and the reference decoder `flac` tests where it is installed.
"""

import io
import pathlib
import shutil
import subprocess
import sys

import mutagen
import numpy
import soundfile

ROUTINE = pathlib.Path(__file__).with_name("routine.toml")
RUNS = [[], ["--rate", "48000", "--bits", "24", "--spread"]]
# Frames of sound in one frame of MPEG-1 Layer III (ISO/IEC 11172-3).
ENCODER_FRAME = 1152
# A voice without sound has no correlation.
LEAST = {"samples": 0.98, "envelope": 0.999}


def correlation(a, b):
    return float(numpy.corrcoef(a, b)[0, 1])


def envelope(samples, rate):
    window = rate // 100
    whole = samples[: len(samples) // window * window]
    return numpy.sqrt((whole.reshape(-1, window) ** 2).mean(axis=1))


def lines(click, rate):
    """The frame of each line's first click: the first loud one after three seconds of quiet."""
    loud = numpy.flatnonzero(numpy.abs(click) > 0.05)
    apart = numpy.flatnonzero(numpy.diff(loud) > rate * 3) + 1
    return loud[numpy.concatenate([[0], apart])]


def chapters(file):
    """Seconds at which chapters start, as the file tells, in the order of its own contents."""
    if file.mime[0] == "audio/mp3":
        contents = file.tags.getall("CTOC")
        assert len(contents) == 1
        return [file.tags[f"CHAP:{name}"].start_time / 1000 for name in contents[0].child_element_ids]
    times = sorted(key for key in file.tags.keys() if len(key) == 10 and key.startswith("chapter"))
    parts = [file.tags[key][0].split(":") for key in times]
    return [int(h) * 3600 + int(m) * 60 + float(s) for h, m, s in parts]


def complaints_of_chapters(name, starts, first_clicks, rate):
    if len(starts) != len(first_clicks):
        return [f"{name}: {len(starts)} chapters for {len(first_clicks)} lines"]
    off = [abs(start * rate - click) for start, click in zip(starts, first_clicks)]
    print(f"{name}: chapters {max(off):.0f} frames off at most")
    return [f"{name}: a chapter is {o:.0f} frames off" for o in off if o > ENCODER_FRAME]


def complaints_of_sound(name, wav, flac, mp3, rate):
    said = []
    if not numpy.array_equal(wav, flac):
        said.append(f"{name}: FLAC decodes to other samples")
    scale = 2.0**31
    wav = wav.reshape(len(wav), -1) / scale
    mp3 = mp3.reshape(len(mp3), -1)
    if len(wav) != len(mp3):
        said.append(f"{name}: MP3 decodes to {len(mp3)} frames of {len(wav)}")
    for channel in range(wav.shape[1]):
        a, b = wav[: len(mp3), channel], mp3[: len(wav), channel]
        found = {"samples": correlation(a, b), "envelope": correlation(envelope(a, rate), envelope(b, rate))}
        print(f"{name}, channel {channel}: " + ", ".join(f"{what} {r:.5f}" for what, r in found.items()))
        said += [f"{name}: {what} of MP3 correlate by {r:.4f}" for what, r in found.items() if not r > LEAST[what]]
        if correlation(a[1:], b[:-1]) > found["samples"] or correlation(a[:-1], b[1:]) > found["samples"]:
            said.append(f"{name}: MP3 is out of step")
    return said


def complaints_of_tags(path, number, of):
    file = mutagen.File(path)
    easy = mutagen.File(path, easy=True)
    expected = {"album": title_of(ROUTINE), "tracknumber": f"{number}/{of}"}
    said = []
    if path.suffix == ".flac":
        expected["tracknumber"] = str(number)
        pictures = [(p.mime, p.type, p.data) for p in file.pictures]
    else:
        pictures = [(p.mime, int(p.type), p.data) for p in file.tags.getall("APIC")]
    for key, value in expected.items():
        if easy.get(key) != [value]:
            said.append(f"{path.name}: {key} is {easy.get(key)}, not {value}")
    if "clicks a minute" not in easy["title"][0]:
        said.append(f"{path.name}: title is {easy['title']}")
    if [(mime, kind) for mime, kind, _ in pictures] != [("image/png", 3)]:
        said.append(f"{path.name}: no cover")
    return said


def title_of(routine):
    row = next(r for r in routine.read_text(encoding="utf-8").splitlines() if r.startswith("title"))
    return row.split('"')[1]


def complaints(folder, options):
    said = []
    mono = "--spread" not in options
    tracks = sorted(p.stem for p in folder.glob("*together.wav"))
    for number, track in enumerate(tracks, 1):
        click, rate = soundfile.read(folder / f"{track} click.wav")
        first = lines(click, rate)
        for part in ["", " guide", " drone", " click"]:
            wav, rate = soundfile.read(folder / f"{track}{part}.wav", dtype="int32")
            flac, _ = soundfile.read(folder / f"{track}{part}.flac", dtype="int32")
            mp3, _ = soundfile.read(folder / f"{track}{part}.mp3")
            said += complaints_of_sound(track + part, wav, flac, mp3, rate)
            if number == 1 and not part and not said:
                said += unseen(wav, flac, mp3, rate, first)
        for ending in ["flac", "mp3"]:
            path = folder / f"{track}.{ending}"
            file = mutagen.File(path)
            said += complaints_of_tags(path, number, len(tracks))
            said += complaints_of_chapters(path.name, chapters(file), first, rate)
            seconds = len(wav) / rate
            if abs(file.info.length - seconds) > ENCODER_FRAME / rate:
                said.append(f"{path.name}: {file.info.length} s long, not {seconds}")
            minute = path.stat().st_size / 1e6 / seconds * 60
            print(f"{path.name}: {minute:.2f} MB a minute")
            if ending == "mp3" and mono and minute > 1:
                said.append(f"{path.name}: {minute:.2f} MB a minute")
    rows = (folder / "practice.m3u8").read_text(encoding="utf-8").splitlines()
    if rows[0] != "#EXTM3U" or rows[2::2] != [f"{track}.mp3" for track in tracks]:
        said.append(f"the list is {rows}")
    return said


def unseen(wav, flac, mp3, rate, first):
    """What this check would not find."""
    silent = io.StringIO()
    standard, sys.stdout = sys.stdout, silent
    spoilt = flac.copy()
    spoilt[len(spoilt) // 2] += 1 << 16
    starts = [frame / rate for frame in first]
    late = starts[:-1] + [starts[-1] + (ENCODER_FRAME + 1) / rate]
    found = {
        "another sample": complaints_of_sound("", wav, spoilt, mp3, rate),
        "an MP3 a frame late": complaints_of_sound("", wav, flac, numpy.roll(mp3, 1, axis=0), rate),
        "a short MP3": complaints_of_sound("", wav, flac, mp3[:-1], rate),
        "noise": complaints_of_sound("", wav, flac, numpy.random.default_rng(1).normal(size=mp3.shape), rate),
        "a late chapter": complaints_of_chapters("", late, first, rate),
        "a missing chapter": complaints_of_chapters("", starts[1:], first, rate),
    }
    sys.stdout = standard
    return [f"the check cannot fail: {what}" for what, said in found.items() if not said]


def main(leadpipe, folder):
    folder = pathlib.Path(folder)
    failed = False
    for number, options in enumerate(RUNS):
        to = folder / str(number)
        shutil.rmtree(to, ignore_errors=True)
        command = [leadpipe, "render", ROUTINE, "--tempo", "100%,80%", "--signs", "off", "--stems"]
        subprocess.run([*command, "--format", "wav,flac,mp3", *options, "--out", to], check=True)
        said = complaints(to, options)
        if shutil.which("flac"):
            subprocess.run(["flac", "--silent", "--test", *to.glob("*.flac")], check=True)
            print(f"flac accepts {len(list(to.glob('*.flac')))} files")
        else:
            said.append("flac is not installed")
        for one in said:
            print(one)
        failed = failed or bool(said)
        print(f"run {number}: {len(said)} complaints")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
