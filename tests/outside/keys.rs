//! Key signatures and scales. The order of the sharps and of the flats, and the signature of each of the thirty keys, are
//! in every primer of harmony (common practice, from memory); the scales are written out here by hand, and
//! `tests/notation/keys.py` compares the same thirty with an independent library.

use leadpipe::music::WrittenPitch;
use leadpipe::music::key::{Key, Mode};
use leadpipe::music::pitch::Letter;
use leadpipe::music::spelling::Spelling;

/// Each major key with its relative minor, its sharps (flats are negative), and the notes of both.
const KEYS: [(&str, &str, i32, &str); 15] = [
    ("C major", "A minor", 0, "C D E F G A B"),
    ("G major", "E minor", 1, "G A B C D E F#"),
    ("D major", "B minor", 2, "D E F# G A B C#"),
    ("A major", "F-sharp minor", 3, "A B C# D E F# G#"),
    ("E major", "C-sharp minor", 4, "E F# G# A B C# D#"),
    ("B major", "G-sharp minor", 5, "B C# D# E F# G# A#"),
    ("F-sharp major", "D-sharp minor", 6, "F# G# A# B C# D# E#"),
    ("C-sharp major", "A-sharp minor", 7, "C# D# E# F# G# A# B#"),
    ("F major", "D minor", -1, "F G A Bb C D E"),
    ("B-flat major", "G minor", -2, "Bb C D Eb F G A"),
    ("E-flat major", "C minor", -3, "Eb F G Ab Bb C D"),
    ("A-flat major", "F minor", -4, "Ab Bb C Db Eb F G"),
    ("D-flat major", "B-flat minor", -5, "Db Eb F Gb Ab Bb C"),
    ("G-flat major", "E-flat minor", -6, "Gb Ab Bb Cb Db Eb F"),
    ("C-flat major", "A-flat minor", -7, "Cb Db Eb Fb Gb Ab Bb"),
];

const ORDER_OF_SHARPS: &str = "FCGDAEB";
const ORDER_OF_FLATS: &str = "BEADGCF";

fn alter(name: &str) -> i8 {
    match name.chars().nth(1) {
        Some('#') => 1,
        Some('b') => -1,
        _ => 0,
    }
}

fn letter(name: &str) -> Letter {
    Letter::parse(name.chars().next().unwrap()).unwrap()
}

#[test]
fn the_thirty_keys_have_their_signatures() {
    for (major, minor, sharps, scale) in KEYS {
        for (name, mode) in [(major, Mode::Major), (minor, Mode::Minor)] {
            let key = Key::parse(name).unwrap();
            assert_eq!(key.fifths(), sharps, "{name}");
            assert_eq!(Key::new(sharps, mode), Some(key));
            assert_eq!(key.to_string(), name);
            let order = if sharps < 0 {
                ORDER_OF_FLATS
            } else {
                ORDER_OF_SHARPS
            };
            let signed: Vec<char> = order.chars().take(sharps.unsigned_abs() as usize).collect();
            for note in scale.split(' ') {
                assert_eq!(key.alter(letter(note)), alter(note), "{name}: {note}");
                assert_eq!(
                    alter(note) != 0,
                    signed.contains(&letter(note).name()),
                    "{name}: {note}"
                );
            }
        }
    }
}

/// From C major and from A minor to every key that has at most six sharps or flats.
#[test]
fn a_scale_is_moved_to_the_scale_of_each_key() {
    let parse = |text: &str| WrittenPitch::parse(text).unwrap();
    let from = ["C4", "D4", "E4", "F4", "G4", "A4", "B4"].map(parse);
    let mut reached = 0;
    for (major, minor, sharps, scale) in KEYS {
        let start = parse(&format!("{}4", scale.split(' ').next().unwrap()));
        let by = start.number() - 60;
        let relative = |name: &str, key: &str| {
            let spelling = Spelling::of(&from, Some(Key::parse(name).unwrap()), None, by);
            let notes = from.map(|note| {
                let name = spelling.pitch(note).to_string();
                name[..name.len() - 1].to_owned()
            });
            (spelling.key().unwrap().to_string() == key).then(|| notes.join(" "))
        };
        for found in [relative("C major", major), relative("A minor", minor)]
            .into_iter()
            .flatten()
        {
            assert_eq!(found, scale);
            reached += 1;
        }
        // Of F-sharp and G-flat, as far from C, sharps are taken.
        assert_eq!(
            relative("C major", major).is_some(),
            (-5..=6).contains(&sharps),
            "{major}"
        );
    }
    assert_eq!(reached, 24);
}

/// David Meredith's ps13 corrects six figures of neighbour and passing notes in its second stage: on the left as a first
/// stage may have spelt them, on the right set right (Journal of New Music Research 35, 2006; the figures as they are
/// listed in the documentation of a published implementation).
#[test]
fn neighbour_and_passing_notes_are_steps() {
    for (wrong, right) in [
        ("C5 Cb5 C5", "C5 B4 C5"),
        ("C5 C#5 C5", "C5 Db5 C5"),
        ("C5 Cb5 A4", "C5 B4 A4"),
        ("A4 Cb5 C5", "A4 B4 C5"),
        ("C5 A#4 A4", "C5 Bb4 A4"),
        ("A4 A#4 C5", "A4 Bb4 C5"),
    ] {
        let parse = |text: &str| -> Vec<WrittenPitch> {
            text.split(' ')
                .map(|t| WrittenPitch::parse(t).unwrap())
                .collect()
        };
        let (wrong, right) = (parse(wrong), parse(right));
        for by in (-11..12).filter(|by| *by != 0) {
            let of = |melody: &[WrittenPitch]| -> Vec<i32> {
                let spelling = Spelling::of(melody, None, melody.first().copied(), by);
                let moved = spelling.line(melody);
                moved.iter().map(|note| note.staff_step()).collect()
            };
            let steps = |all: &[i32]| -> Vec<i32> { all.windows(2).map(|w| w[1] - w[0]).collect() };
            assert_eq!(steps(&of(&wrong)), steps(&of(&right)), "{wrong:?} {by}");
        }
    }
}
