"""Draws the pictures of README.md from rendered sound, with general-purpose libraries.

    python -m pip install -r requirements.txt
    python draw.py LEADPIPE

LEADPIPE is the program. The pictures are written beside this file.
"""

import pathlib
import subprocess
import sys
import tempfile

import matplotlib
import numpy as np
import PIL.Image
import soundfile

matplotlib.use("svg")
import matplotlib.pyplot as plt  # noqa: E402  (the back end is chosen first)

HERE = pathlib.Path(__file__).parent
INK = "#222222"
plt.rcParams.update(
    {
        # The same bytes from the same sound.
        "svg.hashsalt": "leadpipe",
        "font.family": "DejaVu Sans",
        "font.size": 10,
        "text.color": INK,
        "axes.labelcolor": INK,
        "axes.edgecolor": "#888888",
        "axes.spines.top": False,
        "axes.spines.right": False,
        "figure.facecolor": "white",
    }
)


def save(figure, name):
    """Writes a picture without a date in it."""
    figure.tight_layout()
    kind = name.rsplit(".", 1)[1]
    metadata = {"Date": None} if kind == "svg" else {"Software": None}
    figure.savefig(HERE / name, format=kind, dpi=110, metadata=metadata)
    plt.close(figure)


def render(leadpipe, routine, folder):
    """Renders a routine with its stems; returns the rate and the parts by name."""
    command = [leadpipe, "render", HERE / routine, "--stems", "--out", folder]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    parts = {}
    for path in pathlib.Path(folder).glob("*.wav"):
        sound, rate = soundfile.read(path)
        last = path.stem.split()[-1]
        parts[last if last in ("guide", "drone", "click") else "mix"] = sound
    return rate, parts


def track(leadpipe):
    """What sounds when: the three voices of two lines and the rest between them."""
    with tempfile.TemporaryDirectory() as folder:
        rate, parts = render(leadpipe, "track.toml", folder)
    figure, rows = plt.subplots(3, 1, figsize=(9.5, 3.4), sharex=True, height_ratios=[1.0, 1.6, 0.7])
    beat = 60 / 96
    for axes, (name, colour) in zip(
        rows, [("click", "#555555"), ("guide", "#a8741a"), ("drone", "#3b6ea8")]
    ):
        sound = parts[name]
        step = rate // 60
        chunks = sound[: len(sound) // step * step].reshape(-1, step)
        times = (np.arange(len(chunks)) + 0.5) * step / rate
        axes.fill_between(times, chunks.min(axis=1), chunks.max(axis=1), color=colour, lw=0.6, ec=colour)
        axes.set_yticks([])
        axes.set_ylabel(name, rotation=0, ha="right", va="center")
        axes.spines["left"].set_visible(False)
        top = max(0.03, np.abs(sound).max()) * 1.15
        axes.set_ylim(-top, top)
    first = 0.5
    line = first + 4 * beat
    rest = line + 16 * beat
    # As long as was played, its end the count-in.
    again = rest + 16 * beat
    for axes in rows:
        for at in (first, line, rest, again - 4 * beat, again):
            axes.axvline(at, color="#bbbbbb", lw=0.8, zorder=0)
    for start, end, words in [
        (first, line, "count-in"),
        (line, rest, "the line"),
        (rest, again - 4 * beat, "rest"),
        (again - 4 * beat, again, "count-in"),
        (again, again + 8 * beat, "the next line"),
    ]:
        rows[0].annotate(
            words, ((start + end) / 2, 1.0), xycoords=("data", "axes fraction"), ha="center", va="bottom"
        )
    signs = np.flatnonzero(np.abs(parts["click"]) > 0.02) / rate
    down = signs[signs > rest][0]
    up = signs[signs > down + 1.5][0]
    for at, words in [(down, "horn\ndown"), (up, "horn\nup")]:
        rows[1].annotate(words, (at, 0.5), xycoords=("data", "axes fraction"), ha="left", va="center", size=9)
    rows[-1].set_xlabel("seconds")
    rows[-1].set_xlim(0, again + 8 * beat + 0.4)
    save(figure, "track.svg")


def tone_file(midi):
    """The file that `leadpipe tone` writes for a MIDI note number, spelt as in the fingering chart."""
    chart = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
    return f"tone-{chart[midi % 12]}{midi // 12 - 1}.wav"


def spectra(leadpipe):
    """Partials of three held notes at three dynamics."""
    names = {54: "low (written G♯3)", 65: "middle (written G4)", 77: "high (written G5)"}
    marks = [("p", "#7aa6d6"), ("mf", "#3b6ea8"), ("f", "#12305a")]
    figure, columns = plt.subplots(1, 3, figsize=(9.5, 3.0), sharey=True)
    with tempfile.TemporaryDirectory() as folder:
        for axes, (midi, name) in zip(columns, names.items()):
            hz = 440 * 2 ** ((midi - 69) / 12)
            for mark, colour in marks:
                pitch = concert(midi)
                command = [leadpipe, "tone", pitch, "--dynamic", mark, "--seconds", "2", "--out", folder]
                subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
                sound, rate = soundfile.read(pathlib.Path(folder) / tone_file(midi))
                steady = sound[rate // 2 : rate // 2 + rate]
                window = np.blackman(len(steady))
                level = 20 * np.log10(np.abs(np.fft.rfft(steady * window)) * 2 / window.sum() + 1e-12)
                partials = range(1, int(10_000 / hz) + 1)
                peaks = [level[round(k * hz) - 8 : round(k * hz) + 9].max() for k in partials]
                axes.plot([k * hz / 1000 for k in partials], peaks, "o-", ms=3, lw=1, color=colour, label=mark)
            axes.set_title(name, size=10)
            axes.set_xlabel("kHz")
    columns[0].set_ylabel("level of each partial, dBFS")
    columns[0].set_ylim(-100, -10)
    columns[-1].legend(frameon=False)
    save(figure, "spectra.svg")


def concert(midi):
    """The name of a sounding pitch."""
    names = "C C# D Eb E F F# G Ab A Bb B".split()
    return f"{names[midi % 12]}{midi // 12 - 1}"


def joins(leadpipe):
    """The same notes slurred and tongued."""
    with tempfile.TemporaryDirectory() as folder:
        rate, parts = render(leadpipe, "slurred.toml", folder)
    guide = parts["guide"]
    figure, axes = plt.subplots(figsize=(9.5, 3.2))
    axes.specgram(
        guide, NFFT=2048, noverlap=1792, Fs=rate, cmap="bone_r", vmin=-118, vmax=-35, rasterized=True
    )
    beat = 60 / 120
    start = 0.5 + 4 * beat
    axes.set_xlim(start - 0.3, start + 20 * beat + 0.3)
    axes.set_ylim(0, 5000)
    axes.set_yticks(range(0, 5001, 1000), [str(k) for k in range(6)])
    axes.set_ylabel("kHz")
    axes.set_xlabel("seconds")
    for at, words in [(start, "slurred"), (start + 12 * beat, "tongued")]:
        axes.annotate(words, (at + 4 * beat, 1.0), xycoords=("data", "axes fraction"), ha="center", va="bottom")
    save(figure, "joins.png")


def sheet(leadpipe):
    """A page of a printed sheet and the shape of a routine, as the program draws them."""
    quiet = {"check": True, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        subprocess.run([leadpipe, "sheet", "second-steps", "--format", "png", "--out", folder], **quiet)
        subprocess.run([leadpipe, "chart", "second-steps", "--out", folder], **quiet)
        (HERE / "shape.svg").write_bytes((folder / "second-steps chart.svg").read_bytes())
        page = PIL.Image.open(folder / "second-steps sheet 2.png").convert("L")
        page = page.resize((page.width * 5 // 8, page.height * 5 // 8), PIL.Image.Resampling.LANCZOS)
        page.quantize(16).save(HERE / "sheet.png", optimize=True)


if __name__ == "__main__":
    sheet(sys.argv[1])
    track(sys.argv[1])
    joins(sys.argv[1])
    spectra(sys.argv[1])
