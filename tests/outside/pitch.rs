//! Pitch names, numbers and frequencies.

use crate::{near, trumpet, written};
use leadpipe::brass::Instrument;
use leadpipe::music::{SoundingPitch, Tuning};

/// Hz at A4 = 440, printed to three decimals: f = 440 · 2^((n − 69) / 12) (computed), as any table
/// of equal temperament prints it.
const OCTAVE_3: [(&str, f64); 12] = [
    ("C3", 130.813),
    ("C#3", 138.591),
    ("D3", 146.832),
    ("Eb3", 155.563),
    ("E3", 164.814),
    ("F3", 174.614),
    ("F#3", 184.997),
    ("G3", 195.998),
    ("Ab3", 207.652),
    ("A3", 220.000),
    ("Bb3", 233.082),
    ("B3", 246.942),
];

/// ISO 16:1975: A4 = 440 Hz (seen).
#[test]
fn a4_is_440_hz() {
    assert_eq!(Tuning::ISO_16.hz(SoundingPitch::from_number(69)), 440.0);
    assert_eq!(Tuning::default(), Tuning::ISO_16);
}

/// MIDI 1.0: A4 = 69, C4 = 60 (seen; the library music21 agrees).
#[test]
fn pitches_are_numbered_as_in_midi() {
    for (name, number) in [("A4", 69), ("C4", 60), ("F#3", 54), ("C6", 84)] {
        assert_eq!(written(name).number(), number, "{name}");
    }
}

#[test]
fn the_table_of_equal_temperament_holds_in_every_octave() {
    for (name, hz) in OCTAVE_3 {
        let number = written(name).number();
        for octaves in 0..4 {
            let pitch = SoundingPitch::from_number(number + 12 * octaves);
            let factor = f64::from(1 << octaves);
            near(Tuning::ISO_16.hz(pitch), hz * factor, 0.0005 * factor);
        }
    }
}

/// A trumpet in B-flat sounds two half steps below what is written (practice); its written C4 and
/// the ends of its compass in Hz (computed).
#[test]
fn a_trumpet_in_b_flat_sounds_a_whole_step_lower() {
    for (name, hz) in [("C4", 233.082), ("F#3", 164.814), ("C6", 932.328)] {
        near(
            Tuning::ISO_16.hz(trumpet().sounding(written(name))),
            hz,
            0.0005,
        );
    }
    let horns = ["trumpet in B-flat", "cornet", "flugelhorn", "trumpet in C"];
    let sounding = horns.map(|name| {
        let horn = Instrument::named(name).unwrap();
        horn.sounding(written("C4")).to_string()
    });
    assert_eq!(sounding, ["Bb3", "Bb3", "Bb3", "C4"]);
}
