"""Listens to tracks of routine.toml and says what is not as written.

    python listen.py LEADPIPE FOLDER

LEADPIPE is the program; FOLDER is emptied and filled with two takes: as written, and slower and lower.
"""

import pathlib
import shutil
import subprocess
import sys
from fractions import Fraction

import heard
import judge
import proof
import written

ROUTINE = pathlib.Path(__file__).with_name("routine.toml")
# Options of the take, and the same as part of the written tempo and half steps.
TAKES = [
    ([], Fraction(1), 0),
    (["--tempo", "80%", "--key", "-2", "--rate", "48000"], Fraction(4, 5), -2),
]


def main(leadpipe, folder):
    folder = pathlib.Path(folder)
    failed = False
    for number, (options, tempo, key) in enumerate(TAKES):
        to = folder / str(number)
        shutil.rmtree(to, ignore_errors=True)
        command = [leadpipe, "render", ROUTINE, "--stems", "--guide", "together", "--out", to]
        subprocess.run(command + options, check=True)
        track = written.Track(ROUTINE.read_text(encoding="utf-8"), tempo, key)
        sound = heard.listen(str(to))
        found = judge.complaints(track, sound)
        # Once is enough: what is proved is the check.
        if number == 0 and not found:
            found = [f"the check cannot fail: {said}" for said in proof.unseen(track, sound)]
        for said in found:
            print(said)
        failed = failed or bool(found)
        count = sum(len(line.notes) for line in track.lines)
        print(f"take {number}: {count} notes, {sound.lufs:.2f} LUFS, {len(found)} complaints")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
