//! What of the click is heard through the player's own trumpet.
//!
//! The masker is the guide held at forte, whose spectrum is fitted to recorded trumpets, at 90 dB SPL at the player's
//! ear. Its masking is spread over critical bands by the slopes of Terhardt, Stoll and Seewann (JASA 71:679, 1982; from
//! memory): 27 dB a Bark below a partial, 24 + 230/f − 0.2 L dB a Bark above it. The Bark scale is Zwicker and
//! Terhardt's (JASA 68:1523, 1980; from memory), the threshold in quiet Terhardt's (from memory). A click is heard
//! where its mean power over its 30 ms comes within 5 dB below the masker in one critical band. The track plays so
//! loud that the guide at mf is 75 dB SPL (an assumption, the same before and after).
//!
//! By this model the click of a single band lay 11 to 13 dB below what is heard, its accent 4 to 6.

use crate::by_hand::*;
use crate::measure::*;
use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Click, LineSound};
use std::f64::consts::TAU;

const RATE: u32 = 44_100;
const OWN_HORN_DB: f64 = 90.0;
const GUIDE_MF_DB: f64 = 75.0;
const CLICK_SECONDS: f64 = 0.03;
const BELOW_MASKER_DB: f64 = 5.0;

fn bark(hz: f64) -> f64 {
    13.0 * (0.76 * hz / 1000.0).atan() + 3.5 * (hz / 7500.0).powi(2).atan()
}

fn quiet_db(hz: f64) -> f64 {
    let khz = hz / 1000.0;
    3.64 * khz.powf(-0.8) - 6.5 * (-0.6 * (khz - 3.3).powi(2)).exp() + 1e-3 * khz.powi(4)
}

/// The frequency at a place on the Bark scale.
fn hz_at(place: f64) -> f64 {
    let (mut low, mut high) = (20.0, 20_000.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if bark(middle) < place {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// dB of masking at each place, by the partials of a held note.
fn masking(note: &[f32], hz: f64, places: &[f64]) -> Vec<f64> {
    let amplitudes = partials(note, f64::from(RATE), hz, 40);
    let power: f64 = amplitudes.iter().map(|a| a * a).sum();
    let lines: Vec<(f64, f64)> = (1..)
        .zip(&amplitudes)
        .map(|(k, a)| {
            (
                f64::from(k) * hz,
                OWN_HORN_DB + 10.0 * (a * a / power).log10(),
            )
        })
        .filter(|(_, level)| *level > 0.0)
        .collect();
    let at = |place: f64| {
        let masked = lines.iter().map(|&(hz, level)| {
            let over = place - bark(hz);
            let slope = if over < 0.0 {
                27.0
            } else {
                -(24.0 + 230.0 / hz - 0.2 * level)
            };
            10f64.powf((level + slope * over) / 10.0)
        });
        let quiet = 10f64.powf(quiet_db(hz_at(place)) / 10.0);
        10.0 * (masked.sum::<f64>() + quiet).log10()
    };
    places.iter().map(|place| at(*place)).collect()
}

/// dB of a click in the critical band around each place, where a full-scale sine has 0 dB of RMS −3.01.
fn bands(click: &[f32], places: &[f64]) -> Vec<f64> {
    const STEP_HZ: f64 = 20.0;
    let lines: Vec<(f64, f64)> = (1..900)
        .map(|i| {
            let hz = STEP_HZ * f64::from(i);
            let turn = TAU * hz / f64::from(RATE);
            let (re, im) = click
                .iter()
                .enumerate()
                .fold((0.0, 0.0), |(re, im), (n, x)| {
                    let (sin, cos) = (turn * n as f64).sin_cos();
                    (re + f64::from(*x) * cos, im + f64::from(*x) * sin)
                });
            // Parseval: energy of this slice of the spectrum, both signs of frequency, over the time of a click.
            let energy = 2.0 * (re * re + im * im) * STEP_HZ / f64::from(RATE);
            (bark(hz), energy / (CLICK_SECONDS * f64::from(RATE)))
        })
        .collect();
    let at = |place: f64| {
        let power: f64 = lines
            .iter()
            .filter(|(z, _)| (z - place).abs() < 0.5)
            .map(|(_, power)| power)
            .sum();
        10.0 * power.max(1e-30).log10()
    };
    places.iter().map(|place| at(*place)).collect()
}

/// The sound of one click.
fn click(accented: bool) -> Vec<f32> {
    let line = LineSound {
        clicks: vec![Click { frame: 0, accented }],
        ..LineSound::default()
    };
    let frames = (CLICK_SECONDS * f64::from(RATE)) as u64;
    perform(&Engine::new(RATE), &unit(frames, line)).click
}

/// The guide held at a level, its steady part.
fn held(hz: f64, db: f64) -> Vec<f32> {
    let engine = Engine::with(RATE, Life::Off);
    guide(&engine, vec![tone(0, 88_200, hz, db)])[30_000..62_768].to_vec()
}

#[test]
fn the_click_is_heard_through_the_players_own_trumpet() {
    let places: Vec<f64> = (22..47).map(|i| 0.5 * f64::from(i)).collect();
    let own = rms(&held(233.08, MARKS[3]));
    let calibrated = GUIDE_MF_DB - db(own);
    for (name, level, least) in [("mf", MARKS[3], [10.0, 12.0]), ("f", MARKS[4], [3.0, 5.0])] {
        for midi in [58.0, 65.0, 70.0, 77.0] {
            let hz = midi_hz(midi);
            let masked = masking(&held(hz, level), hz, &places);
            for accented in [false, true] {
                let sounds = bands(&click(accented), &places);
                let margin = |from: f64, to: f64| {
                    (places.iter().zip(sounds.iter().zip(&masked)))
                        .filter(|(place, _)| (from..to).contains(*place))
                        .map(|(_, (sound, masked))| sound + calibrated - masked + BELOW_MASKER_DB)
                        .fold(f64::NEG_INFINITY, f64::max)
                };
                // From 2 to 5 kHz, and above.
                let (wood, best) = (margin(13.0, 18.0), margin(11.0, 22.0));
                println!(
                    "{name}, MIDI {midi}, accented {accented}: {best:+.1} dB, below 5 kHz {wood:+.1} dB"
                );
                assert!(best > least[usize::from(accented)], "{best}");
            }
        }
    }
}

/// Ears that hear little above 5 kHz, and speakers that give little there, have the other band.
#[test]
fn a_third_of_the_clicks_energy_or_more_lies_below_five_kilohertz() {
    for accented in [false, true] {
        // In the middle of the window.
        let mut padded = vec![0.0; 4096];
        padded.extend(click(accented));
        padded.resize(8192, 0.0);
        let low = share_between(&padded, f64::from(RATE), 1_500.0, 5_200.0);
        let high = share_between(&padded, f64::from(RATE), 5_200.0, 9_000.0);
        println!("accented {accented}: {low:.2} below 5.2 kHz, {high:.2} above");
        assert!(low > 0.33 && high > 0.25, "{low} {high}");
    }
}
