//! Signs in a rest: a soft falling pair of tones says *horn down*, a rising pair *horn up*.

use fundsp::prelude64::{An, AudioNode, U0, U1, sine_hz};

use super::{graph, levels};
use crate::timeline::Sign;

/// Length of a sign, seconds.
pub const SIGN_SECONDS: f64 = 0.6;
/// Length of either tone, seconds; the second begins when the first is half gone.
const TONE_SECONDS: f64 = 0.38;
/// A fourth, away from any one key's tonic triad for long, in the middle of the horn's compass, Hz.
const LOW_HZ: f32 = 493.883;
const HIGH_HZ: f32 = 659.255;

/// A sign's sound.
pub fn play(sign: Sign, sample_rate: f64) -> Vec<f32> {
    let (first, second) = match sign {
        Sign::HornDown => (HIGH_HZ, LOW_HZ),
        Sign::HornUp => (LOW_HZ, HIGH_HZ),
    };
    let pair = tone(first) * graph::curve(shape)
        + tone(second) * graph::curve(|t| shape(t - (SIGN_SECONDS - TONE_SECONDS)));
    let frames = (SIGN_SECONDS * sample_rate) as usize;
    levels::scaled(graph::play(pair, sample_rate, frames), levels::SIGN_PEAK)
}

/// A soft bar-like tone: its octave and double octave are for small loudspeakers.
fn tone(hz: f32) -> An<impl AudioNode<Inputs = U0, Outputs = U1>> {
    sine_hz(hz).phase(0.0) * 0.75
        + sine_hz(2.0 * hz).phase(0.0) * 0.2
        + sine_hz(4.0 * hz).phase(0.0) * 0.05
}

/// Rise in 25 ms, then away; 0 outside the tone.
fn shape(t: f64) -> f64 {
    if !(0.0..TONE_SECONDS).contains(&t) {
        return 0.0;
    }
    let smooth = |x: f64| {
        let x = x.clamp(0.0, 1.0);
        x * x * (3.0 - 2.0 * x)
    };
    smooth(t / 0.025) * libm::exp(-t / 0.16) * smooth((TONE_SECONDS - t) / 0.12)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_end_in_silence_within_their_length() {
        for sign in [Sign::HornDown, Sign::HornUp] {
            let sound = play(sign, 48_000.0);
            assert_eq!(sound.len(), 28_800);
            assert!(sound[0].abs() < 1e-4 && sound[28_799].abs() < 1e-4);
            let peak = sound.iter().fold(0.0f32, |m, x| m.max(x.abs()));
            assert!((f64::from(peak) - levels::SIGN_PEAK).abs() < 1e-6);
        }
    }
}
