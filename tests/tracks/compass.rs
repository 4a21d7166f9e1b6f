//! Guide and drone in tune to a cent at every half step of every instrument's compass.

use leadpipe::score::Take;

use crate::measure::*;
use crate::rendered::*;

/// An instrument, the half steps from what is written to what sounds, and the lowest and highest written
/// note with their MIDI numbers. A B-flat instrument sounds a whole step lower (the name of the
/// instrument says so); the compass is F#3 to C6 for all of them (published overtone chart of the trumpet).
const INSTRUMENTS: [(&str, i32); 4] = [
    ("trumpet in B-flat", -2),
    ("trumpet in C", 0),
    ("cornet", -2),
    ("flugelhorn", -2),
];
/// Written F#3 in MIDI 1.0, where C4 is 60.
const LOWEST: i32 = 54;
/// Half steps from F#3 up to C6.
const HALF_STEPS: i32 = 30;
/// Concert B-flat 2, from which upwards the drone's octave begins.
const LOWEST_TONIC: i32 = 46;

/// Part of a steady sound from a second to another one, measured against what it should be.
fn off(sound: &[f32], from: f64, to: f64, hz: f64) -> f64 {
    let rate = f64::from(RATE);
    let part = &sound[(from * rate) as usize..(to * rate) as usize];
    assert!(rms(part) > 1e-3, "something sounds at {from} s");
    cents(hz, pitch(part, rate, hz))
}

#[test]
fn guide_and_drone_are_in_tune_to_a_cent_over_the_whole_compass() {
    let (mut worst_guide, mut worst_drone) = (0.0f64, 0.0f64);
    let (mut lowest, mut highest) = (f64::MAX, f64::MIN);
    for (instrument, transposed) in INSTRUMENTS {
        let moves: Vec<String> = (0..=HALF_STEPS).map(|n| n.to_string()).collect();
        // At 120 a whole note lasts two seconds.
        let line = format!(
            "notes = \"F#3:whole\"\nhalf_steps = [{}]\nbetween = \"none\"\ntempo = 120",
            moves.join(", ")
        );
        let rendered = Rendered::of(&text(instrument, "72", &[line]), &Take::default());
        let (guide, drone) = (scaled(&rendered.guide), scaled(&rendered.drone));
        for step in 0..=HALF_STEPS {
            // Half a second of silence, two of count-in.
            let start = 2.5 + 2.0 * f64::from(step);
            let sounding = LOWEST + transposed + step;
            let hz = midi_hz(f64::from(sounding));
            (lowest, highest) = (lowest.min(hz), highest.max(hz));
            let cents_off = off(&guide, start + 0.2, start + 1.8, hz);
            worst_guide = worst_guide.max(cents_off.abs());
            assert!(
                cents_off.abs() < 1.0,
                "{instrument}, {hz:.3} Hz: the guide is {cents_off:+.3} cents off"
            );
            let tonic = LOWEST_TONIC + (sounding - LOWEST_TONIC).rem_euclid(12);
            let hz = midi_hz(f64::from(tonic));
            let cents_off = off(&drone, start + 0.3, start + 1.9, hz);
            worst_drone = worst_drone.max(cents_off.abs());
            assert!(
                cents_off.abs() < 1.0,
                "{instrument}, {hz:.3} Hz: the drone is {cents_off:+.3} cents off"
            );
        }
    }
    println!("worst guide {worst_guide:.3}, worst drone {worst_drone:.3} cents");
    // FACTS: E3 is 164.814 Hz, C6 1046.502 Hz (twice 523.251).
    assert!((lowest - 164.814).abs() < 1e-3 && (highest - 1046.502).abs() < 1e-3);
}

/// A drone named by its pitch sounds as named, from the lowest name taken to the highest.
#[test]
fn a_named_drone_is_in_tune_to_a_cent() {
    let named = [
        ("E1", 28),
        ("C2", 36),
        ("Bb2", 46),
        ("F#3", 54),
        ("A4", 69),
        ("Eb5", 75),
        ("C6", 84),
        ("C7", 96),
    ];
    let mut worst = 0.0f64;
    for (name, midi) in named {
        let line = format!("notes = \"G4:whole\"\ndrone = \"{name}\"");
        let rendered = Rendered::of(&text("trumpet in B-flat", "120", &[line]), &Take::default());
        let hz = midi_hz(f64::from(midi));
        let cents_off = off(&scaled(&rendered.drone), 1.0, 4.4, hz);
        worst = worst.max(cents_off.abs());
        assert!(cents_off.abs() < 1.0, "{name}: {cents_off:+.3} cents off");
    }
    println!("worst named drone {worst:.3} cents");
}

/// With a fifth the drone holds both: the root in equal temperament, the fifth pure over it (3/2, 702 cents), so that it does not
/// beat with itself.
#[test]
fn tonic_and_fifth_are_each_in_tune() {
    let line = "notes = \"C4:whole\"\ndrone = \"tonic and fifth\"";
    let rendered = Rendered::of(&trumpet("60", &[line]), &Take::default());
    let drone = scaled(&rendered.drone);
    let part = &drone[RATE as usize..RATE as usize * 7];
    let spectrum = spectrum(part);
    let bin = f64::from(RATE) / part.len() as f64;
    // Written C4 is concert B-flat; its octave begins at 116.541 Hz. First partials lie clear of each other.
    for hz in [midi_hz(46.0), midi_hz(46.0) * 1.5] {
        let around = ((hz * 0.98) / bin) as usize..((hz * 1.02) / bin) as usize + 1;
        let strongest = around
            .max_by(|a, b| spectrum[*a].total_cmp(&spectrum[*b]))
            .unwrap();
        // Between bins by the parabola through the logarithms of the three strongest.
        let [a, b, c] = [strongest - 1, strongest, strongest + 1].map(|i| spectrum[i].ln());
        let place = strongest as f64 + 0.5 * (a - c) / (a - 2.0 * b + c);
        let cents_off = cents(hz, place * bin);
        assert!(
            cents_off.abs() < 1.0,
            "{hz:.3} Hz: {cents_off:+.3} cents off"
        );
    }
}
