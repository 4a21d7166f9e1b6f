//! How moved lines are spelt: in the key they are moved to, neighbour notes as steps.

use leadpipe::music::key::{Key, MOST, MOST_MOVED, Mode};
use leadpipe::music::name::Name;
use leadpipe::music::pitch::Letter;
use leadpipe::music::{Spelling, WrittenPitch};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{self, Pass, Played, Take};
use proptest::prelude::*;
use std::collections::HashMap;

fn pitches(text: &str) -> Vec<WrittenPitch> {
    let parse = |t: &str| WrittenPitch::parse(t).unwrap_or_else(|| panic!("{t}"));
    text.split_whitespace().map(parse).collect()
}

/// The notes of a line without a key, moved.
fn moved(text: &str, by: i32) -> String {
    moved_in(text, None, by)
}

fn moved_in(text: &str, key: Option<&str>, by: i32) -> String {
    let melody = pitches(text);
    let key = key.map(|key| Key::parse(key).unwrap());
    let spelling = Spelling::of(&melody, key, melody.first().copied(), by);
    let moved = spelling.line(&melody);
    let moved: Vec<String> = moved.iter().map(ToString::to_string).collect();
    moved.join(" ")
}

fn preset(name: &str) -> Routine {
    let path = format!("{}/presets/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    routine::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn names(pass: &Pass) -> Vec<WrittenPitch> {
    let written = pass.notes.iter().filter_map(|note| match note.played {
        Played::Pitch { written, .. } => Some(written),
        Played::In | Played::Out => None,
    });
    written.collect()
}

#[test]
fn a_triad_moved_down_stays_a_triad() {
    let routine = preset("third-steps");
    let score = score::unroll(&routine, &Take::default()).unwrap();
    let line = &score.lines[6];
    let down = line
        .passes
        .iter()
        .find(|pass| pass.half_steps == -1)
        .unwrap();
    let letters: Vec<String> = names(down).iter().map(ToString::to_string).collect();
    let mut letters: Vec<&str> = letters.iter().map(|name| &name[..name.len() - 1]).collect();
    letters.dedup();
    letters.truncate(4);
    assert_eq!(letters, ["B", "D#", "F#", "B"]);
}

#[test]
fn lines_without_a_key_keep_their_intervals() {
    assert_eq!(moved("C4 E4 G4 C5", -1), "B3 D#4 F#4 B4");
    assert_eq!(moved("C4 B3 C4 D4 C4", -1), "B3 A#3 B3 C#4 B3");
    assert_eq!(moved("D4 E4 F#4 G4 A4", -1), "Db4 Eb4 F4 Gb4 Ab4");
    assert_eq!(moved("G4 F#4 G4", -1), "Gb4 F4 Gb4");
    assert_eq!(moved("A4 C5 E5", -1), "G#4 B4 D#5");
    assert_eq!(moved("E4 D4 C4", -1), "D#4 C#4 B3");
    assert_eq!(moved("D4 A4 D4", -1), "Db4 Ab4 Db4");
    assert_eq!(moved("E4 G#4 B4", 1), "F4 A4 C5");
}

#[test]
fn a_chromatic_run_takes_the_simplest_names() {
    assert_eq!(
        moved("C4 C#4 D4 D#4 E4 F4 F#4 G4", -1),
        "B3 C4 C#4 D4 D#4 E4 F4 F#4"
    );
}

#[test]
fn octaves_and_lines_that_stay_keep_what_was_written() {
    let odd = "C4 Cb4 C#4 Db4 B#3 E#4 Fb4";
    assert_eq!(moved(odd, 0), odd);
    assert_eq!(moved(odd, 12), "C5 Cb5 C#5 Db5 B#4 E#5 Fb5");
}

#[test]
fn a_key_decides() {
    assert_eq!(moved_in("D4 F#4 A4", Some("G major"), -1), "C#4 E#4 G#4");
    assert_eq!(moved_in("D4 F#4 A4", Some("D major"), -1), "Db4 F4 Ab4");
    assert_eq!(
        moved_in("E4 F4 G#4 A4", Some("A minor"), -1),
        "D#4 E4 F##4 G#4"
    );
    // A name from outside the scale for a note of it is set right.
    assert_eq!(moved_in("D4 Gb4 A4", Some("D major"), 2), "E4 G#4 B4");
    // A raised fourth stays one.
    assert_eq!(moved_in("G4 F#4 G4", Some("C major"), -2), "F4 E4 F4");
    assert_eq!(moved_in("G4 F#4 G4", Some("C major"), -1), "F#4 E#4 F#4");
}

#[test]
fn no_pass_of_the_built_in_routines_mixes_names() {
    for preset in leadpipe::presets::ALL {
        let (name, routine) = (preset.name, routine::read(preset.text).unwrap());
        for key in -6..=6 {
            let take = Take {
                key,
                ..Take::default()
            };
            let Ok(score) = score::unroll(&routine, &take) else {
                continue;
            };
            for (line, pass) in score
                .lines
                .iter()
                .flat_map(|l| l.passes.iter().map(move |p| (l, p)))
            {
                let written = names(pass);
                let where_ = format!("{name}, line {}, {key}: {written:?}", line.index + 1);
                assert!(has_runs(&written) || one_name_each(&written), "{where_}");
                // As they are written too, but for chromatic runs, which keep what their teacher wrote.
                let moves = pass.tube.is_some_and(|tube| !tube.is_open()) || pass.half_steps != 0;
                let kept = !moves && has_runs(&written);
                assert!(kept || altered(&written) == 0, "{where_}");
            }
        }
    }
}

fn one_name_each(written: &[WrittenPitch]) -> bool {
    let mut of_class: HashMap<i32, Name> = HashMap::new();
    written.iter().all(|p| {
        *of_class
            .entry(p.number().rem_euclid(12))
            .or_insert(p.name())
            == p.name()
    })
}

/// True if two notes side by side have one letter and different accidentals.
fn has_runs(written: &[WrittenPitch]) -> bool {
    let mut pairs = written.windows(2);
    pairs.any(|w| w[0].letter() == w[1].letter() && w[0].alter() != w[1].alter())
}

/// Neighbour notes, a half step from two equal ones, with their letter, of which another name is not a double one.
fn altered(written: &[WrittenPitch]) -> usize {
    let is = |w: &&[WrittenPitch]| {
        w[0].number() == w[2].number()
            && (w[1].number() - w[0].number()).abs() == 1
            && w[1].letter() == w[0].letter()
            && !is_only_simple(w[1])
    };
    written.windows(3).filter(is).count()
}

/// True for D, G and A: their other names have two accidentals.
fn is_only_simple(pitch: WrittenPitch) -> bool {
    pitch.alter() == 0 && matches!(pitch.letter(), Letter::D | Letter::G | Letter::A)
}

fn any_key() -> impl Strategy<Value = Key> {
    let mode = prop_oneof![Just(Mode::Major), Just(Mode::Minor)];
    (-MOST..=MOST, mode).prop_map(|(fifths, mode)| Key::new(fifths, mode).unwrap())
}

fn any_pitch() -> impl Strategy<Value = WrittenPitch> {
    let letter = (0..7usize).prop_map(|i| Letter::ALL[i]);
    (letter, -1..=1i8, 3..=5i8).prop_map(|(l, a, o)| WrittenPitch::new(l, a, o))
}

/// Small steps from one note to the next, as lines have them.
fn any_melody() -> impl Strategy<Value = Vec<WrittenPitch>> {
    prop_oneof![
        prop::collection::vec(any_pitch(), 1..12),
        (52..80i32, prop::collection::vec(-2..=2i32, 1..12)).prop_map(|(from, steps)| {
            let mut now = from;
            let all = steps.into_iter().map(|step| {
                now += step;
                WrittenPitch::from_number(now)
            });
            all.collect()
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_sounds_does_not_change(
        melody in any_melody(),
        key in prop::option::of(any_key()),
        by in -30..=30i32,
    ) {
        let spelling = Spelling::of(&melody, key, melody.first().copied(), by);
        for (note, moved) in melody.iter().zip(spelling.line(&melody)) {
            prop_assert_eq!(moved.number(), note.number() + by);
            prop_assert_eq!(spelling.pitch(*note).number(), moved.number());
            prop_assert_eq!(moved.plain().number(), moved.number());
            prop_assert!(moved.plain().alter().abs() <= 1);
            if by == 0 {
                prop_assert_eq!(moved, *note);
            }
        }
    }

    #[test]
    fn a_note_keeps_one_name_and_steps_stay_steps(
        melody in any_melody(),
        key in prop::option::of(any_key()),
        by in -12..=12i32,
    ) {
        let spelling = Spelling::of(&melody, key, melody.first().copied(), by);
        let moved = spelling.line(&melody);
        if key.is_none() && one_name_each(&melody) && !has_runs(&melody) {
            prop_assert!(one_name_each(&moved), "{:?}", moved);
        }
        if by % 12 != 0 && one_name_each(&melody) {
            prop_assert_eq!(altered(&moved), 0, "{:?}", moved);
        }
    }

    #[test]
    fn notes_of_a_scale_are_notes_of_the_scale_moved_to(
        key in any_key(),
        letters in prop::collection::vec((0..7usize, 3..=5i8), 1..16),
        by in -12..=12i32,
    ) {
        let note = |(letter, octave): &(usize, i8)| {
            let letter = Letter::ALL[*letter];
            WrittenPitch::new(letter, key.alter(letter), *octave)
        };
        let melody: Vec<WrittenPitch> = letters.iter().map(note).collect();
        let spelling = Spelling::of(&melody, Some(key), None, by);
        let to = spelling.key().unwrap();
        prop_assert!(by % 12 == 0 || to.fifths().abs() <= MOST_MOVED);
        let there = spelling.line(&melody);
        for (note, moved) in melody.iter().zip(&there) {
            prop_assert!(to.contains(moved.name()));
            prop_assert_eq!(WrittenPitch::in_key(note.number(), key), *note);
        }
        // There and back again.
        if key.fifths().abs() < MOST_MOVED {
            let back = Spelling::of(&there, Some(to), None, -by);
            prop_assert_eq!(back.line(&there), melody);
        }
    }
}
