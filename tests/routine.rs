//! The routine file: what is read, and every fault a teacher can meet, with its place.

use leadpipe::music::{Meter, NoteValue, Whole};
use leadpipe::routine::{self, Articulation, EventKind, Fault, RestLength, Routine, Walk, notes};
use proptest::prelude::*;

const HEAD: &str = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\ntempo = 72\n";

/// A routine of one line with this body.
fn with_line(body: &str) -> String {
    format!("{HEAD}\n[[line]]\nname = \"N\"\n{body}\n")
}

fn read_line(body: &str) -> Routine {
    routine::read(&with_line(body)).unwrap_or_else(|f| panic!("{body}: {f:#?}"))
}

/// The faults of a line, each as `the source it points at: message / hint`.
fn faults(body: &str) -> Vec<String> {
    faults_of(&with_line(body))
}

fn faults_of(text: &str) -> Vec<String> {
    let faults = routine::read(text).expect_err("this has faults");
    faults.iter().map(|f| shown(text, f)).collect()
}

fn shown(text: &str, fault: &Fault) -> String {
    let place = &text[fault.span.start..fault.span.end];
    let label = fault
        .label
        .as_ref()
        .map(|l| format!(" ({l})"))
        .unwrap_or_default();
    let hint = fault
        .hint
        .as_ref()
        .map(|h| format!(" / {h}"))
        .unwrap_or_default();
    format!("{place}: {}{label}{hint}", fault.message)
}

#[test]
fn the_sketch_of_the_format_reads_as_it_says() {
    let text = r#"
format = 1
title = "Second steps"
instrument = "trumpet in B-flat"
comfortable_top = "G4"          # written pitch
reach = "B4"
tempo = 72
meter = "4/4"

[[line]]
name = "Long tone and neighbour"
purpose = "steady air"
say = "Let the air move before the lips do."
notes = "mf slur( G4:half F#4:half | G4:whole ) breath | slur( G4:half F#4:half | G4:whole )"
half_steps = [0, -1, -2]
rest = "same"

[[line]]
name = "Two notes, seven lengths of tube"
open = "slur( C4:half G4:half | C4:whole )"
tubes = ["0", "2", "1", "1-2", "2-3", "1-3", "1-2-3"]
articulation = ["slurred", "tongued"]
drone = "tonic"
between = "same"
"#;
    let routine = routine::read(text).expect("the sketch is a routine");
    assert_eq!(routine.lines.len(), 2);
    let first = &routine.lines[0];
    assert_eq!(first.walk, Walk::HalfSteps(vec![0, -1, -2]));
    assert_eq!(first.melody.length, Whole::from_integer(4));
    let joined: Vec<bool> = first.melody.events.iter().map(|e| e.slurred).collect();
    assert_eq!(joined, [false, true, true, false, true, true]);
    assert!(first.melody.events[2].breath_after);
    let second = &routine.lines[1];
    assert_eq!(
        second.articulations,
        [Articulation::Slurred, Articulation::Tongued]
    );
    assert!(matches!(&second.walk, Walk::Tubes(t) if t.len() == 7));
    assert_eq!(second.rest, RestLength::Same);
}

#[test]
fn ties_make_one_note_and_triplets_are_three_in_the_time_of_two() {
    let routine = read_line(
        "notes = \"G4:whole | tie:half triplet( A4:quarter G4:quarter F4:quarter ) | rest:half E4:half.\"\nmeter = \"4/4\""
            .replace(" | rest:half E4:half.", " | rest:quarter E4:half.")
            .as_str(),
    );
    let events = &routine.lines[0].melody.events;
    let lengths: Vec<Whole> = events.iter().map(|e| e.length).collect();
    let third = Whole::new(1, 6);
    assert_eq!(
        lengths,
        [
            Whole::new(3, 2),
            third,
            third,
            third,
            Whole::new(1, 4),
            Whole::new(3, 4)
        ]
    );
}

#[test]
fn a_repeated_pitch_and_a_breath_break_a_slur_and_a_tie_into_it_holds() {
    let slurred = |notes: &str| -> Vec<bool> {
        let routine = read_line(&format!("each = \"quarter\"\nnotes = \"{notes}\""));
        routine.lines[0]
            .melody
            .events
            .iter()
            .map(|e| e.slurred)
            .collect()
    };
    assert_eq!(slurred("slur( G4 G4 A4 )"), [false, false, true]);
    assert_eq!(
        slurred("slur( G4 A4 breath G4 F4 )"),
        [false, true, false, true]
    );
    assert_eq!(slurred("G4 slur( tie A4 )"), [false, true]);
    assert_eq!(
        slurred("slur( G4 A4 ) G4 slur( F4 E4 )"),
        [false, true, false, false, true]
    );
    assert_eq!(
        slurred("slur( G4 F#4 ) slur( Gb4 F4 )"),
        [false, true, false, true]
    );
}

#[test]
fn loudness_leads_evenly_in_db() {
    let routine = read_line("notes = \"p G4:half cresc tie:half A4:half f B4:half\"");
    let melody = &routine.lines[0].melody;
    let at = |n, d| melody.level_db(Whole::new(n, d));
    assert_eq!(at(0, 1), -13.0);
    assert_eq!(at(1, 2), -13.0);
    assert_eq!(at(1, 1), -6.5);
    assert_eq!(at(3, 2), 0.0);
    let routine = read_line("notes = \"G4:half A4:half\"");
    assert_eq!(
        routine.lines[0].melody.level_db(Whole::new(1, 4)),
        -5.0,
        "passes start at mf"
    );
}

#[test]
fn breathing_lines_hold_breath_in_place_of_pitches() {
    let routine = read_line("on = \"air\"\nnotes = \"in:whole | out:half. hold:quarter\"");
    let kinds: Vec<EventKind> = routine.lines[0]
        .melody
        .events
        .iter()
        .map(|e| e.kind)
        .collect();
    assert_eq!(kinds, [EventKind::In, EventKind::Out, EventKind::Hold]);
}

#[test]
fn slips_in_notes_are_told_at_their_place_all_at_once() {
    assert_eq!(
        faults("notes = \"G4:haf X9:half slur( A4:half\""),
        [
            "haf: haf is no note value / write G4:half",
            "X9:half: X9:half is not understood / a note is its pitch and its length: G4:half",
            "slur(: this slur is never closed / put a ) after its last note",
        ]
    );
    assert_eq!(
        faults("notes = \"g4:half f#4:half bb3:half\""),
        [
            "g4:half: pitches are written with a capital letter (here and 2 more in this line) / write G4"
        ]
    );
    assert_eq!(
        faults("notes = \"H4:half C5:half\""),
        ["H4:half: H is the German name of B / write B4; the German B is Bb here"]
    );
    assert_eq!(
        faults("notes = \"G4:half, A4:half, G4:whole\""),
        [
            ",: notes are parted by blanks, not by commas (here and 1 more in this line) / leave the \
          commas out; where a breath is meant write the word breath"
        ]
    );
    assert_eq!(
        faults("notes = \"G4 A4\""),
        [
            "G4: G4 has no length (here and 1 more in this line) / write G4:quarter, and the notes after \
          it that name no length are quarters, too"
        ]
    );
    assert_eq!(
        faults("notes = \"G:half\""),
        [
            "G:half: G does not say in which octave / write G3 (below the second ledger line below), G4 \
          (second-line G) or G5 (on top of the staff)"
        ]
    );
    assert_eq!(
        faults("notes = \"F##4:half G4#:half Fis4:half\""),
        [
            "F##4:half: double sharps and flats are not used / write G4, which is the same valve",
            "G4#:half: the octave stands after the accidental / write G#4",
            "Fis4:half: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
        ]
    );
    assert_eq!(
        faults("notes = \"G4:crotchet r:half G4:half (bent) G4:half [31]\""),
        [
            "crotchet: crotchet is no note value / write G4:quarter",
            "r:half: r:half is not understood / write rest:half",
            "(bent): (bent) is no mark for a note / did you mean (bend)?",
            "[31]: [31] is no fingering / write [1-3]",
        ]
    );
}

#[test]
fn bars_that_do_not_add_up_say_which_and_by_how_much() {
    assert_eq!(
        faults("notes = \"G4:half A4:half | G4:half A4:quarter | G4:whole\""),
        ["|: bar 2 is one beat short / a bar of 4/4 holds 4 quarters; this one holds 3 beats"]
    );
    assert_eq!(
        faults("meter = \"6/8\"\nnotes = \"G4:half. A4:quarter | G4:half.\""),
        [
            "|: bar 1 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths"
        ]
    );
    assert_eq!(
        faults("notes = \"G4:quarter | G4:whole\""),
        [
            "|: bar 1 is 3 beats short / a bar of 4/4 holds 4 quarters; this one holds one beat; a \
          pickup is written as a whole bar that begins with rests"
        ]
    );
    assert_eq!(
        faults("notes = \"G4:whole | G4:whole tie:quarter\""),
        [
            "G4:whole: bar 2 is one beat too long / a bar of 4/4 holds 4 quarters; this one holds 5 beats"
        ]
    );
    read_line("notes = \"G4:whole | G4:half\"");
    read_line("notes = \"| G4:whole | G4:whole |\"");
}

#[test]
fn what_cannot_stand_together_is_told() {
    let first = |body: &str| faults(body).remove(0);
    for (body, begins) in [
        (
            "notes = \"G4:half rest:half breath\"",
            "breath: a breath after a rest",
        ),
        (
            "notes = \"G4:half breath tie:half\"",
            "tie:half: a breath before a tie",
        ),
        (
            "notes = \"slur( G4:half rest:half A4:half )\"",
            "rest:half: a slur over a rest",
        ),
        (
            "notes = \"slur( G4:half slur( A4:half B4:half ) )\"",
            "slur(: a slur inside a slur",
        ),
        (
            "notes = \"slur( G4:half )\"",
            "slur( G4:half ): a slur joins two notes or more",
        ),
        (
            "notes = \"G4:half [0]\"\nhalf_steps = [0, -1]",
            "half_steps: a line with fingerings",
        ),
        (
            "open = \"C4:half\"\nhalf_steps = [0]",
            "half_steps: a line on tubes is moved",
        ),
        (
            "notes = \"C4:half\"\ntubes = [\"0\"]",
            "tubes: tubes move a line that is written",
        ),
        (
            "open = \"D4:half\"",
            "D4:half: D4 is no note of the open horn",
        ),
        (
            "notes = \"G4:half cresc A4:half\"",
            "cresc: this leads to no dynamic",
        ),
        (
            "notes = \"f G4:half cresc A4:half p\"",
            "p: cresc leads from f to p",
        ),
        (
            "notes = \"E3:half\"",
            "E3:half: E3 lies below the trumpet in B-flat, among the pedal tones",
        ),
        (
            "notes = \"D6:half\"",
            "D6:half: D6 lies above the trumpet in B-flat",
        ),
        (
            "notes = \"triplet( C4:half D4:half )\"",
            "triplet( C4:half D4:half ): this triplet is not",
        ),
        (
            "on = \"air\"\nnotes = \"G4:half\"",
            "G4:half: G4 is a note, and this is a breathing line",
        ),
        (
            "notes = \"in:half\"",
            "in:half: in belongs to breathing lines",
        ),
        (
            "on = \"mouthpiece\"\nnotes = \"G4:half [0]\"",
            "[0]: a mouthpiece has no valves",
        ),
        (
            "notes = \"rest:half\"",
            "rest:half: there is no note in this line",
        ),
        (
            "notes = \"(bend) G4:half\"",
            "(bend): (bend) stands after no note",
        ),
        (
            "notes = \"G4:half\"\nopen = \"C4:half\"",
            "open: a line has notes or open, not both",
        ),
    ] {
        let fault = first(body);
        assert!(fault.starts_with(begins), "{body}\n  {fault}");
    }
}

#[test]
fn entries_out_of_bounds_and_unknown_entries_are_told() {
    let first = |body: &str| faults(body).remove(0);
    let notes = "notes = \"G4:half\"\n";
    for (entry, begins) in [
        (
            "tiems = 2",
            "tiems: tiems is not known here / did you mean times?",
        ),
        (
            "reach = \"A4\"",
            "reach: reach is not known here / reach belongs to the head of the file",
        ),
        ("times = 0", "0: times is a whole number from 1 to 100"),
        ("times = 101", "101: times is a whole number from 1 to 100"),
        (
            "tempo = 19",
            "19: tempo is a number of clicks a minute, from 20 to 300",
        ),
        (
            "tempo = 72.12345",
            "72.12345: tempo has more than three decimals",
        ),
        (
            "tempo = \"72\"",
            "\"72\": tempo is a number of clicks a minute",
        ),
        (
            "meter = \"4/16\"",
            "\"4/16\": 4/16 is no meter leadpipe can click",
        ),
        (
            "rest = \"2 bar\"\ncount_in = 0",
            "0: count_in is a whole number from 1 to 16",
        ),
        (
            "rest = \"a while\"",
            "\"a while\": rest cannot be \"a while\"",
        ),
        (
            "rest = 20",
            "20: rest is written as words in straight quotes",
        ),
        (
            "guide = \"togehter\"",
            "\"togehter\": guide cannot be \"togehter\" / did you mean \"together\"?",
        ),
        (
            "articulation = [\"slured\"]",
            "\"slured\": articulation cannot be \"slured\" / did you mean",
        ),
        (
            "half_steps = [0, 40]",
            "40: half_steps are whole numbers from -36 to 36",
        ),
        ("drone = \"h3\"", "\"h3\": H is the German name of B"),
        ("each = \"haf\"", "\"haf\": haf is no note value"),
    ] {
        let fault = first(&format!("{notes}{entry}"));
        assert!(fault.starts_with(begins), "{entry}\n  {fault}");
    }
}

#[test]
fn the_head_is_told_what_it_lacks() {
    let told = faults_of("title = \"T\"\n[[line]]\nname = \"N\"\nnotes = \"G4:half\"\n");
    assert_eq!(told.len(), 4, "{told:#?}");
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"G4\"", "\"A4\""));
    assert!(
        told[0].starts_with("\"A4\": A4 is not among the open notes"),
        "{told:#?}"
    );
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("B-flat", "E-flat"));
    assert!(
        told[0].contains("is no instrument leadpipe knows"),
        "{told:#?}"
    );
    // A head that is there but says nothing lacks everything.
    assert_eq!(faults_of("purpose = \"air\"\n").len(), 6);
    assert_eq!(faults_of("").len(), 1);
}

#[test]
fn files_that_are_no_toml_are_told_in_plain_words() {
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"T\"", "“T”"));
    assert_eq!(told, ["“T”: curly quotes / write straight ones: \"T\""]);
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"T\"", "Second steps"));
    assert!(
        told[0].starts_with("Second steps: words stand in straight quotes"),
        "{told:#?}"
    );
    let told = faults_of(&format!("{}tempo 80\n", with_line("notes = \"G4:half\"")));
    assert!(
        told[0].starts_with("tempo 80: this row is not understood"),
        "{told:#?}"
    );
    let told = faults_of(&with_line("notes = \"G4:half\nrest = \"same\""));
    assert!(told.iter().any(|t| t.contains("not closed")), "{told:#?}");
    let told = faults_of(&with_line("notes = \"G4:half\"\nnotes = \"G4:half\""));
    assert!(
        told.iter().any(|t| t.contains("written twice")),
        "{told:#?}"
    );
}

#[test]
fn sizes_are_bounded() {
    let large = format!(
        "{}#{}",
        with_line("notes = \"G4:half\""),
        "x".repeat(1 << 20)
    );
    assert!(faults_of_large(&large).contains("1 MiB"));
    let lines = format!(
        "{HEAD}{}",
        "[[line]]\nname = \"N\"\nnotes = \"G4:half\"\n".repeat(201)
    );
    assert!(faults_of(&lines)[0].contains("200 are the most"));
    let deep = with_line(&format!("notes = \"{}\"", "slur( ".repeat(100_000)));
    assert!(faults_of(&deep).len() <= 100);
    let brackets = with_line(&format!("notes = \"{}\"", "( [ ".repeat(100_000)));
    assert!(faults_of(&brackets).len() <= 100);
}

fn faults_of_large(text: &str) -> String {
    routine::read(text).expect_err("too large")[0]
        .message
        .clone()
}

/// Notes that make sense most of the time.
fn token() -> impl Strategy<Value = String> {
    let pitch = prop::sample::select(vec![
        "C4", "G4", "F#4", "Bb3", "E5", "Cb5", "B#3", "h4", "g4",
    ]);
    let value = prop::sample::select(vec![":half", ":quarter", ":eighth.", ":whole", "", ":haf"]);
    let mark = prop::sample::select(vec!["", " [1-2]", "(bend)", " (staccato) (air)", "(ku)"]);
    let note = (pitch, value, mark).prop_map(|(p, v, m)| format!("{p}{v}{m}"));
    let word = prop::sample::select(vec![
        "slur(",
        "triplet(",
        ")",
        "|",
        "breath",
        "tie:half",
        "rest:quarter",
        "cresc",
        "dim",
        "p",
        "f",
        ",",
        "(",
        "[",
        "in:half",
    ]);
    prop_oneof![3 => note, 1 => word.prop_map(str::to_owned)]
}

fn inside(faults: &[Fault], text: &str) {
    for fault in faults {
        for span in [Some(fault.span), fault.also.as_ref().map(|a| a.0)]
            .into_iter()
            .flatten()
        {
            assert!(
                span.start <= span.end && span.end <= text.len(),
                "{fault:?}"
            );
            assert!(
                text.is_char_boundary(span.start) && text.is_char_boundary(span.end),
                "{fault:?}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_without_panic_and_faults_lie_inside_it(text in any::<String>()) {
        if let Err(faults) = routine::read(&text) {
            prop_assert!(!faults.is_empty());
            inside(&faults, &text);
        }
    }

    #[test]
    fn any_notes_are_read_without_panic(tokens in prop::collection::vec(token(), 0..40), junk in any::<String>()) {
        for body in [tokens.join(" "), tokens.concat(), format!("{} {junk}", tokens.join(" "))] {
            let text = with_line(&format!("notes = '''{body}'''"));
            if let Err(faults) = routine::read(&text) {
                inside(&faults, &text);
            }
        }
    }

    #[test]
    fn a_file_with_changed_bytes_is_read_without_panic(at in 0usize..200, put in any::<char>(), cut in 0usize..220) {
        let mut text: String = with_line("notes = \"mf slur( G4:half F#4:half | G4:whole ) breath\"\ntimes = 2");
        if text.is_char_boundary(at.min(text.len())) {
            text.insert(at.min(text.len()), put);
        }
        let cut = cut.min(text.len());
        for text in [text.clone(), text.chars().take(cut).collect(), text.replace('"', "”")] {
            if let Err(faults) = routine::read(&text) {
                inside(&faults, &text);
            }
        }
    }

    #[test]
    fn what_is_printed_reads_back(tokens in prop::collection::vec(token(), 1..40)) {
        let text = with_line(&format!("each = \"quarter\"\nnotes = \"{}\"", tokens.join(" ")));
        if let Ok(routine) = routine::read(&text) {
            let line = &routine.lines[0];
            let printed = line.phrase.to_string();
            let again = read_line(&format!("notes = \"{printed}\""));
            prop_assert_eq!(again.lines[0].phrase.to_string(), printed);
            let without_places = |m: &routine::Melody| {
                let mut m = m.clone();
                m.events.iter_mut().for_each(|e| e.span = routine::Span::new(0, 0));
                m
            };
            prop_assert_eq!(without_places(&again.lines[0].melody), without_places(&line.melody));
        }
    }
}

#[test]
fn the_property_tests_meet_routines_that_read_well() {
    // Guards the generator: a fixed phrase of its tokens is a routine.
    let routine =
        read_line("notes = \"p slur( C4:half G4:quarter ) cresc F#4:half breath E5:half f\"");
    assert_eq!(
        routine.lines[0].phrase.to_string(),
        "p slur( C4:half G4:quarter ) cresc F#4:half breath E5:half f"
    );
    let _ = (
        Meter::parse("4/4"),
        NoteValue::parse("half"),
        notes::Phrase::default(),
    );
}

#[test]
fn keys_are_read_in_the_head_and_in_a_line() {
    let text = format!(
        "{HEAD}key = \"E♭ major\"\n[[line]]\nname = \"a\"\nnotes = \"G4:whole\"\n\
         [[line]]\nname = \"b\"\nkey = \"f# minor\"\nnotes = \"G4:whole\"\n\
         [[line]]\nname = \"c\"\non = \"air\"\nnotes = \"in:whole\"\n"
    );
    let routine = routine::read(&text).unwrap();
    let key = |line: usize| {
        routine.lines[line]
            .key_in(&routine)
            .map(|key| key.to_string())
    };
    assert_eq!(key(0).as_deref(), Some("E-flat major"));
    assert_eq!(key(1).as_deref(), Some("F-sharp minor"));
    assert_eq!(key(2), None);
    assert_eq!(read_line("notes = \"G4:whole\"").key, None);
}

#[test]
fn what_is_no_key_is_said() {
    assert_eq!(
        faults("key = \"Es-Dur\"\nnotes = \"G4:whole\""),
        [
            "\"Es-Dur\": “Es-Dur” is no key / a key is a note with major or minor, as the player reads it: \
             \"E-flat major\", \"F-sharp minor\", or short \"Eb major\", \"F# minor\""
        ]
    );
    assert_eq!(
        faults("key = \"G# major\"\nnotes = \"G4:whole\""),
        [
            "\"G# major\": “G# major” would have 8 sharps, and a key has at most 7 / write \"A-flat major\", which \
             sounds the same"
        ]
    );
    assert_eq!(
        faults("key = 3\nnotes = \"G4:whole\""),
        ["3: key is written as words in straight quotes / for instance key = \"E-flat major\""]
    );
    assert_eq!(
        faults("on = \"air\"\nkey = \"C major\"\nnotes = \"in:whole\""),
        ["\"C major\": a breathing line has no key / leave key out"]
    );
}
