//! Which fingerings sound a note.

use crate::{trumpet, written};
use leadpipe::brass::Fingering;
use leadpipe::brass::fingering;
use leadpipe::music::WrittenPitch;

/// Standard fingerings from F#3 up to C6 by half steps (seen, published overtone chart of the
/// trumpet).
const STANDARD: &str = "1-2-3 1-3 2-3 1-2 1 2 \
    0 1-2-3 1-3 2-3 1-2 1 2 0 2-3 1-2 1 2 \
    0 1-2 1 2 0 1 2 0 2-3 1-2 1 2 \
    0";

/// Alternates without partial 7 (computed from the overtone chart).
const ALTERNATES: [(&str, &str); 17] = [
    ("A3", "3"),
    ("E4", "3"),
    ("F#4", "1-2-3"),
    ("G4", "1-3"),
    ("A4", "3"),
    ("Bb4", "1-2-3"),
    ("B4", "1-3"),
    ("C5", "2-3"),
    ("C#5", "3 1-2-3"),
    ("D5", "1-3"),
    ("Eb5", "2-3"),
    ("E5", "1-2 3"),
    ("F#5", "1-2-3"),
    ("G5", "1-3"),
    ("A5", "3"),
    ("F5", ""),
    ("C6", ""),
];

fn names(fingerings: &[Fingering]) -> String {
    let names: Vec<String> = fingerings.iter().map(|f| f.tube.to_string()).collect();
    names.join(" ")
}

#[test]
fn the_standard_fingering_is_the_charts() {
    let chart: Vec<&str> = STANDARD.split(' ').collect();
    let compass = written("F#3").number()..=written("C6").number();
    assert_eq!(chart.len(), compass.clone().count());
    for (number, tube) in compass.zip(chart) {
        let pitch = WrittenPitch::from_number(number);
        let found = fingering::standard(trumpet(), pitch).expect("it is in the compass");
        assert_eq!(found.tube.to_string(), tube, "{pitch}");
        assert_ne!(found.partial, 7, "{pitch}");
    }
}

#[test]
fn alternates_are_the_charts_and_no_others() {
    let listed = |pitch: WrittenPitch| {
        let row = ALTERNATES.iter().find(|(name, _)| written(name) == pitch);
        row.map_or("", |(_, tube)| tube)
    };
    for number in written("F#3").number()..=written("C6").number() {
        let pitch = WrittenPitch::from_number(number);
        // Ab5 is the eighth partial of 2-3 only; partial 7 of 1 is no alternate.
        let found = names(&fingering::alternates(trumpet(), pitch));
        assert_eq!(found, listed(pitch), "{pitch}");
    }
}

#[test]
fn every_spelling_of_a_note_has_its_fingerings() {
    for (one, other) in [("F#4", "Gb4"), ("Bb4", "A#4"), ("Cb5", "B4")] {
        assert_eq!(
            fingering::all(trumpet(), written(one)),
            fingering::all(trumpet(), written(other))
        );
    }
}

#[test]
fn nothing_sounds_outside_the_compass() {
    for name in ["F3", "C3", "C#6", "E6"] {
        assert_eq!(
            fingering::standard(trumpet(), written(name)),
            None,
            "{name}"
        );
        assert!(!trumpet().can_reach(written(name)), "{name}");
    }
}

/// On 1-3 and 1-2-3, that is for D4, C#4, G3 and F#3, the third slide goes out (practice).
#[test]
fn the_third_slide_goes_out_for_the_four_low_notes() {
    let out: Vec<String> = (54..=84)
        .map(WrittenPitch::from_number)
        .filter(|&pitch| {
            let standard = fingering::standard(trumpet(), pitch).expect("it is in the compass");
            trumpet().slide_goes_out(standard.tube)
        })
        .map(|pitch| pitch.to_string())
        .collect();
    assert_eq!(out.join(" "), "F#3 G3 C#4 D4");
    let out = trumpet().tubes().filter(|v| trumpet().slide_goes_out(*v));
    let out: Vec<String> = out.map(|v| v.to_string()).collect();
    assert_eq!(out.join(" "), "1-3 1-2-3");
}
