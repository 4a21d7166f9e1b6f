"""Music that was not written here: the open corpus inside music21. Every player of every score in MusicXML and 300 tunes in
ABC are adopted, and held against the notes that music21 finds: a difference that is not listed fails, and so does a
share of exact ones below the goal. Files cut short or changed must do no harm.

What leadpipe made of each player, and said of it, is kept as a digest in `corpus.seen` with what came of the comparison. music21
takes minutes over all scores, leadpipe seconds: so all of them are adopted each time, and a score is compared again where
something is made or said of it that was not seen before. Of the others every so manieth is compared all the same.

Run as `python corpus.py LEADPIPE EVERY`. `python corpus.py LEADPIPE anew` compares all of them and writes `corpus.seen`.
"""

import collections
import hashlib
import random
import re
import subprocess
import sys
import tempfile
import time
import zipfile
from concurrent.futures import ProcessPoolExecutor, as_completed
from pathlib import Path

import music21

import compared
import reference

# Collections of tunes, and how many of each are taken.
TUNES = {
    "ryansMammoth": 90,
    "oneills1850": 100,
    "airdsAirs": 60,
    "essenFolksong": 60,
    "miscFolk": 10,
}
CORPUS = Path(music21.__file__).parent / "corpus"
GOAL = 0.97
# Of all players and tunes, the most that music21 may be unable to read.
UNREAD = 0.05
# Players and tunes that music21 reads otherwise than the file has it, each looked at by hand.
MISREAD = {
    ("ryansMammoth/LafricansJig.abc", 1): "music21 leaves a bar that is too long out the first time",
    ("beethoven/opus59no2/movement3.mxl", 1): "music21 plays its first ending twice",
    ("beethoven/opus59no2/movement3.mxl", 2): "music21 plays its first ending twice",
    ("beethoven/opus59no2/movement3.mxl", 3): "music21 plays its first ending twice",
    ("beethoven/opus59no2/movement3.mxl", 4): "music21 plays its first ending twice",
    ("schumann_robert/opus41no1/movement1.mxl", 4): "17 divisions a quarter hold no eighth: music21 takes them for exact",
    ("haydn/opus1no1/movement3.mxl", 1): "music21 makes a repeated bar longer by hidden notes of another voice",
    ("haydn/opus1no1/movement3.mxl", 2): "music21 makes a repeated bar longer by hidden notes of another voice",
    ("haydn/opus1no1/movement4.mxl", 1): "music21 makes a repeated bar longer by hidden notes of another voice",
    ("haydn/opus1no1/movement5.mxl", 1): "music21 makes a repeated bar longer by hidden notes of another voice",
    ("joplin/maple_leaf_rag.mxl", 1): "music21 does not repeat bars whose second ending has no bracket",
    ("joplin/maple_leaf_rag.mxl", 3): "music21 does not repeat bars whose second ending has no bracket",
    ("liliuokalani/aloha_oe.mxl", 7): "music21 takes a chord over two staves for one of the lower staff",
}
# Every so manieth file is spoilt.
SPOILT = 10
# A line for each file, or tune of one: its name, and of each player a word and the digest of what was made and said.
SEEN = Path(__file__).with_name("corpus.seen")


def seen_before():
    """Of each file, or tune, the words and digests of its players."""
    rows = (line.split("\t") for line in SEEN.read_text().splitlines() if not line.startswith("#"))
    return {name: [tuple(one.split(" ")) for one in found] for name, *found in rows}


def keep(found):
    """Writes what was seen."""
    head = "# Written by `python tests/notation/corpus.py LEADPIPE anew`: what came of each player, and a digest of what was made of it.\n"
    rows = ("\t".join([name, *(f"{word.replace(' ', '-')} {digest}" for word, digest in of)]) for name, of in sorted(found.items()))
    SEEN.write_text(head + "".join(f"{row}\n" for row in rows))


def digest(done, out, path):
    """Of what leadpipe made of a player and said of it, wherever the files lie."""
    said = done.stderr.replace(str(path), path.name).replace(str(out), out.name)
    made = out.read_text() if done.returncode != 2 else ""
    return hashlib.sha256(f"{done.returncode}\0{said}\0{made}".encode()).hexdigest()[:8]


def scores():
    """Files in MusicXML, the longest first, so that no process is left with one at the end."""
    found = [path for ending in ("*.mxl", "*.xml", "*.musicxml") for path in CORPUS.rglob(ending)]
    return sorted(found, key=lambda path: (-unpacked(path), path))


def unpacked(path):
    """Bytes of a file that is no longer packed."""
    if path.suffix != ".mxl":
        return path.stat().st_size
    with zipfile.ZipFile(path) as archive:
        return sum(entry.file_size for entry in archive.infolist())


def tunes():
    """Tunes of one voice, with file and number. music21 follows no jumps (D.C.) in ABC."""
    chance = random.Random(11)
    for name, count in TUNES.items():
        found = []
        for path in sorted((CORPUS / name).rglob("*.abc")):
            parts = re.split(r"(?m)^(?=X:)", path.read_text(errors="replace").replace("\r", ""))[1:]
            bodies = [re.split(r"\n[ \t]*\n", part)[0] for part in parts]
            numbers = [int(re.match(r"X: *(\d+)", body).group(1)) for body in bodies]
            for number, body in zip(numbers, bodies):
                alone = numbers.count(number) == 1 and re.search(r"(?m)^K:", body)
                if alone and not re.search(r"(?m)^V:|\[V:|D\. ?[CS]\.|(?i:da capo|dal segno)", body):
                    found.append((path, number, body))
        yield from chance.sample(found, min(count, len(found)))


def adopt(leadpipe, path, out, *more):
    command = [leadpipe, "adopt", str(path), "--out", str(out), "--force", *more]
    done = subprocess.run(command, capture_output=True, text=True, errors="replace")
    if done.returncode not in (0, 1, 2) or "panicked" in done.stderr:
        raise SystemExit(f"{path}: exit code {done.returncode}\n{done.stderr}")
    if "does not understand itself" in done.stderr:
        raise SystemExit(f"{path}: it wrote a routine with faults\n{done.stderr}")
    return done


def judged(done, out, notes, why, percussion=False, numbered=True):
    """What came of a player: a word, and what to say of it."""
    if done.returncode == 2:
        right = percussion and "is a percussion part" in done.stderr
        return ("percussion" if right else "refused"), done.stderr.split("\n")[:1]
    if notes is None:
        return "not read", [why]
    told = compared.differences(compared.ours(out), notes)
    listed = compared.rows(done.stderr)
    silent = compared.unlisted(told, listed, numbered)
    said = [f"bar {one.bar}: {one.what}" for one in (silent or told)[:4]] + listed[:4]
    if "Everything" in done.stderr and told:
        return "silent", said
    if not told:
        return "exact", []
    if silent:
        return "silent", said
    return ("octaves" if all(one.octave for one in told) else "listed"), said


def of_score(leadpipe, path):
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "a.toml"
        try:
            read = list(reference.read(path))
        except Exception as error:
            return [("not read", [f"music21 cannot read it: {type(error).__name__}"], digest(adopt(leadpipe, path, out, "--part", "1"), out, path))]
        found = []
        for number, (player, notes, why) in enumerate(read, 1):
            out.unlink(missing_ok=True)
            if word := MISREAD.get((path.relative_to(CORPUS).as_posix(), number)):
                notes, why = None, word
            done = adopt(leadpipe, path, out, "--part", str(number))
            found.append((*judged(done, out, notes, why, player.percussion), digest(done, out, path)))
        return found


def of_tune(leadpipe, path, number, body):
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "a.toml"
        done = adopt(leadpipe, path, out, "--part", str(number))
        word = MISREAD.get((path.relative_to(CORPUS).as_posix(), number))
        notes, why = (None, word) if word else reference.tune(body)
        return [(*judged(done, out, notes, why, numbered=False), digest(done, out, path))]


def as_seen(leadpipe, path, numbers, seen):
    """What came of the players of a file that is made into what it was before; None if one of them is not."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "a.toml"
        for number, (_, before) in zip(numbers, seen, strict=True):
            out.unlink(missing_ok=True)
            done = adopt(leadpipe, path, out, "--part", str(number))
            if digest(done, out, path) != before:
                return None
    return [(word.replace("-", " "), ["as it was seen before"], before) for word, before in seen]


def damage(leadpipe, path, seed):
    """The file cut short, and with bytes changed."""
    chance = random.Random(seed)
    whole = path.read_bytes()
    with tempfile.TemporaryDirectory() as folder:
        broken = Path(folder) / f"broken{path.suffix}"
        for way in range(2):
            data = bytearray(whole)
            if way == 0:
                data = data[: chance.randrange(1, len(data))]
            else:
                for _ in range(8):
                    data[chance.randrange(len(data))] = chance.randrange(256)
            broken.write_bytes(data)
            adopt(leadpipe, broken, Path(folder) / "a.toml", "--part", "1")


def work(task):
    """One file: its kind, its name, what came of its players, whether they were compared, and the seconds that took."""
    leadpipe, place, seen, path, *tune = task
    began = time.monotonic()
    numbers = tune[:1] or range(1, len(seen or []) + 1)
    found = as_seen(leadpipe, path, numbers, seen) if seen else None
    compared_ = found is None
    if compared_:
        found = of_tune(leadpipe, path, *tune) if tune else of_score(leadpipe, path)
    if place % SPOILT == 0:
        damage(leadpipe, path, place)
    return ("ABC" if tune else "MusicXML"), name_of(path, tune), found, compared_, time.monotonic() - began


def name_of(path, tune):
    return f"{path.relative_to(CORPUS).as_posix()}{f' {tune[0]}' if tune else ''}"


def main():
    leadpipe, every = sys.argv[1:]
    anew = every == "anew"
    seen = {} if anew else seen_before()
    files = [(path,) for path in scores()] + list(tunes())
    tasks = [
        (leadpipe, place, None if anew or place % int(every) == 0 else seen.get(name_of(path, tune)), path, *tune)
        for place, (path, *tune) in enumerate(files)
    ]
    counts = collections.defaultdict(collections.Counter)
    reasons = collections.Counter()
    seconds = collections.Counter()
    anew_ = collections.Counter()
    now = {}
    with ProcessPoolExecutor(2) as pool:
        for done in as_completed([pool.submit(work, task) for task in tasks]):
            kind, name, found, compared_, took = done.result()
            seconds[kind] += took
            anew_[kind] += compared_
            now[name] = [(word, digest_) for word, _, digest_ in found]
            counts[kind].update(word for word, _, _ in found)
            for player, (word, said, _) in enumerate(found, 1):
                if compared_ and word in ("silent", "refused", "listed"):
                    print(f"  {word}: {name}, {player}: {said}", flush=True)
                elif word == "not read":
                    reasons.update(said)
    failed = False
    for kind, of in counts.items():
        judged_ = sum(of[word] for word in ("exact", "octaves", "listed", "silent", "refused"))
        exact = of["exact"] + of["octaves"]
        read = judged_ / max(1, judged_ + of["not read"])
        print(
            f"{kind}: {judged_} players or tunes, {exact / judged_:.1%} exact ({of['octaves']} of them but for listed octaves), "
            f"{of['listed']} differ as listed, {of['silent']} in silence, {of['refused']} refused; {of['percussion']} percussion "
            f"parts, {of['not read']} not read by music21; {anew_[kind]} files compared, the others as they were seen; "
            f"{seconds[kind]:.0f} s of one process"
        )
        failed |= exact < GOAL * judged_ or of["silent"] > 0 or read < 1 - UNREAD
    for why, count in reasons.most_common(8):
        print(f"{count:6} {why}")
    assert not failed
    if anew:
        keep(now)
    elif any([digest_ for _, digest_ in now[name]] != [digest_ for _, digest_ in found] for name, found in seen.items()):
        print("corpus.seen is old, and more was compared than is needed: write it anew")
    assert sum(counts["ABC"].values()) >= 300


if __name__ == "__main__":
    main()
