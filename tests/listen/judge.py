"""Holds what is heard against what is written. Each function returns its complaints; none is silence.

Tolerances are those of the methods, or of what the written meaning leaves open; what the meaning fixes
to the frame is compared to the frame.
"""

import numpy as np

from heard import cents, level_db, librosa, pitch, sounds, steady
from written import FADE, nearest

# An onset is found in hops of 3 ms, a click's at its first frames: a third of the 30 ms it lasts.
CLICK_ONSET_SECONDS = 0.010
# A tone takes 10 to 20 ms to rise; 30 ms is what two players may be apart and still be heard as together.
# A slur on one tube glides for up to 80 ms, and the sound comes back from its dip at the end of it.
SLUR_SECONDS = 0.08
NOTE_ONSET_SECONDS = 0.030
# A slurred note has no onset, its pitch changes with the beat in the middle of 12 to 70 ms; pitch is
# measured over 46 ms, and passes the middle within half of that.
CHANGE_SECONDS, CHANGE_HOP = 0.025, 128
# Signs rise from nothing: their first frames are lost to 16 bits.
SIGN_SECONDS = 0.010
# The drift of a living tone goes up and down by about 3 cents; the median of a note is left. Less than
# the 5 cents or so that a good ear notices.
GUIDE_CENTS = 3.0
# Pitch in steps of a tenth of a half step: one step either way.
COARSE_CENTS = 10.0
# The drone does not drift.
DRONE_CENTS = 1.0
# Rise and fall of a note, left out where its pitch is measured.
EDGE_SECONDS = 0.060
# The middle of a note's rise is on its beat, so that it starts a little before.
EARLY_SECONDS = 0.03
# The drone takes longer to move to another pitch.
DRONE_EDGE_SECONDS = 0.15
# A tongued note begins from silence, a slurred one with a dip of a few dB (the deepest, over partials, is
# 8 dB): any value well between tells them apart. In windows of 3.3 ms, 50 ms either side of the beat.
TONGUED_DB, SLURRED_DB = -40.0, -12.0
DIP_WINDOW, DIP_REACH = 147, 15
# What the levels promise of a usual routine on two loudspeakers.
LUFS, LUFS_TOLERANCE = -16.0, 1.0
# Breathing is heard: louder than this.
BREATH_DB = -45.0
# The mix and three stems, each rounded by half a step at most: two steps.
STEM_STEPS = 2


def complaints(track, sound):
    found = []
    for subject in SUBJECTS:
        # Where lengths, cues or clicks are out of step, all that follows would be too.
        if subject is click_onsets and found:
            break
        found += [f"{subject.__name__}: {said}" for said in subject(track, sound)]
    return found


def length(track, sound):
    last = track.lines[-1]
    frames = last.frame(0, sound.rate) + nearest((last.length + FADE) * sound.rate)
    for part, heard in sound.parts.items():
        if len(heard) != frames:
            yield f"{part} is {len(heard)} frames long, written {frames}"


def stems(track, sound):
    parts = sound.parts
    off = np.abs(parts["mix"] - parts["guide"] - parts["drone"] - parts["click"]) * 32768
    if off.max() > STEM_STEPS:
        yield f"the stems miss the mix by {off.max():.0f} steps at frame {off.argmax()}"


def cues(track, sound):
    written = [
        (line.frame(0, sound.rate), nearest(line.length * sound.rate), line.label) for line in track.lines
    ]
    for part, heard in sound.cues.items():
        if [(cue.frame, cue.frames, cue.label) for cue in heard] != written:
            yield f"{part} has {heard}, written {written}"


def clicks(track, sound):
    """To the frame, by what is no longer zero; accents by the louder peak."""
    heard = [s for s in sounds(sound.parts["click"], 200) if s[1] - s[0] < 0.1 * sound.rate]
    written = [(line.frame(at, sound.rate), loud) for line in track.lines for at, loud in line.clicks]
    if [int(first) for first, _ in heard] != [frame for frame, _ in written]:
        yield f"{len(heard)} heard at other frames than the {len(written)} written"
        return
    peaks = np.array([np.abs(sound.parts["click"][a:b]).max() for a, b in heard])
    middle = (peaks.max() + peaks.min()) / 2
    for (frame, accented), peak in zip(written, peaks):
        if (peak > middle) != accented:
            yield f"at frame {frame} the accent is wrong"


def click_onsets(track, sound):
    written = [float(line.start + at) for line in track.lines for at, _ in line.clicks]
    signs = [float(at) for line in track.lines for at, _ in line.signs]
    # A sign is not struck: where its tones are found to begin is compared below.
    heard = [at for at in sound.click_onsets if not any(0 <= at - sign < 0.6 for sign in signs)]
    yield from matched(written, heard, CLICK_ONSET_SECONDS)


def signs(track, sound):
    frames, rate = sound.parts["click"], sound.rate
    written = [sign for line in track.lines for sign in line.signs]
    heard = [s for s in sounds(frames, 200) if s[1] - s[0] >= 0.1 * rate]
    if len(heard) != len(written):
        yield f"{len(heard)} heard, {len(written)} written"
    for (at, rising), (first, last) in zip(written, heard):
        if abs(first / rate - float(at)) > SIGN_SECONDS:
            yield f"heard at {first / rate:.3f} s, written {float(at):.3f}"
        fifth = (last - first) // 5
        low, high = (
            np.median(librosa.yin(frames[a:b], fmin=300, fmax=1000, sr=rate))
            for a, b in ((first, first + fifth), (last - fifth, last))
        )
        if (high > low) != rising:
            yield f"at {float(at):.1f} s it moves from {low:.0f} to {high:.0f} Hz"


def notes(track):
    return [
        (float(line.start + note.start), float(line.start + note.end), note)
        for line in track.lines
        for note in line.notes
    ]


def note_onsets(track, sound):
    """Every tongued note begins with an onset, and every onset belongs to a note, tongued or slurred."""
    breaths = [
        (float(line.start + b.start) - 0.05, float(line.start + b.end) + 0.05)
        for line in track.lines
        for b in line.breaths
    ]
    # Noise changes at any time: nothing is said of onsets in it.
    heard = [at for at in sound.guide_onsets if not any(a <= at <= b for a, b in breaths)]
    written = notes(track)
    tongued = [start for start, _, note in written if not note.slurred]
    for start in tongued:
        if not any(abs(at - start) <= NOTE_ONSET_SECONDS for at in heard):
            yield f"nothing begins at {start:.3f} s"
    for at in heard:
        if not any(
            -NOTE_ONSET_SECONDS <= at - start <= (SLUR_SECONDS if note.slurred else NOTE_ONSET_SECONDS)
            for start, _, note in written
        ):
            yield f"something begins at {at:.3f} s that is not written"


def changes(track, sound):
    """A slurred note is there when the pitch has come half the way to it."""
    reach = int(0.1 * sound.rate)
    for line in track.lines:
        for before, note in zip(line.notes, line.notes[1:]):
            if not note.slurred:
                continue
            at = line.frame(note.start, sound.rate)
            hz = pitch(sound.parts["guide"][at - reach : at + reach], sound.rate, CHANGE_HOP)
            done = np.abs(cents(hz, note.midi)) < np.abs(cents(hz, before.midi))
            # The first and the last windows hang over the edges.
            late = (np.argmax(done[8:-8]) + 8) * CHANGE_HOP - reach
            if not done[8:-8].any() or abs(late) > CHANGE_SECONDS * sound.rate:
                yield f"at {at / sound.rate:.3f} s the pitch changes {late / sound.rate:+.3f} s away"


def pitches(track, sound):
    for hz, tolerance in (
        (sound.guide_hz, GUIDE_CENTS),
        (sound.guide_coarse_hz, COARSE_CENTS),
    ):
        for start, end, note in notes(track):
            values = steady(hz, sound.rate, start + EDGE_SECONDS, end - EDGE_SECONDS)
            if len(values) < 10 or np.isnan(values).any():
                yield f"at {start:.2f} s there is no steady pitch"
                continue
            off = cents(np.median(values), note.midi)
            if abs(off) > tolerance:
                yield f"at {start:.2f} s it is {off:+.1f} cents off MIDI note {note.midi}"


def joins(track, sound):
    """A tongued note begins from silence, a slurred one does not."""
    frames, around = sound.parts["guide"], DIP_WINDOW * DIP_REACH
    for line in track.lines:
        for note in line.notes:
            at, end = line.frame(note.start, sound.rate), line.frame(note.end, sound.rate)
            body = level_db(frames[at + around : end - around], end - at - 2 * around)[0]
            dip = level_db(frames[at - around : at + around], DIP_WINDOW).min() - body
            if dip < SLURRED_DB if note.slurred else dip > TONGUED_DB:
                wanted = "slurred" if note.slurred else "tongued"
                yield f"at {at / sound.rate:.2f} s, {wanted}, the level dips by {dip:.1f} dB"


def silence(track, sound):
    """The guide is utterly silent wherever nothing is written."""
    silent = sound.parts["guide"] == 0
    early = int(EARLY_SECONDS * sound.rate)
    for line in track.lines:
        for thing in line.notes + line.breaths:
            silent[line.frame(thing.start, sound.rate) - early : line.frame(thing.end, sound.rate)] = True
    if not silent.all():
        yield f"the guide sounds at {np.argmin(silent) / sound.rate:.3f} s, where nothing is written"


def breaths(track, sound):
    for line in track.lines:
        centroids = {True: [], False: []}
        for breath in line.breaths:
            start, end = (line.frame(at, sound.rate) for at in (breath.start, breath.end))
            third = (end - start) // 3
            middle = sound.parts["guide"][start + third : end - third]
            level = level_db(middle, len(middle))[0]
            pitched = steady(sound.guide_coarse_hz, sound.rate, start / sound.rate, end / sound.rate)
            if level < BREATH_DB or not np.isnan(pitched).all():
                yield f"at {start / sound.rate:.2f} s it is no noise, or of {level:.1f} dB"
            centroid = librosa.feature.spectral_centroid(y=middle, sr=sound.rate).mean()
            centroids[breath.inward].append(centroid)
        # Breathing in hisses, breathing out is dark.
        if line.breaths and min(centroids[True], default=0) <= max(centroids[False], default=0):
            yield f"{line.label}: in and out cannot be told apart"


def drone(track, sound):
    for line in track.lines:
        for held in line.drone:
            start, end = (float(line.start + at) for at in (held.start, held.end))
            inside = (start + DRONE_EDGE_SECONDS, end - DRONE_EDGE_SECONDS)
            values = steady(sound.drone_hz, sound.rate, *inside)
            off = cents(np.median(values), held.midi)
            if abs(off) > DRONE_CENTS:
                yield f"at {start:.2f} s it is {off:+.1f} cents off MIDI note {held.midi}"


def loudness(track, sound):
    if abs(sound.lufs - LUFS) > LUFS_TOLERANCE:
        yield f"{sound.lufs:.2f} LUFS on two loudspeakers, {LUFS} promised"


def matched(written, heard, tolerance):
    """One onset for each that is written, and none besides."""
    heard = sorted(heard)
    for at in written:
        nearest_one = min(heard, key=lambda h: abs(h - at), default=None)
        if nearest_one is None or abs(nearest_one - at) > tolerance:
            yield f"nothing begins at {at:.3f} s"
        else:
            heard.remove(nearest_one)
    for at in heard:
        yield f"something begins at {at:.3f} s that is not written"


SUBJECTS = [
    length,
    stems,
    cues,
    clicks,
    click_onsets,
    signs,
    note_onsets,
    changes,
    pitches,
    joins,
    silence,
    breaths,
    drone,
    loudness,
]
