//! Measuring sound. Nothing here knows how the sound was made: it uses an FFT crate and sums, shares no
//! code with the synthesis, and states its accuracy. `tests/measuring.rs` checks it against known signals.
#![allow(dead_code, reason = "each test binary uses its own part")]

use rustfft::{Fft, FftPlanner, num_complex::Complex64};
use std::cell::RefCell;
use std::collections::HashMap;
use std::f64::consts::TAU;
use std::rc::Rc;
use std::sync::Arc;

/// The frequency of a MIDI note number at A4 = 440 Hz (MIDI 1.0; ISO 16:1975).
pub fn midi_hz(midi: f64) -> f64 {
    440.0 * ((midi - 69.0) / 12.0).exp2()
}

/// Interval from `from` to `to` in cents.
pub fn cents(from: f64, to: f64) -> f64 {
    1200.0 * (to / from).log2()
}

/// The level of a ratio of amplitudes.
pub fn db(ratio: f64) -> f64 {
    20.0 * ratio.max(1e-30).log10()
}

/// Largest absolute value.
pub fn peak(x: &[f32]) -> f64 {
    x.iter().fold(0.0, |m, v| m.max(f64::from(v.abs())))
}

/// Root of the mean square.
pub fn rms(x: &[f32]) -> f64 {
    let power: f64 = x.iter().map(|v| f64::from(*v) * f64::from(*v)).sum();
    (power / x.len().max(1) as f64).sqrt()
}

/// Largest step from one frame to the next.
pub fn largest_step(x: &[f32]) -> f64 {
    x.windows(2)
        .fold(0.0, |m, w| m.max(f64::from((w[1] - w[0]).abs())))
}

/// First frame at or after `from` that is louder than `threshold`.
pub fn onset(x: &[f32], from: usize, threshold: f64) -> Option<usize> {
    (from..x.len()).find(|&i| f64::from(x[i].abs()) > threshold)
}

/// RMS over `window` frames, every `hop`: pairs of the window's middle and its RMS.
pub fn levels(x: &[f32], window: usize, hop: usize) -> Vec<(usize, f64)> {
    (0..)
        .map(|i| i * hop)
        .take_while(|at| at + window <= x.len())
        .map(|at| (at + window / 2, rms(&x[at..at + window])))
        .collect()
}

/// What a spectrum of one length needs: the window and the transform, worked out once a thread.
struct Lens {
    window: Vec<f64>,
    transform: Arc<dyn Fft<f64>>,
}

impl Lens {
    fn of(n: usize) -> Rc<Self> {
        thread_local! {
            static LENSES: RefCell<HashMap<usize, Rc<Lens>>> = RefCell::default();
        }
        let window = |i: usize| {
            let t = TAU * i as f64 / n as f64;
            0.35875 - 0.48829 * t.cos() + 0.14128 * (2.0 * t).cos() - 0.01168 * (3.0 * t).cos()
        };
        LENSES.with_borrow_mut(|lenses| {
            let lens = lenses.entry(n).or_insert_with(|| {
                Rc::new(Self {
                    window: (0..n).map(window).collect(),
                    transform: FftPlanner::new().plan_fft_forward(n),
                })
            });
            Rc::clone(lens)
        })
    }
}

/// Magnitudes of the spectrum up to half the sample rate, as peak amplitudes, through a four-term
/// Blackman-Harris window (side lobes below −92 dB; Harris, Proc. IEEE 66:51, 1978).
pub fn spectrum(x: &[f32]) -> Vec<f64> {
    let n = x.len();
    let lens = Lens::of(n);
    let windowed = x.iter().zip(&lens.window);
    let mut data: Vec<Complex64> = windowed
        .map(|(v, w)| Complex64::new(f64::from(*v) * w, 0.0))
        .collect();
    lens.transform.process(&mut data);
    let scale = 2.0 / (0.35875 * n as f64);
    data[..n / 2].iter().map(|c| c.norm() * scale).collect()
}

/// Half the width in bins of a spectral line in [`spectrum`].
pub const LINE_BINS: usize = 5;

/// The mean frequency of `x` near `hz` (within about 40 cents), from the turn of the phase of its
/// strongest partial of the first eight; to better than 0.02 cents for a steady tone of 0.3 s.
pub fn pitch(x: &[f32], rate: f64, hz: f64) -> f64 {
    let k = strongest_partial(x, rate, hz, 8);
    mean_frequency(x, rate, k as f64 * hz) / k as f64
}

/// Number of the strongest partial of `hz` up to `most`.
pub fn strongest_partial(x: &[f32], rate: f64, hz: f64, most: usize) -> usize {
    let amplitudes = partials(x, rate, hz, most);
    (1..=amplitudes.len())
        .max_by(|a, b| amplitudes[a - 1].total_cmp(&amplitudes[b - 1]))
        .unwrap_or(1)
}

/// Mean frequency of the component near `hz`: the phase it has turned between a window at the beginning
/// and one at the end, followed through windows between.
fn mean_frequency(x: &[f32], rate: f64, hz: f64) -> f64 {
    let window = ((16.0 * rate / hz.min(600.0)) as usize).min(x.len() / 3);
    let hop = window / 4;
    let hann: Vec<f64> = (0..window)
        .map(|i| 0.5 - 0.5 * (TAU * (i as f64 + 0.5) / window as f64).cos())
        .collect();
    // Turned back by `hz`, so that only what it is off turns on. Windows overlap: once for all of them.
    let still: Vec<Complex64> = (x.iter().enumerate())
        .map(|(i, v)| Complex64::from_polar(f64::from(*v), -TAU * hz * (i as f64 / rate)))
        .collect();
    let phase_at = |at: usize| {
        let seen = still[at..at + window].iter().zip(&hann);
        seen.map(|(v, w)| v * w).sum::<Complex64>().arg()
    };
    let (mut turned, mut at) = (0.0, 0);
    let mut last = phase_at(0);
    while at + hop + window <= x.len() {
        at += hop;
        let now = phase_at(at);
        let mut step = now - last;
        step -= TAU * (step / TAU).round();
        turned += step;
        last = now;
    }
    hz + turned / TAU * rate / at as f64
}

/// Frequency over time near `hz`: pairs of a window's middle frame and the frequency there, by the turn of
/// phase from window to window of its first partial.
pub fn pitch_track(x: &[f32], rate: f64, hz: f64, window: usize, hop: usize) -> Vec<(usize, f64)> {
    (0..)
        .map(|i| i * hop)
        .take_while(|at| at + window <= x.len())
        .map(|at| {
            (
                at + window / 2,
                mean_frequency(&x[at..at + window], rate, hz),
            )
        })
        .collect()
}

/// Peak amplitudes of partials 1, 2, … up to `most` or half the sample rate.
pub fn partials(x: &[f32], rate: f64, hz: f64, most: usize) -> Vec<f64> {
    let spectrum = spectrum(x);
    let bin = rate / x.len() as f64;
    (1..=most)
        .map(|k| k as f64 * hz / bin)
        .take_while(|place| *place + (LINE_BINS as f64) < spectrum.len() as f64)
        .map(|place| {
            let middle = place.round() as usize;
            spectrum[middle.saturating_sub(LINE_BINS)..=middle + LINE_BINS]
                .iter()
                .fold(0.0, |m: f64, v| m.max(*v))
        })
        .collect()
}

/// Spectral centroid in partials, weighted by amplitude.
pub fn centroid(partials: &[f64]) -> f64 {
    let weighted: f64 = partials
        .iter()
        .enumerate()
        .map(|(i, a)| (i + 1) as f64 * a)
        .sum();
    weighted / partials.iter().sum::<f64>()
}

/// The strongest component that is no partial of `hz`, in dB against the strongest that is.
pub fn inharmonic_db(x: &[f32], rate: f64, hz: f64) -> f64 {
    let spectrum = spectrum(x);
    let bin = rate / x.len() as f64;
    let (mut harmonic, mut other) = (0.0f64, 0.0f64);
    for (i, &a) in spectrum.iter().enumerate() {
        let place = i as f64 * bin / hz;
        let away = (place - place.round()).abs() * hz / bin;
        if away <= LINE_BINS as f64 && place.round() >= 1.0 {
            harmonic = harmonic.max(a);
        } else if i > LINE_BINS {
            other = other.max(a);
        }
    }
    db(other / harmonic)
}

/// Energy between two frequencies as a share of the whole.
pub fn share_between(x: &[f32], rate: f64, low: f64, high: f64) -> f64 {
    let bin = rate / x.len() as f64;
    let (mut inside, mut whole) = (0.0, 0.0);
    for (i, a) in spectrum(x).into_iter().enumerate() {
        whole += a * a;
        if (low..high).contains(&(i as f64 * bin)) {
            inside += a * a;
        }
    }
    inside / whole
}

/// Power of the harmonics of `hz` over that of the noise between them up to 9 kHz, in dB. Noise is what lies
/// in the middle between two partials, taken to be as dense under them; median over windows of 0.25 s.
pub fn harmonics_over_noise_db(x: &[f32], rate: f64, hz: f64) -> f64 {
    let size = (0.25 * rate) as usize;
    let mut ratios: Vec<f64> = (0..)
        .map(|i| i * size / 2)
        .take_while(|at| at + size <= x.len())
        .map(|at| {
            let spectrum = spectrum(&x[at..at + size]);
            let place = |i: usize| i as f64 * rate / size as f64 / hz;
            let (mut whole, mut noise) = (0.0, 0.0);
            for k in 1..=(9_000.0 / hz) as usize {
                let bin = |partials: f64| partials * hz * size as f64 / rate;
                let around = bin(k as f64 - 0.5) as usize..bin(k as f64 + 0.5) as usize + 2;
                let band: Vec<(f64, f64)> = around
                    .filter(|i| *i < spectrum.len())
                    .map(|i| ((place(i) - k as f64).abs(), spectrum[i].powi(2)))
                    .filter(|(away, _)| *away <= 0.5)
                    .collect();
                let mut between: Vec<f64> = band
                    .iter()
                    .filter(|(away, _)| *away > 0.42)
                    .map(|(_, power)| *power)
                    .collect();
                between.sort_by(f64::total_cmp);
                // Power of noise is spread so that its median is ln 2 of its mean.
                noise += between[between.len() / 2] / 2f64.ln() * band.len() as f64;
                whole += band.iter().map(|(_, power)| power).sum::<f64>();
            }
            10.0 * (whole / noise - 1.0).max(1e-9).log10()
        })
        .collect();
    ratios.sort_by(f64::total_cmp);
    ratios[ratios.len() / 2]
}
