//! Tuning from text to sound: beats between guide and drone, pure intervals, the horn's own pitches.

use leadpipe::music::{Decimal, Temperament, Tuning};
use leadpipe::routine;
use leadpipe::score::{self, Take};
use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{self, Content, Settings, Unit};
use rustfft::{FftPlanner, num_complex::Complex64};
use std::f64::consts::TAU;

use crate::by_hand::*;
use crate::measure::*;

const RATE: u32 = 44_100;

fn tuning(a4: &str, temperament: Temperament) -> Tuning {
    Tuning::new(Decimal::parse(a4).expect("a number"), temperament).expect("a concert pitch")
}

/// The unit of a routine of one line at 60 clicks a minute, all else unsaid.
fn line(text: &str, tuning: Tuning) -> Unit {
    let text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G5\"\n\
         tempo = 60\n[[line]]\nname = \"L\"\n{text}\n"
    );
    let routine = routine::read(&text).unwrap_or_else(|f| panic!("{f:#?}"));
    let take = Take {
        tuning,
        ..Take::default()
    };
    let score = score::unroll(&routine, &take).expect("it unrolls");
    let settings = Settings {
        sample_rate: RATE,
        ..Settings::default()
    };
    let timeline = timeline::compile(&score, &settings);
    let mut units = timeline.units.into_iter();
    units
        .find(|unit| matches!(unit.content, Content::Line(_)))
        .expect("there is a line")
}

/// The voices without drift and noise.
fn plain(unit: &Unit) -> Voices {
    perform(&Engine::with(RATE, Life::Off), unit)
}

/// Frames of the steady part of note `number` of four seconds each, after four clicks of count-in.
fn steady(number: usize) -> std::ops::Range<usize> {
    let second = RATE as usize;
    let start = (4 + 4 * number) * second;
    start + second / 4..start + 4 * second - second / 4
}

/// The written pitches of a line of whole notes and what is heard of each, guide and drone.
fn heard(notes: &[&str], extra: &str, tuning: Tuning) -> Vec<(f64, f64)> {
    let written: Vec<String> = notes.iter().map(|n| format!("{n}:whole")).collect();
    let unit = line(
        &format!("notes = \"{}\"\n{extra}", written.join(" ")),
        tuning,
    );
    let voices = plain(&unit);
    let rate = f64::from(RATE);
    let Content::Line(sound) = &unit.content else {
        unreachable!("a line was asked for");
    };
    let mut heard = vec![];
    for (number, tone) in sound.tones.iter().enumerate() {
        let part = steady(number);
        let drone = sound.drone[0].hz[0];
        heard.push((
            pitch(&voices.guide[part.clone()], rate, tone.steps[0].hz),
            pitch(&voices.drone[part], rate, drone),
        ));
    }
    assert_eq!(heard.len(), notes.len());
    heard
}

/// Beats a second of the loudness of `x` near `hz`.
fn beats(x: &[f32], hz: f64) -> f64 {
    let rate = f64::from(RATE);
    // Shifted to 0 Hz and averaged through 50 ms of a Hann window: the nearest other partials are 200 Hz
    // away.
    let window = (0.05 * rate) as usize;
    let step = window / 8;
    let hann: Vec<f64> = (0..window)
        .map(|i| 0.5 - 0.5 * (TAU * i as f64 / window as f64).cos())
        .collect();
    let shifted: Vec<Complex64> = x
        .iter()
        .enumerate()
        .map(|(i, v)| Complex64::from_polar(f64::from(*v), -TAU * hz * i as f64 / rate))
        .collect();
    let mut power: Vec<f64> = (0..shifted.len() - window)
        .step_by(step)
        .map(|at| {
            let weighted = shifted[at..at + window].iter().zip(&hann);
            weighted.map(|(v, w)| v * w).sum::<Complex64>().norm_sqr()
        })
        .collect();
    let mean = power.iter().sum::<f64>() / power.len() as f64;
    let n = power.len() as f64;
    for (i, p) in power.iter_mut().enumerate() {
        *p = (*p - mean) * (0.5 - 0.5 * (TAU * i as f64 / n).cos());
    }
    // Padded, so that a peak between two bins is found to a hundredth of a hertz.
    let size = 1 << 20;
    let mut bins: Vec<Complex64> = power.iter().map(|p| Complex64::new(*p, 0.0)).collect();
    bins.resize(size, Complex64::default());
    FftPlanner::new().plan_fft_forward(size).process(&mut bins);
    let bin_hz = rate / step as f64 / size as f64;
    let from = (0.3 / bin_hz) as usize;
    let to = (20.0 / bin_hz) as usize;
    let peak = (from..to).max_by(|a, b| bins[*a].norm().total_cmp(&bins[*b].norm()));
    peak.expect("there are bins") as f64 * bin_hz
}

/// Equal-tempered intervals over a drone on Bb3 beat |q·f_note − p·f_drone| times a second (computed
/// from A4 = 440 Hz, ISO 16): heard as the loudness of the partial they share.
#[test]
fn equal_intervals_beat_against_the_drone_as_the_formula_says() {
    for (note, midi, (p, q), per_second) in [
        ("G4", 65.0, (3.0, 2.0), 0.789),
        ("E4", 62.0, (5.0, 4.0), 9.250),
        ("Eb4", 61.0, (6.0, 5.0), 12.578),
        ("F4", 63.0, (4.0, 3.0), 1.053),
    ] {
        // Twelve seconds of one note, written C4 is concert Bb3.
        let text = format!("notes = \"{note}:whole tie:whole tie:whole\"\ndrone = \"Bb3\"");
        let voices = plain(&line(&text, Tuning::ISO_16));
        let part = 5 * RATE as usize..15 * RATE as usize;
        let b_flat_3 = midi_hz(58.0);
        let mut shared = voices.drone[part.clone()].to_vec();
        // As loud as the drone's partial, so that they all but cancel in turn.
        let guide = &voices.guide[part];
        let (k_drone, k_guide) = (p as usize, q as usize);
        let of = |x: &[f32], hz, k: usize| partials(x, f64::from(RATE), hz, k)[k - 1];
        let gain = of(&shared, b_flat_3, k_drone) / of(guide, midi_hz(midi), k_guide);
        for (sum, g) in shared.iter_mut().zip(guide) {
            *sum += *g * gain as f32;
        }
        let found = beats(&shared, b_flat_3 * p);
        assert!(
            (found - per_second).abs() < 0.03,
            "{note}: {found} beats a second, not {per_second}"
        );
    }
}

/// Pure intervals over the tonic: ratios from any acoustics text (FACTS: just minus equal in cents).
#[test]
fn just_intervals_stand_still_over_the_drone() {
    let just = tuning("440", Temperament::Just);
    let notes = ["C4", "D4", "Eb4", "E4", "F4", "G4", "Ab4", "A4", "B4", "C5"];
    let ratios: [(f64, f64); 10] = [
        (1.0, 1.0),
        (9.0, 8.0),
        (6.0, 5.0),
        (5.0, 4.0),
        (4.0, 3.0),
        (3.0, 2.0),
        (8.0, 5.0),
        (5.0, 3.0),
        (15.0, 8.0),
        (2.0, 1.0),
    ];
    let heard = heard(&notes, "tonic = \"C4\"\ndrone = \"Bb3\"", just);
    for ((note, (p, q)), (guide, drone)) in notes.iter().zip(ratios).zip(heard) {
        let off = cents(drone * p / q, guide);
        assert!(off.abs() < 0.05, "{note}: {off} cents from {p}/{q}");
    }
    // The tonic itself is where equal temperament has it, whatever else is pure.
    let (guide, _) = self::heard(&["C4"], "tonic = \"C4\"", just)[0];
    assert!(cents(midi_hz(58.0), guide).abs() < 0.05);
}

/// Each note where tube and partial put it: partial n lies 1200·log2(n/2) cents over the tube's second,
/// and a combination whose valves are each exact alone is sharp by 100·h − 1200·log2(1 + Σ(2^(hᵢ/12) − 1)).
#[test]
fn the_horn_temperament_leaves_notes_where_the_tube_puts_them() {
    let horn = tuning("440", Temperament::Horn);
    let cases = [
        ("C4", 58.0, 0.0),
        ("G4", 65.0, 1.955),
        ("E5", 74.0, -13.686),
        ("D4", 60.0, 1.955 + 30.32),
        ("C#4", 59.0, 1.955 + 53.56),
        ("E4", 62.0, 1.955 + 10.63),
        ("Ab3", 54.0, 15.53),
        ("E5[1-2]", 74.0, 1.955 + 10.63),
    ];
    let written: Vec<String> = cases
        .iter()
        .map(|(note, ..)| match note.split_once('[') {
            Some((pitch, valves)) => format!("{pitch}:whole[{valves}"),
            None => format!("{note}:whole"),
        })
        .collect();
    let text = format!("notes = \"{}\"\ndrone = \"Bb3\"", written.join(" "));
    let voices = plain(&line(&text, horn));
    for (number, (note, midi, off)) in cases.iter().enumerate() {
        let equal = midi_hz(*midi);
        let heard = pitch(&voices.guide[steady(number)], f64::from(RATE), equal);
        let found = cents(equal, heard);
        assert!(
            (found - off).abs() < 0.05,
            "{note}: {found} cents, not {off}"
        );
    }
    // The drone does not move: against it one hears what is to be lipped.
    let drone = pitch(&voices.drone[steady(3)], f64::from(RATE), midi_hz(58.0));
    assert!(cents(midi_hz(58.0), drone).abs() < 0.05);
}

#[test]
fn another_a4_moves_everything_alike() {
    for temperament in [Temperament::Equal, Temperament::Just, Temperament::Horn] {
        let notes = ["C4", "D4", "E4", "G4"];
        let usual = heard(&notes, "drone = \"F3\"", tuning("440", temperament));
        let high = heard(&notes, "drone = \"F3\"", tuning("442.5", temperament));
        for (note, (usual, high)) in notes.iter().zip(usual.into_iter().zip(high)) {
            for (usual, high) in [(usual.0, high.0), (usual.1, high.1)] {
                let off = cents(usual * 442.5 / 440.0, high);
                assert!(off.abs() < 0.05, "{temperament} {note}: {off}");
            }
        }
    }
}

/// In equal temperament a fifth is 2 cents narrow, and its beats would be heard through a held drone (0.45 Hz, 2.5 dB at
/// concert B-flat). A drone's own interval is pure (3/2, `tests/outside/just_intervals.rs` has the source), in every
/// temperament.
#[test]
fn a_drone_of_tonic_and_fifth_stands_still() {
    let notes = "notes = \"C5:whole C5:whole C5:whole C5:whole\"\ndrone = \"tonic and fifth\"\nguide = \"off\"";
    for temperament in [Temperament::Equal, Temperament::Just, Temperament::Horn] {
        let unit = line(notes, tuning("440", temperament));
        let drone = plain(&unit).drone;
        let second = RATE as usize;
        let steady = &drone[5 * second..18 * second];
        // Over 0.2 s, some twenty periods of the root.
        let levels: Vec<f64> = levels(steady, second / 5, second / 10)
            .into_iter()
            .map(|(_, rms)| db(rms))
            .collect();
        let least = levels.iter().copied().fold(f64::INFINITY, f64::min);
        let most = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        println!("{temperament:?}: ripple {:.3} dB", most - least);
        assert!(most - least < 0.3, "{temperament:?}: {least} to {most} dB");
    }
}
