"""Our sheet against another engraver's drawing of the same music.

    python compare.py PROGRAM FOLDER

Order and staff step of every head, accidentals, beams and ledger lines must agree. Our one liberty is a
reminder: in the bar after a sharp or flat the plain note carries a natural once more.
"""

import subprocess
import sys
from pathlib import Path

import verovio

import drawn
import written

HERE = Path(__file__).parent


def engrave(text):
    toolkit = verovio.toolkit()
    toolkit.setOptions(
        {
            "breaks": "none",
            "adjustPageHeight": True,
            "adjustPageWidth": True,
            "pageWidth": 100000,
            "header": "none",
            "footer": "none",
        }
    )
    assert toolkit.loadData(text), text
    return toolkit.renderToSVG(1)


def compare(where, our_heads, other_heads):
    """Differences in words."""
    found = []
    steps = [h.step for h in our_heads], [h.step for h in other_heads]
    if steps[0] != steps[1]:
        return [f"{where}: heads differ: {steps[0]} {steps[1]}"]
    altered = {}
    for index, (one, other) in enumerate(zip(our_heads, other_heads)):
        at = f"{where}, head {index + 1}"
        if one.bar != other.bar:
            found.append(f"{at}: in bar {one.bar + 1}, there in bar {other.bar + 1}")
        reminder = (
            one.accidental == "natural"
            and other.accidental is None
            and altered.get((one.bar - 1, one.step)) in ("sharp", "flat")
        )
        if one.accidental != other.accidental and not reminder:
            found.append(f"{at}: {one.accidental}, there {other.accidental}")
        # What the bar leaves a step at, for the reminder in the next.
        if one.accidental:
            altered[(one.bar, one.step)] = one.accidental
        for what in ("ledgers", "beams", "group"):
            if getattr(one, what) != getattr(other, what):
                found.append(f"{at}: {what} {getattr(one, what)}, there {getattr(other, what)}")
        if one.group is None and one.stem != other.stem:
            found.append(f"{at}: stem {one.stem}, there {other.stem}")
    return found


def main():
    program, folder = sys.argv[1], Path(sys.argv[2])
    differences, heads, beams, accidentals, ledgers, reminders = [], 0, 0, 0, 0, 0
    # written.py knows the tubes and the clef of a trumpet.
    built_in = sorted((HERE / "../../presets").glob("*.toml"))
    routines = [HERE / "routine.toml", *(one for one in built_in if '"trumpet in B-flat"' in one.read_text())]
    for routine in routines:
        out = folder / routine.stem
        run = subprocess.run(
            [program, "sheet", routine, "--format", "svg", "--passes", "all", "--out", out],
            check=True,
            capture_output=True,
            text=True,
        )
        pages = run.stdout.splitlines()
        for number, text in written.lines(routine):
            other = drawn.others(engrave(text))
            own = drawn.ours(pages, number)
            found = compare(f"{routine.stem}, line {number}", own, other)
            if "*M7/8" in text:
                # The other engraver beams nothing in a meter whose groups nobody has told it.
                found = [one for one in found if ": beams " not in one and ": group " not in one]
            differences += found
            heads += len(own)
            beams += sum(1 for h in own if h.beams)
            ledgers += sum(h.ledgers for h in own)
            accidentals += sum(1 for h in other if h.accidental)
            reminders += sum(1 for h in own if h.accidental) - sum(1 for h in other if h.accidental)
    # A comparison of nothing must not pass.
    assert heads > 500 and beams > 100 and accidentals > 50 and ledgers > 100, (heads, beams, accidentals, ledgers)
    spoiled(routines[0], folder)
    print("\n".join(differences))
    print(
        f"{heads} heads, {beams} of them beamed, {accidentals} accidentals and {reminders} reminders, "
        f"{ledgers} ledger lines: {len(differences)} differences"
    )
    sys.exit(1 if differences else 0)


def spoiled(routine, folder):
    """What is drawn wrongly must be found: one thing at a time is changed in what we drew."""
    pages = sorted(str(p) for p in (folder / routine.stem).glob("*.svg"))
    for number, text in written.lines(routine):
        other, own = drawn.others(engrave(text)), drawn.ours(pages, number)
        changes = {
            "step": lambda h: h.step + 1,
            "accidental": lambda h: "flat" if h.accidental != "flat" else "sharp",
            "ledgers": lambda h: h.ledgers + 1,
            "beams": lambda h: h.beams + 1,
            "group": lambda h: -1,
            "bar": lambda h: h.bar + 1,
        }
        for what, change in changes.items():
            for head in own[:: max(1, len(own) // 5)]:
                right = getattr(head, what)
                setattr(head, what, change(head))
                assert compare("spoiled", own, other), (number, what)
                setattr(head, what, right)


if __name__ == "__main__":
    main()
