//! What a slide asks for, and what only valves or only a slide can do.

use super::{of_rule, report_of};
use leadpipe::brass::AgeBand;
use leadpipe::check::{Options, Report, Severity};
use leadpipe::routine::read;
use leadpipe::score::{Joined, Played, Take, unroll};
use leadpipe::timeline::{self, Approach, Content, Settings};

fn text(instrument: &str, top: &str, head: &str, rows: &str) -> String {
    format!(
        "format = 1\ntitle = \"Test\"\ninstrument = \"{instrument}\"\ncomfortable_top = \"{top}\"\ntempo = 60\n{head}\n\
         [[line]]\nname = \"L1\"\n{rows}\n"
    )
}

fn report(text: &str, age: Option<AgeBand>) -> Report {
    let options = Options {
        age,
        ..Options::default()
    };
    report_of(text, &Take::default(), &options)
}

/// The steps of the guide's first tone: how each note is reached.
fn approaches(text: &str) -> Vec<Approach> {
    let routine = read(text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let score = unroll(&routine, &Take::default()).unwrap();
    let timeline = timeline::compile(&score, &Settings::default());
    let steps = timeline.units.iter().find_map(|unit| match &unit.content {
        Content::Line(line) => line.tones.first().map(|tone| tone.steps.clone()),
        Content::Rest(_) => None,
    });
    steps
        .expect("a tone")
        .iter()
        .map(|step| step.approach)
        .collect()
}

const MIXED: &str = "notes = \"slur( F3:quarter Bb3:quarter G3:quarter F3:quarter | E3:whole )\"";

#[test]
fn slurs_that_would_smear_are_told_and_sound_with_a_soft_tongue() {
    let written = text("trombone", "Bb3", "", MIXED);
    let found = of_rule(&report(&written, None), "soft-tongue");
    let [found] = &found[..] else {
        panic!("{found:#?}");
    };
    assert_eq!(found.severity, Severity::Advice);
    assert!(found.message.contains("soft tongue"), "{}", found.message);
    // F3 to B-flat 3: the lips alone. B-flat 3 to G3 and F3 to E3: the same partial. G3 to F3: slide in, pitch down.
    let dips: Vec<&str> = approaches(&written)
        .iter()
        .map(|approach| match approach {
            Approach::Start => "start",
            Approach::Lips { .. } => "lips",
            Approach::Valves { dip_db, .. } if *dip_db > 5.0 => "soft tongue",
            Approach::Valves { .. } => "natural",
            Approach::Bend { .. } => "bend",
        })
        .collect();
    assert_eq!(
        dips,
        ["start", "lips", "soft tongue", "natural", "soft tongue"]
    );
}

#[test]
fn against_the_pitch_a_slur_is_natural_unless_every_slur_is_tongued() {
    let rows = "notes = \"slur( F3:half G3:half | F3:whole )\"";
    let dip = |head: &str| match approaches(&text("trombone", "Bb3", head, rows))[1] {
        Approach::Valves { dip_db, .. } => dip_db,
        other => panic!("{other:?}"),
    };
    assert!(dip("") < 5.0);
    assert!(dip("legato = \"natural\"") < 5.0);
    assert!(dip("legato = \"always\"") > 5.0);
    let own = format!("{rows}\nlegato = \"always\"");
    assert!(matches!(
        approaches(&text("trombone", "Bb3", "", &own))[1],
        Approach::Valves { dip_db, .. } if dip_db > 5.0
    ));
    // Whoever tongues them all is not told which ones would smear.
    let tongued = text("trombone", "Bb3", "legato = \"always\"", MIXED);
    assert!(of_rule(&report(&tongued, None), "soft-tongue").is_empty());
}

#[test]
fn valves_have_no_such_slurs() {
    let rows = "notes = \"slur( F3:quarter Bb3:quarter G3:quarter F3:quarter | E3:whole )\"";
    let report = report(&text("euphonium", "Bb3", "", rows), None);
    assert!(of_rule(&report, "soft-tongue").is_empty());
    assert!(of_rule(&report, "long-arm").is_empty());
}

#[test]
fn a_bend_is_a_movement_of_the_slide() {
    let written = text(
        "trombone",
        "Bb3",
        "",
        "notes = \"slur( F3:half E3:half(bend) | F3:whole )\"",
    );
    let routine = read(&written).unwrap();
    let score = unroll(&routine, &Take::default()).unwrap();
    let bent = &score.lines[0].passes[0].notes[1];
    assert_eq!(bent.joined, Joined::Bent);
    let Played::Pitch { tube, partial, .. } = bent.played else {
        panic!("a note");
    };
    assert_eq!(
        (tube.unwrap().to_string().as_str(), partial),
        ("2", Some(3))
    );
    for approach in &approaches(&written)[1..] {
        let Approach::Bend { cents_off, .. } = approach else {
            panic!("{approach:?}");
        };
        assert_eq!(*cents_off, 0.0, "the note stands in its own slot");
    }
}

#[test]
fn a_bend_of_the_slide_is_neither_prepared_nor_tongued() {
    let rows = "notes = \"slur( F3:half E3:half(bend) | F3:whole )\"";
    let report = report(&text("trombone", "Bb3", "", rows), None);
    for rule in ["bend-first", "soft-tongue"] {
        assert!(of_rule(&report, rule).is_empty(), "{:#?}", report.findings);
    }
}

#[test]
fn a_bend_past_the_end_of_the_slide_is_an_error() {
    let rows = "notes = \"E3:half[7] Eb3:half(bend) | E3:whole[7]\"";
    let report = report(&text("trombone", "Bb3", "", rows), None);
    let found = of_rule(&report, "bend-past-the-slide");
    assert_eq!(found.len(), 1, "{:#?}", report.findings);
    assert_eq!(found[0].severity, Severity::Error);
}

#[test]
fn young_arms_are_spared_long_positions() {
    let rows = "notes = \"C3:whole | F3:whole[6]\"";
    let written = text("trombone", "F3", "", rows);
    let young = of_rule(&report(&written, Some(AgeBand::EightToTen)), "long-arm");
    assert_eq!(young.len(), 1);
    assert!(
        young[0].message.contains("position 6"),
        "{}",
        young[0].message
    );
    assert!(of_rule(&report(&written, None), "long-arm").is_empty());
    let with_age = text("trombone", "F3", "age = \"8-10\"", rows);
    assert_eq!(of_rule(&report(&with_age, None), "long-arm").len(), 1);
}

#[test]
fn wrong_positions_are_told_in_a_trombonists_words() {
    let wrong = |rows: &str| {
        let report = report(&text("trombone", "F3", "", rows), None);
        let found = of_rule(&report, "silent-fingering");
        found
            .first()
            .map(|f| format!("{} {}", f.message, f.hint.as_deref().unwrap_or("")))
    };
    let said = wrong("notes = \"F3:whole[4]\"").unwrap();
    assert!(
        said.contains("does not sound in position 4: that position sounds"),
        "{said}"
    );
    assert!(
        said.contains("F3 sounds in position 1; other positions for it: 6"),
        "{said}"
    );
    assert_eq!(wrong("notes = \"F3:whole[6]\""), None);
    let flat = report(&text("trombone", "F4", "", "notes = \"G4:whole[2]\""), None);
    let flat = of_rule(&flat, "seventh-partial");
    assert!(
        flat[0]
            .message
            .contains("seventh partial of position 2, 31 cents flat"),
        "{}",
        flat[0].message
    );
    assert!(
        flat[0].hint.as_deref().unwrap().contains("in position 2+"),
        "{:?}",
        flat[0].hint
    );
    let raised = report(
        &text("trombone", "F4", "", "notes = \"G4:whole[2+]\""),
        None,
    );
    assert!(of_rule(&raised, "seventh-partial").is_empty());
}

#[test]
fn fingerings_are_the_instruments_own() {
    let fault = |instrument: &str, top: &str, rows: &str| {
        let faults = read(&text(instrument, top, "", rows)).expect_err("it is faulty");
        format!(
            "{} ({})",
            faults[0].message,
            faults[0].hint.as_deref().unwrap_or("")
        )
    };
    assert!(
        fault("trumpet", "C4", "notes = \"C4:whole[4]\"").contains("valves are numbered 1, 2, 3")
    );
    assert!(
        fault("trombone", "F3", "notes = \"F3:whole[1-3]\"")
            .contains("positions are numbered 1 to 7")
    );
    assert!(fault("trombone", "F3", "notes = \"F3:whole[T1]\"").contains("[T1] is no position"));
    assert!(fault("horn", "C4", "notes = \"C4:whole[T1]\"").contains("valves are numbered"));
    assert!(fault("tuba", "F2", "open = \"F2:whole\"\ntubes = [\"8\"]").contains("8 is no tube"));
    for (instrument, top, rows) in [
        (
            "trombone with F attachment",
            "F3",
            "notes = \"C3:whole[T1]\"",
        ),
        (
            "double horn",
            "C4",
            "notes = \"A3:half[T12] A3:half[T1-2]\"",
        ),
        (
            "four-valve tuba",
            "F2",
            "notes = \"F2:half[4] E2:half[2-4]\"",
        ),
        (
            "trombone",
            "F3",
            "open = \"F3:whole\"\ntubes = [\"1\", \"2\", \"7\"]",
        ),
    ] {
        let written = text(instrument, top, "", rows);
        assert!(read(&written).is_ok(), "{instrument}: {:?}", read(&written));
    }
}
