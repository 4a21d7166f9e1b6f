"""Harmonic profiles: measuring them, and how far two of them lie apart."""

import numpy as np

PARTIALS = 20
FLOOR_DB = -50.0
# Above this share of the sample rate a rate converter's filter has begun: in one of the sets all four high notes fall
# by 7 to 14 dB from one partial to the next there, and by 1 to 5 below.
CARRIED = 0.4


def window(n: int) -> np.ndarray:
    """Four-term Blackman-Harris."""
    t = 2 * np.pi * np.arange(n) / n
    return 0.35875 - 0.48829 * np.cos(t) + 0.14128 * np.cos(2 * t) - 0.01168 * np.cos(3 * t)


def pitch(x: np.ndarray, rate: float, lowest: float = 140) -> float:
    """Of the first shortest lag at which the sound is nearly what it was."""
    y = x[:16384] - x[:16384].mean()
    n = len(y)
    likeness = np.fft.irfft(abs(np.fft.rfft(y, 2 * n)) ** 2)[:n] / (n - np.arange(n))
    first, last = int(rate / 1300), min(int(rate / lowest), n // 2)
    most = likeness[first:last].max()
    for i in range(first + 1, last - 1):
        before, here, after = likeness[i - 1 : i + 2]
        if here >= before and here >= after and here > 0.9 * most:
            return rate / (i + 0.5 * (before - after) / (before - 2 * here + after))
    raise ValueError("no pitch")


def profile(x: np.ndarray, rate: float, partials: int = 30, lowest: float = 140) -> tuple[float, np.ndarray]:
    """Pitch, and the levels in dB of its partials: power averaged over windows of 14 periods."""
    guess = pitch(x, rate, lowest)
    n = min(int(14 * rate / guess), len(x))
    shape, size = window(n), 8 * n
    rows, pitches = [], []
    for at in range(0, len(x) - n + 1, n // 2):
        spectrum = abs(np.fft.rfft(x[at : at + n] * shape, size))

        def strongest(hz: float, around: float) -> tuple[float, float]:
            low, high = int((hz - around) * size / rate), int((hz + around) * size / rate) + 1
            if hz > CARRIED * rate:
                return np.nan, hz
            i = low + int(spectrum[low:high].argmax())
            return spectrum[i], i * rate / size

        heights = [(strongest(k * guess, 0.3 * guess)[0], k) for k in range(1, 9)]
        k = max(h for h in heights if h[0] == h[0])[1]
        exact = strongest(k * guess, 0.3 * guess)[1] / k
        pitches.append(exact)
        rows.append([strongest(k * exact, 0.25 * exact)[0] for k in range(1, partials + 1)])
    levels = np.sqrt(np.mean(np.square(rows), axis=0))
    return float(np.median(pitches)), 20 * np.log10(levels + 1e-12)


def difference(a: np.ndarray, b: np.ndarray, tilt: bool = False) -> float:
    """RMS difference in dB of two profiles with levels aligned; with `tilt`, also a line over octaves."""
    n = min(PARTIALS, len(a), len(b))
    a, b = a[:n], b[:n]
    both = ~(np.isnan(a) | np.isnan(b))
    a = np.maximum(a - np.nanmax(a), FLOOR_DB)
    b = np.maximum(b - np.nanmax(b), FLOOR_DB)
    both &= ~((a <= FLOOR_DB) & (b <= FLOOR_DB))
    apart, k = (a - b)[both], np.arange(1, n + 1)[both]
    terms = [np.ones(len(k))] + ([np.log2(k)] if tilt else [])
    terms = np.stack(terms, axis=1)
    apart = apart - terms @ np.linalg.lstsq(terms, apart, rcond=None)[0]
    return float(np.sqrt(np.mean(apart**2)))
