//! Rest as long as playing, and soon enough.

use crate::{AIR, END, middle, of_rule, only, report_of, routine, silent};
use leadpipe::check::Options;
use leadpipe::check::Severity;
use leadpipe::routine::Guide;
use leadpipe::score::Take;

pub const EIGHT_SECONDS: &str = "notes = \"G4:whole breath | E4:whole\"";

#[test]
fn playing_for_more_than_half_a_minute_is_advised_against() {
    let line = format!("{EIGHT_SECONDS}\ntimes = 4\nbetween = \"4 beats\"\nrest = \"40 s\"");
    let (severity, message, ..) = only(&middle(&line), "long-playing");
    assert_eq!(severity, Severity::Advice);
    assert_eq!(
        message,
        "“L2”: the lips play for 32 s before there is a rest as long as the last pass"
    );
    silent(
        &middle(&format!("{EIGHT_SECONDS}\ntimes = 4")),
        "long-playing",
    );
    silent(
        &middle(&format!(
            "{EIGHT_SECONDS}\ntimes = 3\nbetween = \"4 beats\""
        )),
        "long-playing",
    );
}

#[test]
fn one_endless_pass_is_advised_against() {
    let bars = ["G4:whole breath"; 9].join(" | ");
    let (_, message, ..) = only(&middle(&format!("notes = \"{bars}\"")), "long-playing");
    assert_eq!(message, "“L2”: one pass plays for 36 s without a rest");
    let with_rest = ["G4:whole breath"; 4].join(" | ");
    let rest = ["rest:whole"; 4].join(" | ");
    silent(
        &middle(&format!(
            "notes = \"{with_rest} | {rest} | {with_rest} | G4:whole\""
        )),
        "long-playing",
    );
}

#[test]
fn listening_in_echo_is_rest() {
    let line = format!("{EIGHT_SECONDS}\ntimes = 5\nbetween = \"none\"\nrest = \"8 s\"");
    let text = middle(&line);
    only(&text, "long-playing");
    only(&text, "short-rest");
    let echo = Take {
        guide: Guide::Echo,
        ..Take::default()
    };
    let report = report_of(&text, &echo, &Options::default());
    assert!(of_rule(&report, "long-playing").is_empty());
    assert!(of_rule(&report, "short-rest").is_empty());
}

#[test]
fn a_line_that_rests_less_than_it_plays_is_warned_of_at_its_rest() {
    let text = routine(
        "G4",
        None,
        &[
            EIGHT_SECONDS,
            &format!("{EIGHT_SECONDS}\nrest = \"6 s\""),
            END,
        ],
    );
    let (severity, message, _, place) = only(&text, "short-rest");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(message, "“L2”: it plays for 8 s and rests for 6 s");
    assert_eq!(place, "\"6 s\"");
    let (_, message, _, place) = only(&text, "short-rest-whole");
    assert_eq!(
        message,
        "the routine plays for 16 s and rests for 14 s in between"
    );
    assert_eq!(place, "\"Test\"");
}

#[test]
fn another_lines_long_rest_makes_the_whole_good() {
    let text = routine(
        "G4",
        None,
        &[
            &format!("{EIGHT_SECONDS}\nrest = \"20 s\""),
            &format!("{EIGHT_SECONDS}\nrest = \"6 s\""),
            END,
        ],
    );
    only(&text, "short-rest");
    silent(&text, "short-rest-whole");
}

#[test]
fn the_last_line_needs_no_rest_and_breathing_is_rest_for_the_lips() {
    let text = routine("G4", None, &[EIGHT_SECONDS, END]);
    silent(&text, "short-rest");
    silent(&text, "short-rest-whole");
    let no_rest = format!("{EIGHT_SECONDS}\nrest = \"none\"");
    silent(&routine("G4", None, &[&no_rest, AIR, END]), "short-rest");
    only(
        &routine("G4", None, &[&no_rest, EIGHT_SECONDS, END]),
        "short-rest",
    );
}
