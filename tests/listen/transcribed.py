"""A neural transcriber writes down what it hears of the guide in every built-in routine.

    python transcribed.py LEADPIPE FOLDER [ROUTINE ...]

LEADPIPE is the program; FOLDER is for its files. The transcriber is the network that comes inside the package
`basic-pitch`, with the package's own way of making notes from it; what is written is read from the program's MIDI file by
mido. A note is heard if one of its pitch begins within 50 ms of it. Controls: the same notes as a plain saw, which shows
what the transcriber can do, and the guide held against notes that are a half step off, which shows that it is not obliging.
"""

import collections
import contextlib
import importlib.util
import io
import logging
import pathlib
import shutil
import subprocess
import sys
import wave

import mido
import numpy as np
import onnxruntime
import scipy.signal

logging.disable(logging.WARNING)
with contextlib.redirect_stderr(io.StringIO()):
    from basic_pitch import constants, note_creation

PRESETS = pathlib.Path(__file__).parents[2] / "presets"
# The network knows the notes of a piano; below concert B-flat 2 and above B-flat 5 it is not asked.
LOWEST, HIGHEST = 46, 82
# Breathing stands in the MIDI file as notes of this channel, and has no pitch to be heard.
BREATH = 2
# The program's sound at twice the rate that the network hears.
RATE, STEP = 2 * constants.AUDIO_SAMPLE_RATE, 2
ONSET_SECONDS = 0.05
# What the package's own program takes for granted, but for the least length of a note: sixteenths are shorter.
ONSET, FRAME, LEAST_SECONDS = 0.5, 0.3, 0.058
# Of a rest as much is heard.
AROUND = 0.25
# Frames of the network's answer that are left out at both ends of a window.
EDGE = 15
# F1 over all routines, and the least of a routine.
WANTED, LEAST = 0.99, 0.97
# Of the saw, and of the guide against other notes.
SAW, OTHER = 0.95, 0.05


def written(path):
    """(start, end, MIDI note) of the guide, in seconds."""
    file = mido.MidiFile(path)
    (guide,) = (track for track in file.tracks if track.name == "guide")
    # The first track has the tempos.
    alone = mido.MidiFile(ticks_per_beat=file.ticks_per_beat, tracks=[file.tracks[0], guide])
    notes, open_notes, now = [], {}, 0.0
    for message in alone:
        now += message.time
        if message.type in ("note_on", "note_off") and message.channel == BREATH:
            continue
        if message.type == "note_on" and message.velocity:
            open_notes[message.note] = now
        elif message.type in ("note_on", "note_off") and message.note in open_notes:
            notes.append((open_notes.pop(message.note), now, message.note))
    return sorted(notes)


def stretches(notes, seconds):
    """Where notes are, each with a little silence around."""
    found = []
    for start, end, _ in notes:
        start, end = max(start - AROUND, 0.0), min(end + AROUND, seconds)
        if found and start <= found[-1][1]:
            found[-1][1] = max(end, found[-1][1])
        else:
            found.append([start, end])
    return found


class Transcriber:
    def __init__(self):
        package = pathlib.Path(importlib.util.find_spec("basic_pitch").origin).parent
        network = package / "saved_models" / "icassp_2022" / "nmp.onnx"
        self.session = onnxruntime.InferenceSession(network, providers=["CPUExecutionProvider"])
        self.input = self.session.get_inputs()[0].name
        # By their names: frames, then onsets.
        self.outputs = ["StatefulPartitionedCall:1", "StatefulPartitionedCall:2"]

    def notes(self, sound):
        """(start, MIDI note) of what is heard."""
        window, overlap = constants.AUDIO_N_SAMPLES, 2 * EDGE * constants.FFT_HOP
        hop = window - overlap
        padded = np.concatenate([np.zeros(overlap // 2, np.float32), sound])
        count = -(-len(padded) // hop)
        padded = np.pad(padded, (0, (count - 1) * hop + window - len(padded)))
        windows = np.stack([padded[n * hop : n * hop + window] for n in range(count)])[:, :, None]
        parts = [self.session.run(self.outputs, {self.input: windows[n : n + 8]}) for n in range(0, count, 8)]
        frames, onsets = (
            np.concatenate([part[kind][:, EDGE:-EDGE].reshape(-1, part[kind].shape[2]) for part in parts])
            for kind in (0, 1)
        )
        # A window has fewer frames than it is long.
        per_window = frames.shape[0] / count
        heard = note_creation.output_to_notes_polyphonic(
            frames,
            onsets,
            ONSET,
            FRAME,
            round(LEAST_SECONDS * constants.ANNOTATIONS_FPS),
            True,
            440 * 2 ** ((HIGHEST + 1 - 69) / 12),
            440 * 2 ** ((LOWEST - 1 - 69) / 12),
        )
        seconds = hop / constants.AUDIO_SAMPLE_RATE / per_window
        return [(start * seconds, note) for start, _, note, _ in heard]


def saw(notes, seconds):
    sound = np.zeros(int(seconds * RATE), np.float32)
    for start, end, note in notes:
        first, last = int(start * RATE), min(int(end * RATE), len(sound))
        t = np.arange(last - first) / RATE
        hz = 440 * 2 ** ((note - 69) / 12)
        loud = np.minimum(1, np.minimum(t, t[::-1]) / 0.01)
        sound[first:last] += 0.2 * loud * scipy.signal.sawtooth(2 * np.pi * hz * t)
    return sound


def heard(transcriber, sound, notes):
    """What is heard in the stretches with notes, which are put one after another for it."""
    asked = [note for note in notes if LOWEST <= note[2] <= HIGHEST]
    all_heard = []
    parts, moved, at = [], [], 0
    for start, end in stretches(asked, len(sound) / RATE):
        first, last = (int(s * RATE) // STEP * STEP for s in (start, end))
        parts.append(sound[first:last])
        moved.append((at / RATE, (at + last - first) / RATE, first / RATE))
        at += last - first
    lower = scipy.signal.resample_poly(np.concatenate(parts), 1, STEP).astype(np.float32)
    for start, note in transcriber.notes(lower):
        for begin, end, was in moved:
            if begin <= start < end:
                all_heard.append((start - begin + was, note))
    return asked, all_heard


def matched(asked, found):
    """How many of the written notes are heard, each by a note of its own; and those that are not."""
    free = collections.defaultdict(list)
    for start, note in sorted(found):
        free[note].append(start)
    missed = []
    for start, _, note in asked:
        near = [at for at in free[note] if abs(at - start) <= ONSET_SECONDS]
        if near:
            free[note].remove(near[0])
        else:
            missed.append((start, note))
    return len(asked) - len(missed), missed


def guide(leadpipe, name, to):
    """The guide's sound and notes."""
    options = ["--guide", "together", "--out", to]
    quiet = dict(check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    subprocess.run([leadpipe, "render", name, "--stems", "--rate", str(RATE), *options], **quiet)
    subprocess.run([leadpipe, "export", name, "--to", "midi", "--out", to], **quiet)
    (midi,), (track,) = to.glob("*.mid"), to.glob("* guide.wav")
    with wave.open(str(track)) as file:
        steps = np.frombuffer(file.readframes(file.getnframes()), np.int16)
    notes = written(midi)
    shutil.rmtree(to)
    return steps.astype(np.float32) / 32768, notes


class Tally:
    """What was written, heard and right, in all and by pitch."""

    def __init__(self):
        self.written = self.heard = self.right = 0
        self.missed = collections.Counter()
        self.octave_up = collections.Counter()

    def add(self, asked, found):
        """The F1 of this part."""
        right, missed = matched(asked, found)
        self.written += len(asked)
        self.heard += len(found)
        self.right += right
        for start, note in missed:
            self.missed[note] += 1
            up = any(other == note + 12 and abs(at - start) <= ONSET_SECONDS for at, other in found)
            self.octave_up[note] += up
        return 2 * right / max(len(asked) + len(found), 1)

    def f1(self):
        return 2 * self.right / max(self.written + self.heard, 1)


def controls(transcriber, sound, notes):
    """The same notes as a saw, and the guide held against notes a half step higher."""
    asked, found = heard(transcriber, saw(notes, len(sound) / RATE), notes)
    as_saw = Tally().add(asked, found)
    asked, found = heard(transcriber, sound, notes)
    other = Tally().add([(start, end, note + 1) for start, end, note in asked], found)
    print(f"controls: as a saw F1 {as_saw:.3f}; against notes a half step higher F1 {other:.3f}")
    return as_saw >= SAW and other <= OTHER


def main(leadpipe, folder, *names):
    folder = pathlib.Path(folder)
    shutil.rmtree(folder, ignore_errors=True)
    # A pedal tone lies below what the network knows, and its partials do not: routines of other instruments are left out.
    trumpet = [path for path in PRESETS.glob("*.toml") if '"trumpet in B-flat"' in path.read_text()]
    names = names or sorted(path.stem for path in trumpet)
    transcriber, tally, failed = Transcriber(), Tally(), []
    for name in names:
        sound, notes = guide(leadpipe, name, folder / name)
        if name == names[0] and not controls(transcriber, sound, notes):
            failed.append("controls")
        asked, found = heard(transcriber, sound, notes)
        f1 = tally.add(asked, found)
        print(f"{name:24} {len(asked):5} notes, {len(found):5} heard, F1 {f1:.3f}", flush=True)
        if f1 < LEAST:
            failed.append(name)
    print(f"all: {tally.written} notes, {tally.heard} heard, {tally.right} right, F1 {tally.f1():.4f}")
    for note, count in sorted(tally.missed.items()):
        print(f"  MIDI note {note}: {count} missed, {tally.octave_up[note]} of them heard an octave up")
    if tally.f1() < WANTED:
        failed.append("all")
    if failed:
        print(f"heard too badly: {', '.join(failed)}")
    return int(bool(failed))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
