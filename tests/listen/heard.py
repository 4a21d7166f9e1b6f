"""What is in the rendered files, by libraries that know nothing of leadpipe: librosa for onsets and
pitch, pyloudnorm for loudness by ITU-R BS.1770."""

import glob
import os
from dataclasses import dataclass

import librosa
import numpy as np
import pyloudnorm
import soundfile

import riff

PARTS = {"mix": "", "guide": " guide", "drone": " drone", "click": " click"}
# Frames from one value of pitch to the next, and over which each is measured.
PITCH_HOP, PITCH_FRAME = 512, 2048
ONSET_HOP = 128


@dataclass
class Sound:
    """A track as heard."""

    rate: int
    parts: dict  # 16-bit frames of each part, as floats of full scale 1
    cues: dict
    guide_hz: np.ndarray
    guide_coarse_hz: np.ndarray
    drone_hz: np.ndarray
    guide_onsets: np.ndarray
    click_onsets: np.ndarray
    lufs: float


def listen(folder):
    parts, cues = {}, {}
    for part, ending in PARTS.items():
        (path,) = glob.glob(os.path.join(glob.escape(folder), f"*together{ending}.wav"))
        info = soundfile.info(path)
        if (info.channels, info.subtype) != (1, "PCM_16"):
            raise ValueError(f"{path}: {info.channels} channels of {info.subtype}")
        parts[part], rate = soundfile.read(path, dtype="float32")
        cues[part] = riff.cues(path)
    mix = parts["mix"]
    # On two loudspeakers, as a player hears it: both channels are the same.
    both = np.stack([mix, mix], axis=1)
    return Sound(
        rate=rate,
        parts=parts,
        cues=cues,
        guide_hz=pitch(parts["guide"], rate),
        guide_coarse_hz=coarse_pitch(parts["guide"], rate),
        drone_hz=pitch(parts["drone"], rate),
        guide_onsets=onsets(parts["guide"], rate),
        click_onsets=onsets(parts["click"], rate),
        lufs=pyloudnorm.Meter(rate).integrated_loudness(both),
    )


def pitch(frames, rate, hop=PITCH_HOP):
    """By YIN, which places the period between two frames. The lowest note is concert G3, the lowest
    drone B-flat 2."""
    return librosa.yin(frames, fmin=100, fmax=700, sr=rate, frame_length=PITCH_FRAME, hop_length=hop)


def coarse_pitch(frames, rate):
    """By probabilistic YIN, in steps of a tenth of a half step; it follows a line over time and says
    NaN where there is no pitch."""
    hz, _, _ = librosa.pyin(
        frames, fmin=100, fmax=700, sr=rate, frame_length=PITCH_FRAME, hop_length=PITCH_HOP
    )
    return hz


def onsets(frames, rate):
    """Seconds at which the spectrum changes at once."""
    return librosa.onset.onset_detect(y=frames, sr=rate, hop_length=ONSET_HOP, units="time")


def steady(values, rate, start, end):
    """Those of a series of pitches whose whole window lies between two moments."""
    first = int(np.ceil((start * rate + PITCH_FRAME / 2) / PITCH_HOP))
    last = int(np.floor((end * rate - PITCH_FRAME / 2) / PITCH_HOP))
    return values[first : last + 1]


def cents(hz, midi):
    return 1200 * np.log2(hz / librosa.midi_to_hz(midi))


def level_db(frames, width):
    """RMS in dB of full scale over each `width` frames."""
    whole = frames[: len(frames) // width * width].reshape(-1, width)
    return 10 * np.log10(np.maximum(np.mean(whole.astype(np.float64) ** 2, axis=1), 1e-12))


def sounds(frames, gap):
    """First and last frame of every stretch without `gap` frames of utter silence."""
    loud = np.flatnonzero(frames)
    if loud.size == 0:
        return []
    cut = np.flatnonzero(np.diff(loud) > gap)
    return list(zip(loud[np.r_[0, cut + 1]], loud[np.r_[cut, loud.size - 1]]))
