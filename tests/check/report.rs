//! The report as a whole, and the routine in figures.

use crate::rests::EIGHT_SECONDS;
use crate::{AIR, END, report, report_of, routine};
use leadpipe::check::Finding;
use leadpipe::check::Options;
use leadpipe::check::Severity;
use leadpipe::routine::Guide;
use leadpipe::score::Take;
use proptest::prelude::*;

#[test]
fn a_good_routine_has_nothing_to_be_said_of_it() {
    let text = routine(
        "G4",
        None,
        &[
            AIR,
            "notes = \"G4:half F#4:half | G4:whole breath\"\nhalf_steps = [0, -1, -2]",
            "open = \"slur( C4:half G4:half | C4:whole ) breath\"\ntubes = [\"0\", \"1-2\", \"1-2-3\"]\n\
             articulation = [\"slurred\", \"tongued\"]",
            END,
        ],
    );
    let report = report(&text);
    let warnings: Vec<&Finding> = report
        .findings
        .iter()
        .filter(|f| f.severity > Severity::Advice)
        .collect();
    assert!(warnings.is_empty(), "{warnings:#?}");
}

#[test]
fn findings_come_in_order_of_place_and_never_by_the_hundred() {
    let bad = "notes = \"f slur( C4:quarter C5:quarter [0] ) B5:quarter (bend) F#4:quarter [1]\"\n\
               times = 100\nbetween = \"none\"\nrest = \"none\"";
    let report = report(&routine("C4", Some("E4"), &[bad, bad, bad]));
    let places: Vec<usize> = report.findings.iter().map(|f| f.span.start).collect();
    assert!(places.is_sorted());
    assert!(report.findings.len() < 40, "{}", report.findings.len());
    assert_eq!(
        report.findings.len(),
        report.count(Severity::Error)
            + report.count(Severity::Warning)
            + report.count(Severity::Advice)
    );
}

#[test]
fn the_summary_adds_up() {
    let text = routine(
        "G4",
        None,
        &[
            AIR,
            "notes = \"G4:whole breath | E4:whole\"\nhalf_steps = [0, -2]",
            END,
        ],
    );
    let summary = report(&text).summary;
    // Breathing 8 s, two passes of 8 s, the end 8 s.
    assert_eq!(summary.playing_seconds, 32.0);
    assert_eq!(summary.breathing_seconds, 8.0);
    // 8 s after breathing, 8 s between the passes, 8 s after the second.
    assert_eq!(summary.rest_seconds, 24.0);
    // The last line's 8 s need no rest after them.
    assert_eq!(summary.final_seconds, 8.0);
    assert_eq!(summary.ratio(), Some(1.0));
    // Half a second of silence, one bar of count-in, and the fade.
    assert!((summary.seconds - (0.5 + 4.0 + 32.0 + 24.0 + 0.3)).abs() < 1e-9);
    assert_eq!(summary.lowest.unwrap().to_string(), "C4");
    assert_eq!(summary.highest.unwrap().to_string(), "G4");
    assert_eq!(summary.breaths, 2);
    let line = &summary.lines[1];
    assert_eq!((line.passes, line.breaths), (2, 2));
    assert_eq!((line.playing_seconds, line.rest_seconds), (16.0, 16.0));
    assert_eq!(line.lowest.unwrap().to_string(), "D4");
    // A count-in of its own follows the rest, as its end: the line's seconds hold it too.
    assert_eq!(line.seconds, 4.0 + 16.0 + 8.0);
}

#[test]
fn in_echo_the_summary_counts_listening_as_rest() {
    let text = routine("G4", None, &[EIGHT_SECONDS, END]);
    let echo = Take {
        guide: Guide::Echo,
        ..Take::default()
    };
    let summary = report_of(&text, &echo, &Options::default()).summary;
    assert_eq!(summary.playing_seconds, 16.0);
    assert_eq!(summary.lines[0].rest_seconds, 8.0 + 8.0);
}

/// A note, rest or mark of a line in the middle of the horn, now and then with a bad fingering.
fn token() -> impl Strategy<Value = String> {
    let pitch = prop::sample::select(vec![
        "F#3", "C4", "E4", "F#4", "G4", "B4", "C5", "E5", "Bb5",
    ]);
    let value = prop::sample::select(vec!["whole", "half", "quarter.", "eighth", "sixteenth"]);
    let mark = prop::sample::select(vec!["", " [1]", " [1-2-3]", " [0]", " breath", " (ku)"]);
    let note = (pitch.clone(), value.clone(), mark).prop_map(|(p, v, m)| format!("{p}:{v}{m}"));
    let bend = (pitch, value.clone()).prop_map(|(p, v)| format!("{p}:{v} F4:{v} (bend)"));
    let rest = value.prop_map(|v| format!("rest:{v}"));
    let dynamic = prop::sample::select(vec!["pp", "mp", "f", "ff"]).prop_map(str::to_owned);
    prop_oneof![6 => note, 1 => bend, 2 => rest, 1 => dynamic]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is written: no panic, every finding in its place, in order, with something to do, and
    /// none told twice.
    #[test]
    fn any_routine_is_checked(
        lines in prop::collection::vec((prop::collection::vec(token(), 1..12), 1..4u8, any::<bool>()), 1..5),
        echo in any::<bool>(),
    ) {
        let lines: Vec<String> = lines
            .iter()
            .map(|(tokens, times, no_rest)| {
                let rest = if *no_rest { "\nbetween = \"none\"\nrest = \"none\"" } else { "" };
                format!("notes = \"C4:quarter {}\"\ntimes = {times}{rest}", tokens.join(" "))
            })
            .collect();
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let text = routine("C4", Some("E4"), &lines);
        let guide = if echo { Guide::Echo } else { Guide::Together };
        let report = report_of(&text, &Take { guide, ..Take::default() }, &Options::default());
        let mut told = std::collections::BTreeSet::new();
        let mut before = 0;
        for finding in &report.findings {
            prop_assert!(text.get(finding.span.start..finding.span.end).is_some());
            prop_assert!(finding.span.start >= before);
            before = finding.span.start;
            prop_assert!(finding.hint.is_some());
            prop_assert!(told.insert((finding.rule, finding.line, finding.message.to_string())));
        }
        let summary = &report.summary;
        let lines = summary.lines.iter();
        prop_assert!((lines.map(|l| l.playing_seconds).sum::<f64>() - summary.playing_seconds).abs() < 1e-6);
        prop_assert!(summary.playing_seconds + summary.rest_seconds <= summary.seconds);
    }
}
