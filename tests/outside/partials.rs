//! The harmonic series: how far it lies from equal temperament, and what every tube sounds.

use crate::{near, trumpet, written};
use leadpipe::brass::{Tube, partials};

/// Cents from the nearest note of equal temperament: 1200·log2(n / 2) (computed).
const CENTS: [(u8, f64); 11] = [
    (2, 0.0),
    (3, 1.955),
    (4, 0.0),
    (5, -13.686),
    (6, 1.955),
    (7, -31.174),
    (8, 0.0),
    (9, 3.910),
    (10, -13.686),
    (11, -48.682),
    (12, 1.955),
];

/// Partials 2 3 4 5 6 7 8 as written (seen, published overtone chart of the trumpet).
const TUBES: [(&str, &str); 8] = [
    ("0", "C4 G4 C5 E5 G5 Bb5 C6"),
    ("2", "B3 F#4 B4 Eb5 F#5 A5 B5"),
    ("1", "Bb3 F4 Bb4 D5 F5 Ab5 Bb5"),
    ("1-2", "A3 E4 A4 C#5 E5 G5 A5"),
    ("3", "A3 E4 A4 C#5 E5 G5 A5"),
    ("2-3", "Ab3 Eb4 Ab4 C5 Eb5 F#5 Ab5"),
    ("1-3", "G3 D4 G4 B4 D5 F5 G5"),
    ("1-2-3", "F#3 C#4 F#4 Bb4 C#5 E5 F#5"),
];

#[test]
fn partials_lie_where_the_logarithm_puts_them() {
    for (n, cents) in CENTS {
        near(partials::cents(n), cents, 0.0005);
    }
}

#[test]
fn every_tube_sounds_what_the_chart_prints() {
    for (tube, row) in TUBES {
        let tube = Tube::parse(tube).unwrap();
        let found: Vec<String> = partials::of_tube(trumpet(), tube)
            .map(|(_, pitch)| pitch.to_string())
            .collect();
        assert_eq!(found.join(" "), row, "{tube}");
        for (n, name) in (2..).zip(row.split(' ')) {
            let partial = partials::on_tube(trumpet(), tube, written(name));
            assert_eq!(partial, Some(n), "{name} on {tube}");
        }
    }
    assert_eq!(trumpet().tubes.len(), TUBES.len());
}

#[test]
fn what_the_chart_does_not_print_does_not_sound() {
    for (tube, row) in TUBES {
        let tube = Tube::parse(tube).unwrap();
        let printed: Vec<i32> = row.split(' ').map(|name| written(name).number()).collect();
        for number in 48..=90 {
            let pitch = leadpipe::music::WrittenPitch::from_number(number);
            let sounds = partials::on_tube(trumpet(), tube, pitch).is_some();
            assert_eq!(sounds, printed.contains(&number), "{pitch} on {tube}");
        }
    }
}
