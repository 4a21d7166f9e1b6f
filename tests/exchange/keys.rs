//! Keys: signatures out and in, as MusicXML and as MIDI, and what a line cannot say of them.

use super::{adopt_xml, adopted, choice, export, unroll};
use leadpipe::exchange::{AdoptOptions, adopt, midi, musicxml};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{Played, Score};

const HEAD: &str = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\ntempo = 72\n";

/// A walk in the routine's key, a line in another, one on tubes, and one that breathes.
fn several() -> Routine {
    super::routine(&format!(
        "{HEAD}key = \"E-flat major\"\n\
         [[line]]\nname = \"walk\"\nnotes = \"Eb4:half F4:half | G4:half Ab4:half\"\nhalf_steps = [0, -1, -2]\n\
         [[line]]\nname = \"other\"\nkey = \"A minor\"\nnotes = \"A4:half G#4:half | A4:whole\"\n\
         [[line]]\nname = \"tubes\"\nkey = \"C major\"\nopen = \"C4:half G4:half\"\ntubes = [\"0\", \"2\", \"1\"]\n\
         [[line]]\nname = \"breathing\"\non = \"air\"\nnotes = \"in:whole out:whole\"\n"
    ))
}

/// Every key of a MusicXML file, as fifths and mode.
fn signatures(xml: &str) -> Vec<(i32, String)> {
    let options = roxmltree::ParsingOptions {
        allow_dtd: true,
        ..roxmltree::ParsingOptions::default()
    };
    let document = roxmltree::Document::parse_with_options(xml, options).unwrap();
    let keys = document.descendants().filter(|n| n.has_tag_name("key"));
    keys.map(|key| {
        let text = |name: &str| {
            let child = key.children().find(|n| n.has_tag_name(name));
            child.and_then(|n| n.text()).unwrap_or_default().to_owned()
        };
        (text("fifths").parse().unwrap(), text("mode"))
    })
    .collect()
}

#[test]
fn signatures_are_written_where_they_change() {
    let right = [
        (-3, "major"),
        (2, "major"),
        (-5, "major"),
        (0, "minor"),
        (0, "major"),
        (5, "major"),
        (-2, "major"),
    ];
    let right = right.map(|(fifths, mode)| (fifths, mode.to_owned()));
    assert_eq!(signatures(&export(&several())), right);
}

#[test]
fn a_routine_without_a_key_has_an_open_signature() {
    let routine = super::routine(&format!(
        "{HEAD}[[line]]\nname = \"L\"\nnotes = \"F#4:half G4:half\"\n"
    ));
    let xml = export(&routine);
    assert_eq!(signatures(&xml), [(0, String::new())]);
    let back = adopt_xml(&xml).unwrap();
    assert!(!back.text.contains("key ="), "{}", back.text);
}

/// Names of all notes, line by line, pass by pass.
fn names(score: &Score<'_>) -> Vec<Vec<String>> {
    let passes = score.lines.iter().flat_map(|line| &line.passes);
    passes
        .map(|pass| {
            let written = pass.notes.iter().filter_map(|note| match note.played {
                Played::Pitch { written, .. } => Some(written.to_string()),
                Played::In | Played::Out => None,
            });
            written.collect()
        })
        .collect()
}

#[test]
fn keys_come_back_from_musicxml() {
    let routine = several();
    let back = adopt_xml(&export(&routine)).unwrap();
    let again =
        routine::read(&back.text).unwrap_or_else(|faults| panic!("{}\n{faults:#?}", back.text));
    let keys = |routine: &Routine| -> Vec<Option<String>> {
        let lines = routine.lines.iter();
        lines
            .map(|line| line.key_in(routine).map(|key| key.to_string()))
            .collect()
    };
    assert_eq!(keys(&again), keys(&routine), "{}", back.text);
    assert_eq!(again.key, routine.key);
    assert_eq!(names(&unroll(&again)), names(&unroll(&routine)));
    assert!(
        !back.losses.iter().any(|loss| loss.contains("key")),
        "{:?}",
        back.losses
    );
}

#[test]
fn keys_come_back_from_midi() {
    let routine = several();
    let bytes = midi::write(&unroll(&routine));
    let back = adopted(&midi::read(&bytes, None).unwrap());
    let again =
        routine::read(&back.text).unwrap_or_else(|faults| panic!("{}\n{faults:#?}", back.text));
    assert_eq!(again.key, routine.key, "{}", back.text);
    assert_eq!(names(&unroll(&again))[..4], names(&unroll(&routine))[..4]);
}

/// Standard MIDI File 1.0: FF 59 02 sf mi, sharps (flats are negative) and 1 for minor. A trumpet in B-flat that reads
/// E-flat major sounds in D-flat major: five flats; D major sounds in C, D-flat in B; A minor in G minor.
#[test]
fn midi_names_the_keys_that_sound() {
    let bytes = midi::write(&unroll(&several()));
    let found: Vec<(i8, u8)> = bytes
        .windows(5)
        .filter(|w| w.starts_with(&[0xff, 0x59, 2]))
        .map(|w| (w[3] as i8, w[4]))
        .collect();
    assert_eq!(
        found,
        [(-5, 0), (0, 0), (5, 0), (-2, 1), (-2, 0), (3, 0), (-4, 0)]
    );
    let plain = super::routine(&format!(
        "{HEAD}[[line]]\nname = \"L\"\nnotes = \"G4:whole\"\n"
    ));
    let bytes = midi::write(&unroll(&plain));
    assert!(!bytes.windows(3).any(|w| w == [0xff, 0x59, 2]));
}

fn score(measures: &str) -> String {
    format!(
        "<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Trumpet</part-name>\
         </score-part></part-list><part id=\"P1\">{measures}</part></score-partwise>"
    )
}

fn measure(number: u32, attributes: &str, notes: &[(&str, i32, i32)]) -> String {
    let notes: String = notes
        .iter()
        .map(|(step, alter, octave)| {
            format!(
                "<note><pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>\
                 <duration>2</duration><type>half</type></note>"
            )
        })
        .collect();
    format!("<measure number=\"{number}\"><attributes>{attributes}</attributes>{notes}</measure>")
}

const FIRST: &str = "<divisions>1</divisions>";
const TIME: &str = "<time><beats>4</beats><beat-type>4</beat-type></time>";

fn key(fifths: &str, mode: &str) -> String {
    let mode = match mode {
        "" => String::new(),
        mode => format!("<mode>{mode}</mode>"),
    };
    format!("<key><fifths>{fifths}</fifths>{mode}</key>")
}

fn adopt_in(key: &str) -> (String, Vec<String>) {
    let attributes = format!("{FIRST}{key}{TIME}");
    let first = measure(1, &attributes, &[("E", -1, 4), ("B", -1, 4)]);
    let second = measure(2, "", &[("C", 0, 5), ("A", -1, 4)]);
    let adopted = adopt_xml(&score(&(first + &second))).unwrap();
    (adopted.text, adopted.losses)
}

#[test]
fn a_signature_comes_in_as_key() {
    for (fifths, mode, right) in [
        ("-3", "major", "E-flat major"),
        ("-3", "minor", "C minor"),
        ("-3", "", "E-flat major"),
        ("0", "minor", "A minor"),
        ("0", "major", "C major"),
    ] {
        let (text, losses) = adopt_in(&key(fifths, mode));
        assert!(text.contains(&format!("\nkey = \"{right}\"\n")), "{text}");
        assert!(text.contains("Eb4"), "{text}");
        assert!(
            !losses.iter().any(|loss| loss.contains("key")),
            "{losses:?}"
        );
    }
    assert!(!adopt_in(&key("0", "")).0.contains("key ="));
    assert!(!adopt_in("").0.contains("key ="));
}

#[test]
fn keys_that_a_routine_cannot_have_are_told() {
    let (text, losses) = adopt_in(&key("-3", "dorian"));
    assert!(text.contains("key = \"E-flat major\""), "{text}");
    assert!(
        losses
            .iter()
            .any(|loss| loss.contains("neither major nor minor")),
        "{losses:?}"
    );
    let own = "<key><key-step>B</key-step><key-alter>-1</key-alter></key>";
    let (text, losses) = adopt_in(own);
    assert!(!text.contains("key ="), "{text}");
    assert!(
        losses
            .iter()
            .any(|loss| loss.contains("a key signature of its own kind")),
        "{losses:?}"
    );
}

#[test]
fn a_change_inside_a_line_is_told_and_its_notes_are_right() {
    let attributes = format!("{FIRST}{}{TIME}", key("-3", "major"));
    let first = measure(1, &attributes, &[("E", -1, 4), ("B", -1, 4)]);
    let second = measure(2, &key("2", "major"), &[("F", 1, 4), ("A", 0, 4)]);
    let third = measure(3, "", &[("C", 1, 5), ("A", 0, 4)]);
    let adopted = adopt_xml(&score(&(first + &second + &third))).unwrap();
    let told: Vec<&String> = adopted
        .losses
        .iter()
        .filter(|loss| loss.contains("the key changes"))
        .collect();
    assert_eq!(told.len(), 1, "{:?}", adopted.losses);
    assert!(
        told[0].contains("bar 2: the key changes to D major inside the line"),
        "{told:?}"
    );
    assert!(adopted.text.contains("F#4"), "{}", adopted.text);
    assert!(
        adopted.text.contains("\nkey = \"E-flat major\"\n"),
        "{}",
        adopted.text
    );
}

/// A concert B-flat major part for a trumpet in B-flat: it reads C major. One in E concert reads F-sharp, with E sharp.
#[test]
fn a_part_that_is_moved_takes_its_key_along() {
    for (fifths, notes, key_right, notes_right) in [
        ("-2", [("B", -1, 4), ("E", -1, 5)], "C major", ["C5", "F5"]),
        (
            "4",
            [("E", 0, 4), ("D", 1, 5)],
            "F-sharp major",
            ["F#4", "E#5"],
        ),
    ] {
        let attributes = format!("{FIRST}{}{TIME}", key(fifths, "major"));
        let first = measure(1, &attributes, &notes);
        let second = measure(2, "", &notes);
        let options = AdoptOptions {
            concert: true,
            ..choice()
        };
        let piece = musicxml::read(&score(&(first + &second)), None).unwrap();
        let adopted = adopt(&piece, &options).unwrap();
        assert!(
            adopted.text.contains(&format!("\nkey = \"{key_right}\"\n")),
            "{}",
            adopted.text
        );
        for note in notes_right {
            assert!(adopted.text.contains(note), "{note}: {}", adopted.text);
        }
    }
}
