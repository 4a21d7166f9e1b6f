"""Music that was not written here: the open corpus inside music21. Every piece for one player is adopted, what comes of it
is compared with the notes that music21 finds, and files cut short or changed must do no harm.

Run as `python corpus.py LEADPIPE FOLDER`. Folk tunes in another text format are made MusicXML by music21 first.
"""

import collections
import random
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import music21

import routine

# Collections of tunes for one player, and how many of each are taken.
TUNES = {
    "ryansMammoth": 60,
    "nottingham-dataset": 60,
    "oneills1850": 60,
    "airdsAirs": 40,
    "essenFolksong": 60,
}
LEAST, GOAL = 200, 0.95
CORPUS = Path(music21.__file__).parent / "corpus"


def tunes(folder):
    """Tunes as MusicXML files, by collection."""
    for name, count in TUNES.items():
        made = 0
        for source in sorted((CORPUS / name).rglob("*.abc")):
            if made == count:
                break
            try:
                parsed = music21.converter.parse(source)
            except Exception as error:  # what music21 cannot read is no test of ours
                print(f"  {source.name}: music21 cannot read it: {error}")
                continue
            scores = parsed.scores if isinstance(parsed, music21.stream.Opus) else [parsed]
            # Of a book of tunes every so manieth, from all of it.
            step = max(1, len(scores) // 20)
            for number, score in enumerate(scores[::step]):
                if made == count:
                    break
                if len(score.parts) != 1:
                    continue
                path = folder / f"{name} {source.stem} {number}.musicxml"
                if path.exists():
                    made += 1
                    yield name, path
                    continue
                try:
                    score.write("musicxml", path)
                except Exception as error:
                    print(f"  {path.name}: music21 cannot write it: {error}")
                    continue
                made += 1
                yield name, path


def scores():
    """MusicXML files as they are in the corpus."""
    for ending in ("*.mxl", "*.xml", "*.musicxml"):
        yield from sorted(CORPUS.rglob(ending))


def adopt(leadpipe, path, out, *more):
    command = [leadpipe, "adopt", str(path), "--out", str(out), "--force", *more]
    done = subprocess.run(command, capture_output=True, text=True, errors="replace")
    if done.returncode not in (0, 1, 2) or "panicked" in done.stderr:
        raise SystemExit(f"{path}: exit code {done.returncode}\n{done.stderr}")
    if "does not understand itself" in done.stderr:
        raise SystemExit(f"{path}: it wrote a routine with faults\n{done.stderr}")
    return done


def kind_of(done):
    """Whole, with losses, or refused, and why."""
    if done.returncode == 2:
        message = done.stderr.split(" cannot be adopted: ")[-1].split("\n")[0]
        return "refused", [re.sub(r"\d+", "N", message.split(":")[0])]
    if "Everything was kept." in done.stderr:
        return "whole", []
    rows = []
    for row in done.stderr.split("Not kept,")[-1].split("\n")[1:]:
        if row.startswith("- "):
            rows.append(row[2:])
        elif row.startswith("  ") and rows:
            rows[-1] += f" {row.strip()}"
        else:
            break
    why = [re.sub(r"^line \d+ “.*?”(?:, bars? [^:]*)?: ", "", row) for row in rows]
    return "with losses", [re.sub(r"[A-G][#b]?\d|\d+", "N", row) for row in why]


def ours(path):
    """Keys and lengths of a routine's notes, in quarters, with the rests between left out."""
    _, lines = routine.read(path)
    return [(n.pitch, n.length * 4) for line in lines for one in line.passes for n in one.notes if n.pitch]


def repeats_begun(text):
    """A repeat that begins nowhere begins where the one before it ends, its last ending included: music21 would go
    back to the beginning."""
    forward = '<repeat direction="forward"/>'
    parts = re.split(r"(<measure\b[^>]*>)", text)
    ended, ending = False, False
    for index in range(1, len(parts), 2):
        here = parts[index + 1]
        ending = ending or re.search(r'<ending\b[^>]*type="start"', here) is not None
        if ended and not ending:
            ended = False
            if 'direction="forward"' not in here:
                # A bar has one bar line at its left.
                there = re.search(r'<barline location="left">.*?(?=</barline>)', here, re.DOTALL)
                if there:
                    parts[index + 1] = here[: there.end()] + forward + here[there.end() :]
                else:
                    parts[index] += f'<barline location="left">{forward}</barline>'
        ended = ended or 'direction="backward"' in here
        if re.search(r'<ending\b[^>]*type="(stop|discontinue)"', here):
            ending = False
    return "".join(parts)


def theirs(path):
    """The same as music21 has it, repeats written out."""
    if path.suffix == ".musicxml":
        score = music21.converter.parse(repeats_begun(path.read_text()), format="musicxml", forceSource=True)
    else:
        score = music21.converter.parse(path, forceSource=True)
    part = score.parts[0].expandRepeats()
    found = []
    for note in part.flatten().notes:
        if note.duration.isGrace or isinstance(note, music21.harmony.ChordSymbol):
            continue
        pitch = max(p.midi for p in note.pitches)
        length = Fraction(note.quarterLength).limit_denominator(1000)
        if note.tie is not None and note.tie.type in ("stop", "continue") and found and found[-1][0] == pitch:
            found[-1] = (pitch, found[-1][1] + length)
        else:
            found.append((pitch, length))
    return found


def same_music(path, out):
    """None if the notes are the same, moved by one interval, at one ratio of lengths; else a word on it."""
    try:
        wanted = theirs(path)
    except Exception as error:
        return f"music21 cannot write its repeats out ({type(error).__name__})"
    found = ours(out)
    if len(found) != len(wanted):
        return f"{len(found)} notes, not {len(wanted)}"
    moved = {a - b for (a, _), (b, _) in zip(found, wanted)}
    ratios = {a / b for (_, a), (_, b) in zip(found, wanted)}
    return None if len(moved) == 1 and len(ratios) == 1 else f"moved by {moved}, lengths {ratios}"


def damage(leadpipe, path, out, chance):
    """The file cut short, and with bytes changed."""
    whole = path.read_bytes()
    broken = out.with_suffix(f".broken{path.suffix}")
    for way in range(2):
        data = bytearray(whole)
        if way == 0:
            data = data[: chance.randrange(1, len(data))]
        else:
            for _ in range(8):
                data[chance.randrange(len(data))] = chance.randrange(256)
        broken.write_bytes(data)
        adopt(leadpipe, broken, out.with_suffix(".broken.toml"), *(["--part", "1"] if way else []))
    broken.unlink()


def main():
    leadpipe, folder = sys.argv[1], Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    chance = random.Random(4)
    table = collections.defaultdict(collections.Counter)
    reasons = collections.Counter()
    compared = collections.Counter()
    broken = 0

    def take(source, path):
        nonlocal broken
        out = folder / "adopted.toml"
        done = adopt(leadpipe, path, out)
        kind, why = kind_of(done)
        if kind == "refused" and why == ["it is music for more than one, and a routine is for one player"]:
            return False
        table[source][kind] += 1
        reasons.update({(kind, w) for w in why})
        if kind == "whole":
            word = same_music(path, out)
            compared["the same" if word is None else word if word.startswith("music21") else "other"] += 1
            if word is not None:
                print(f"  {path.name}: {word}")
        damage(leadpipe, path, out, chance)
        broken += 2
        return True

    for source, path in tunes(folder):
        take(source, path)
    several = 0
    for path in scores():
        if not take("MusicXML of the corpus", path):
            several += 1
            adopt(leadpipe, path, folder / "part.toml", "--part", "1")
            if several % 5 == 0:
                damage(leadpipe, path, folder / "part.toml", chance)
                broken += 2

    total = collections.Counter()
    print(f"\n{'':28}{'pieces':>8}{'whole':>8}{'losses':>8}{'refused':>8}")
    for source, counts in table.items():
        total.update(counts)
        row = [sum(counts.values()), counts["whole"], counts["with losses"], counts["refused"]]
        print(f"{source:28}" + "".join(f"{n:8}" for n in row))
    pieces = sum(total.values())
    print(f"{'all':28}{pieces:8}{total['whole']:8}{total['with losses']:8}{total['refused']:8}")
    print("\npieces that have lost, or were refused for:")
    for (kind, why), count in reasons.most_common():
        print(f"{count:6} {kind}: {why}")
    print(f"\nnotes of whole pieces against music21's: {dict(compared)}")
    print(f"{several} more scores for several players, of which the first was adopted; {broken} broken files did no harm")
    assert pieces >= LEAST, pieces
    assert 1 - total["refused"] / pieces >= GOAL, total
    assert compared["other"] == 0, compared


if __name__ == "__main__":
    main()
