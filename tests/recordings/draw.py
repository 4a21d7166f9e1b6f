"""Every recorded note of the loud sets over the guide at forte: draw.py RECORDINGS LEADPIPE PICTURE.png"""

import sys
from pathlib import Path

import matplotlib
import numpy as np

matplotlib.use("Agg")
import matplotlib.pyplot as plt

import floor
import judge
import profiles
import sets


def main() -> None:
    notes = [note for note in sets.notes(Path(sys.argv[1])) if note.set in sets.LOUD]
    guide = judge.rendered(sys.argv[2], ("f",))["f"]
    columns = 4
    figure, places = plt.subplots(-(-len(notes) // columns), columns, figsize=(16, 3 * -(-len(notes) // columns)))
    for place in places.flat[len(notes) :]:
        place.remove()
    for place, note in zip(places.flat, notes):
        levels, shown = (x[: len(floor.K)] - np.nanmax(x) for x in (note.levels, guide[note.nearest]))
        use = floor.strong(levels) & floor.strong(shown)
        place.semilogx(floor.K * note.hz, levels, "o-", label="recorded")
        place.semilogx(floor.K * note.hz, shown + np.mean((levels - shown)[use]), "k--", label="guide")
        apart, level = (profiles.difference(note.levels, guide[note.nearest], tilt) for tilt in (False, True))
        place.set_title(
            f"{note.set} {note.name}, {note.hz:.0f} Hz: {apart:.1f} dB, without tilt {level:.1f}", fontsize=9
        )
        place.set(xlim=(200, 20_000), ylim=(-55, 5))
        place.grid(alpha=0.3)
    figure.supxlabel("Hz")
    figure.supylabel("dB")
    places.flat[0].legend(fontsize=8)
    figure.tight_layout()
    figure.savefig(sys.argv[3], dpi=80)


if __name__ == "__main__":
    main()
