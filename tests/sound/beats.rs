//! What is heard of a drone beside a horn that is out of tune: beats of the partials that both have.

use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Held, LineSound};
use std::f64::consts::TAU;

use crate::by_hand::*;
use crate::measure::*;

const RATE: f64 = 48_000.0;

/// Depth of the beats in a band around `hz`: of its envelope, (most - least) / (most + least). The band is that of a
/// Hann window of five periods of the drone, whose other partials it keeps out.
fn depth(x: &[f32], hz: f64, drone_hz: f64) -> f64 {
    let window = (5.0 * RATE / drone_hz) as usize;
    let envelope: Vec<f64> = (0..x.len() - window)
        .step_by(window / 8)
        .map(|at| {
            let (mut re, mut im) = (0.0, 0.0);
            for (i, v) in x[at..at + window].iter().enumerate() {
                let hann = 0.5 - 0.5 * (TAU * i as f64 / window as f64).cos();
                let (sin, cos) = (TAU * hz * i as f64 / RATE).sin_cos();
                re += hann * f64::from(*v) * cos;
                im += hann * f64::from(*v) * sin;
            }
            f64::hypot(re, im)
        })
        .collect();
    let most = envelope.iter().copied().fold(0.0, f64::max);
    let least = envelope.iter().copied().fold(f64::MAX, f64::min);
    (most - least) / (most + least)
}

/// Beats of the horn at mf, 10 cents sharp, with a drone so many octaves below it: in the band of the horn's strongest
/// partial, all of which the drone has too.
fn beats(engine: &Engine, midi: u8, octaves: i32) -> f64 {
    let hz = midi_hz(f64::from(midi));
    let drone_hz = hz / 2f64.powi(octaves);
    let line = LineSound {
        tones: vec![tone(0, 120_000, hz * 2f64.powf(10.0 / 1200.0), -5.0)],
        drone: vec![Held {
            frame: 0,
            end: 120_000,
            hz: vec![drone_hz],
            fade: 0,
        }],
        ..LineSound::default()
    };
    let voices = perform(engine, &unit(120_000, line));
    let strongest = strongest_partial(&voices.guide[20_000..52_768], RATE, hz, 12);
    depth(
        &voices.mix()[12_000..110_000],
        strongest as f64 * hz,
        drone_hz,
    )
}

/// With a drone whose spectrum fell from 950 Hz on, the depth was 0.09 to 0.20 (mean 0.12) in unison and 0.06 to 0.13
/// (0.08) an octave above.
#[test]
fn ten_cents_are_heard_as_beats_beside_a_horn() {
    let engine = Engine::with(48_000, Life::Off);
    for (octaves, least, mean_least) in [(0, 0.13, 0.2), (1, 0.06, 0.15)] {
        let all: Vec<f64> = (GUIDE.step_by(3))
            .map(|midi| beats(&engine, midi, octaves))
            .collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        println!("{octaves} octaves below: {all:.2?}, mean {mean:.3}");
        assert!(
            all.iter().all(|depth| *depth > least),
            "{octaves}: {all:.2?}"
        );
        assert!(mean > mean_least, "{octaves}: {mean:.3}");
    }
}
