//! Fingerings, positions and sounding pitches of the brass family.
//!
//! Sources: Wikibooks, "Trombone/Slide Positions" (first chart, seen); C. Smalley, "Double Horn Fingering Dictionary" (seen);
//! "French Horn Fingering Chart", an anonymous teaching sheet (seen); Wikipedia, "Pitch of brass instruments" and "Brass band
//! (British style)" (seen); J. Funderburk on the fourth valve, University of Northern Iowa (seen). Frequencies are computed
//! from A4 = 440 Hz in equal temperament.

use super::{near, written};
use leadpipe::brass::{INSTRUMENTS, Instrument, Level, fingering, partials};
use leadpipe::music::Clef;
use leadpipe::music::WrittenPitch;

fn named(name: &str) -> &'static Instrument {
    Instrument::named(name).unwrap_or_else(|| panic!("{name} is a row of the table"))
}

fn hz(instrument: &Instrument, pitch: WrittenPitch) -> f64 {
    440.0 * ((f64::from(instrument.sounding(pitch).number()) - 69.0) / 12.0).exp2()
}

fn usable(instrument: &Instrument, pitch: WrittenPitch) -> Vec<String> {
    let all = fingering::usable(instrument, pitch);
    all.iter().map(|f| f.tube.to_string()).collect()
}

/// First choice, then alternates of a tenor trombone with F attachment. Wikibooks (seen) up to F4; above it practice.
#[rustfmt::skip]
const POSITIONS: &[(&str, &str)] = &[
    ("E2", "7 T2"), ("F2", "6 T1"), ("F#2", "5"), ("G2", "4"), ("Ab2", "3"), ("A2", "2"), ("Bb2", "1"),
    ("B2", "7 T2"), ("C3", "6 T1"), ("C#3", "5"), ("D3", "4"), ("Eb3", "3"), ("E3", "2 7"), ("F3", "1 6"),
    ("F#3", "5"), ("G3", "4"), ("Ab3", "3 7"), ("A3", "2 6"), ("Bb3", "1 5"), ("B3", "4 7 T2"),
    ("C4", "3 6 T1"), ("C#4", "2 5"), ("D4", "1 4 7+"), ("Eb4", "3 6+"), ("E4", "2 5+ 7"), ("F4", "1 4+ 6"),
    ("F#4", "3+ 5"), ("G4", "2+ 4"), ("Ab4", "3 5"), ("A4", "2 4"), ("Bb4", "1 3 5"), ("B4", "2 4"),
    ("C5", "1 3 6"), ("C#5", "2 5"), ("D5", "1 4"),
    // With the attachment alone: practice, and the real places 3.6, 4.9, 6.2 and 7.4 (computed).
    ("Eb2", "T3"), ("D2", "T5"), ("C#2", "T6"), ("C2", "T7"),
];

#[test]
fn a_trombones_positions_are_the_charts() {
    let trombone = named("trombone with F attachment");
    for (name, chart) in POSITIONS {
        let found = usable(trombone, written(name));
        let chart: Vec<&str> = chart.split(' ').collect();
        assert_eq!(found[0], chart[0], "{name}: {found:?}");
        for position in chart {
            assert!(
                found.contains(&position.to_owned()),
                "{name} in {position}: {found:?}"
            );
        }
    }
}

#[test]
fn a_slide_without_attachment_has_seven_positions_and_no_thumb() {
    let trombone = named("trombone");
    for (name, chart) in POSITIONS
        .iter()
        .filter(|(name, _)| named("trombone").can_reach(written(name)))
    {
        let expected = chart.split(' ').find(|p| !p.starts_with('T'));
        let found = usable(trombone, written(name));
        if let Some(expected) = expected {
            assert_eq!(found[0], expected, "{name}");
        }
        assert!(
            found.iter().all(|p| !p.starts_with('T')),
            "{name}: {found:?}"
        );
    }
    let walk: Vec<String> = trombone.lengths().map(|tube| tube.to_string()).collect();
    assert_eq!(walk.join(" "), "1 2 3 4 5 6 7");
}

/// The fourth, third and second partial through seven positions, with their frequencies (computed).
#[test]
fn seven_positions_sound_seven_half_steps() {
    let trombone = named("trombone");
    for (n, row) in [
        (4, [233.08, 220.00, 207.65, 196.00, 185.00, 174.61, 164.81]),
        (3, [174.61, 164.81, 155.56, 146.83, 138.59, 130.81, 123.47]),
        (2, [116.54, 110.00, 103.83, 98.00, 92.50, 87.31, 82.41]),
    ] {
        for (tube, want) in trombone.lengths().zip(row) {
            near(
                hz(trombone, partials::written(trombone, tube, n)),
                want,
                0.005,
            );
        }
    }
}

/// Written, on the F side, on the B-flat side; the usual of the two has a star. Smalley and the teaching sheet (seen).
#[rustfmt::skip]
const HORN: &[(&str, &str, &str)] = &[
    ("F#2", "1-2-3*", ""), ("G2", "1-3*", ""), ("Ab2", "2-3*", ""), ("A2", "1-2*", ""), ("Bb2", "1*", ""),
    ("B2", "2*", "T123"), ("C3", "0*", "T13"), ("C#3", "1-2-3", "T23*"), ("D3", "1-3", "T12*"),
    ("Eb3", "2-3*", "T1"), ("E3", "1-2*", "T2"), ("F3", "1*", "T0"), ("F#3", "2*", "T123"), ("G3", "0*", "T13"),
    ("Ab3", "2-3*", "T23"), ("A3", "1-2*", "T12"), ("Bb3", "1*", "T1"), ("B3", "2*", "T2"), ("C4", "0*", "T0"),
    ("C#4", "1-2*", "T23"), ("D4", "1*", "T12"), ("Eb4", "2*", "T1"), ("E4", "0*", "T2"), ("F4", "1*", "T0"),
    ("F#4", "2*", "T12"), ("G4", "0*", "T1"), ("Ab4", "2-3", "T23*"), ("A4", "1-2", "T12*"),
    ("Bb4", "1", "T1*"), ("B4", "2", "T2*"), ("C5", "0", "T0*"), ("C#5", "2", "T23*"), ("D5", "1", "T12*"),
    ("Eb5", "2", "T1*"), ("E5", "0", "T2*"), ("F5", "1", "T0*"), ("F#5", "2", "T2*"), ("G5", "0", "T0*"),
    ("Ab5", "2-3", "T23*"), ("A5", "1-2", "T12*"), ("Bb5", "1", "T1*"), ("B5", "2", "T2*"), ("C6", "0", "T0*"),
];

#[test]
fn both_sides_of_a_double_horn_are_the_charts() {
    let (single, double) = (named("horn in F"), named("double horn"));
    for (name, f, b_flat) in HORN {
        let pitch = written(name);
        assert_eq!(
            usable(single, pitch)[0],
            f.trim_end_matches('*'),
            "{name} on a single horn"
        );
        let found = usable(double, pitch);
        let usual = [f, b_flat].into_iter().find(|side| side.ends_with('*'));
        let usual = usual.map(|side| side.trim_end_matches('*'));
        assert_eq!(Some(found[0].as_str()), usual, "{name} on a double horn");
        for side in [f, b_flat] {
            let side = side.trim_end_matches('*').to_owned();
            assert!(
                side.is_empty() || found.contains(&side),
                "{name} on {side}: {found:?}"
            );
        }
    }
}

#[test]
fn a_horn_in_b_flat_plays_what_the_thumb_plays_on_a_double_horn() {
    let horn = named("horn in B-flat");
    for (name, _, b_flat) in HORN
        .iter()
        .filter(|(name, _, b_flat)| !b_flat.is_empty() && *name != "G4")
    {
        let plain = leadpipe::brass::Tube::parse(b_flat.trim_end_matches('*')).unwrap();
        let valves: Vec<u8> = plain.numbers().collect();
        let first = fingering::standard(horn, written(name)).unwrap();
        assert_eq!(first.tube, leadpipe::brass::Tube::of(&valves), "{name}");
    }
}

/// Horn A and B of the worked examples (computed): the eighth, sixth and fourth partial of the F side through seven
/// fingerings, and the fourth of the B-flat side.
#[test]
fn a_horns_walk_sounds_as_computed() {
    let horn = named("horn in F");
    for (n, row) in [
        (8, [349.23, 329.63, 311.13, 293.66, 277.18, 261.63, 246.94]),
        (6, [261.63, 246.94, 233.08, 220.00, 207.65, 196.00, 185.00]),
        (4, [174.61, 164.81, 155.56, 146.83, 138.59, 130.81, 123.47]),
    ] {
        for (tube, want) in horn.lengths().zip(row) {
            near(hz(horn, partials::written(horn, tube, n)), want, 0.005);
        }
    }
    let horn = named("horn in B-flat");
    let fourth: Vec<f64> = horn
        .lengths()
        .map(|t| hz(horn, partials::written(horn, t, 4)))
        .collect();
    for (found, want) in fourth
        .iter()
        .zip([233.08, 220.00, 207.65, 196.00, 185.00, 174.61, 164.81])
    {
        near(*found, want, 0.005);
    }
}

/// Half steps from the second partial, with three valves and with four (Wikipedia, Funderburk: seen).
#[rustfmt::skip]
const VALVES: &[(&str, &str)] = &[
    ("1-2-3", "2-4"), ("1-3", "4"), ("2-3", "2-3"), ("1-2", "1-2"), ("1", "1"), ("2", "2"), ("0", "0"),
    ("1-2-3", "2-4"), ("1-3", "4"), ("2-3", "2-3"), ("1-2", "1-2"), ("1", "1"), ("2", "2"), ("0", "0"),
    ("2-3", "2-3"), ("1-2", "1-2"), ("1", "1"), ("2", "2"), ("0", "0"), ("1-2", "1-2"), ("1", "1"), ("2", "2"),
    ("0", "0"), ("1", "1"), ("2", "2"), ("0", "0"),
];

#[test]
fn one_table_of_valves_serves_every_instrument_but_horns_and_trombones() {
    let others = INSTRUMENTS
        .iter()
        .filter(|i| i.ladder.is_none() && !i.has_slide());
    for instrument in others {
        let four = instrument.tubes.len() > 8;
        for (half_steps, (three, with_fourth)) in (-6..).zip(VALVES) {
            let pitch = WrittenPitch::from_number(instrument.second_partial.number() + half_steps);
            if !instrument.can_reach(pitch) {
                continue;
            }
            let want = if four { with_fourth } else { three };
            assert_eq!(
                usable(instrument, pitch)[0],
                *want,
                "{pitch} on the {}",
                instrument.name
            );
        }
    }
}

/// Below the tritone (Funderburk, seen; without compensation computed).
#[test]
fn four_valves_go_on_below_the_tritone() {
    let first = |instrument: &str, note: &str| usable(named(instrument), written(note))[0].clone();
    let compensating = "compensating euphonium in bass clef";
    for (note, valves) in [
        ("Eb2", "1-4"),
        ("D2", "1-2-4"),
        ("Db2", "2-3-4"),
        ("C2", "1-3-4"),
        ("B1", "1-2-3-4"),
    ] {
        assert_eq!(first(compensating, note), valves, "{note}");
    }
    assert_eq!(first(compensating, "Bb1"), "0", "the pedal tone");
    let plain = "four-valve euphonium in bass clef";
    for (note, valves) in [("Eb2", "1-2-4"), ("D2", "2-3-4"), ("C2", "1-2-3-4")] {
        assert_eq!(first(plain, note), valves, "{note}");
    }
    assert!(!named(plain).can_reach(written("B1")));
}

/// Pedal tones of a trombone: positions 1 to 4 (practice).
#[test]
fn pedal_tones_are_those_that_players_have() {
    let trombone = named("trombone");
    for (note, position) in [("Bb1", "1"), ("A1", "2"), ("Ab1", "3"), ("G1", "4")] {
        assert_eq!(usable(trombone, written(note)), [position]);
    }
    for note in ["B1", "Eb2", "F#1"] {
        assert!(!trombone.can_reach(written(note)), "{note}");
    }
    assert!(named("tuba in B-flat").can_reach(written("Bb0")));
    assert!(named("tuba in E-flat").can_reach(written("Eb1")));
}

/// Half steps from written to sounding, and the sounding frequency of the written second partial (computed).
#[test]
fn written_notes_sound_as_computed() {
    for (instrument, note, want) in [
        ("euphonium in treble clef", "C5", 233.08),
        ("euphonium in treble clef", "G4", 174.61),
        ("euphonium in treble clef", "D4", 130.81),
        ("euphonium in treble clef", "C6", 466.16),
        ("euphonium in bass clef", "Bb3", 233.08),
        ("tenor horn", "C5", 311.13),
        ("tenor horn", "F#4", 220.00),
        ("tuba in B-flat", "Bb2", 116.54),
        ("tuba in B-flat", "E1", 41.20),
        ("tuba in B-flat in treble clef", "C5", 116.54),
        ("tuba in E-flat in treble clef", "C4", 77.78),
        ("tuba in E-flat in treble clef", "G4", 116.54),
        ("tuba in E-flat", "G2", 98.00),
        ("soprano cornet", "C5", 622.25),
        ("piccolo trumpet in B-flat", "C4", 466.16),
        ("horn in F", "C4", 174.61),
        ("trombone with F attachment", "C2", 65.41),
    ] {
        near(hz(named(instrument), written(note)), want, 0.005);
    }
}

/// The beginner's ladder of every instrument (computed from the partials; the horn's is a proposal after published grades).
#[test]
fn every_instrument_has_its_ladder() {
    for (instrument, ladder) in [
        ("cornet", "C4 G4 C5 E5 G5"),
        ("tenor horn", "C4 G4 C5 E5 G5"),
        ("trombone", "Bb2 F3 Bb3 D4 F4"),
        ("euphonium in bass clef", "Bb2 F3 Bb3 D4 F4"),
        ("tuba in B-flat", "Bb1 F2 Bb2 D3 F3"),
        ("tuba in E-flat", "Eb2 Bb2 Eb3 G3 Bb3"),
        ("tuba in C", "C2 G2 C3 E3 G3"),
        ("tuba in F", "F2 C3 F3 A3 C4"),
        ("horn in F", "C4 G4 A4 C5 E5"),
    ] {
        let tops: Vec<String> = Level::all()
            .map(|level| level.open_top(named(instrument)).to_string())
            .collect();
        assert_eq!(tops.join(" "), ladder, "{instrument}");
    }
}

#[test]
fn every_note_of_every_instrument_has_a_fingering_that_sounds_it() {
    for instrument in INSTRUMENTS {
        for number in 12..110 {
            let pitch = WrittenPitch::from_number(number);
            let found = fingering::standard(instrument, pitch);
            if !instrument.can_reach(pitch) {
                continue;
            }
            let found = found.unwrap_or_else(|| panic!("{pitch} on the {}", instrument.name));
            let sounds = partials::written(instrument, found.tube, found.partial);
            assert_eq!(
                sounds.number(),
                number,
                "{pitch} on the {}",
                instrument.name
            );
        }
        // The staff has room for the part (practice: four ledger lines and a little).
        let (low, high) = (
            instrument.clef.step(instrument.lowest),
            instrument.clef.step(instrument.highest),
        );
        assert!(
            low >= -16 && high <= 18,
            "{}: {low} {high}",
            instrument.name
        );
        let concert = instrument.transposition == 0 && instrument.name != "trumpet in C";
        assert_eq!(
            instrument.clef == Clef::Bass,
            concert,
            "{}",
            instrument.name
        );
    }
}

#[test]
fn names_are_found_however_they_are_written() {
    for (said, name) in [
        ("Trombone", "trombone"),
        ("tuba in B♭", "tuba in B-flat"),
        ("French horn", "horn in F"),
        ("euphonium", "euphonium in bass clef"),
        ("E♭ bass", "tuba in E-flat in treble clef"),
    ] {
        assert_eq!(named(said).name, name);
    }
    let mut names: Vec<String> = INSTRUMENTS
        .iter()
        .flat_map(|i| i.also.iter().chain([&i.name]))
        .map(|name| name.to_lowercase())
        .collect();
    names.sort();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all, "a name is one instrument's");
}
