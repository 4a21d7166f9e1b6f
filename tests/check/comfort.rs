//! Comfort, stretches, and how far a slur leaps.

use crate::{AIR, END, middle, only, report, routine, silent};
use leadpipe::check::Severity;

#[test]
fn a_note_beyond_what_is_comfortable_is_warned_of_once_a_line() {
    let text = middle("notes = \"C5:half A4:half | C5:whole\"");
    let (severity, message, hint, place) = only(&text, "beyond-reach");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: C5, the 1st note (and 1 more note), lies above what is comfortable with G4 as the top"
    );
    assert!(hint.contains("`reach`"), "{hint}");
    assert!(place.starts_with("C5"), "{place}");
    assert!(!report(&text).has_errors());
}

#[test]
fn the_next_partial_on_a_long_tube_is_comfortable() {
    let line = |tubes: &str| {
        middle(&format!(
            "open = \"slur( G4:half C5:half )\"\ntubes = [{tubes}]"
        ))
    };
    silent(
        &line("\"1-2\", \"2-3\", \"1-3\", \"1-2-3\""),
        "beyond-reach",
    );
    let (_, message, ..) = only(&line("\"1-2\", \"1\", \"2\", \"0\""), "beyond-reach");
    assert!(
        message.starts_with("“L2”: Bb4, the 2nd note, on 1 (in 3 passes), lies above"),
        "{message}"
    );
}

/// Six lines of eight seconds of easy playing, and a stretch as line `at`.
fn stretching(at: usize, stretch: &str) -> String {
    let easy = "notes = \"G4:whole | E4:whole\"";
    let mut lines = vec![easy; 6];
    lines.insert(at, stretch);
    lines.push(END);
    routine("G4", Some("B4"), &lines)
}

#[test]
fn a_stretch_late_rare_and_not_loud_is_fine() {
    let text = stretching(5, "notes = \"G4:half Bb4:half\"");
    for rule in [
        "beyond-reach",
        "early-stretch",
        "much-stretch",
        "loud-stretch",
    ] {
        silent(&text, rule);
    }
}

#[test]
fn a_stretch_beyond_the_reach_is_warned_of() {
    let (_, message, ..) = only(
        &stretching(5, "notes = \"G4:half C5:half\""),
        "beyond-reach",
    );
    assert!(message.ends_with("lies above B4, the highest note the routine reaches for"));
}

#[test]
fn a_stretch_in_the_first_third_is_warned_of() {
    let (_, message, ..) = only(
        &stretching(1, "notes = \"G4:half Bb4:half\""),
        "early-stretch",
    );
    assert_eq!(
        message,
        "“L2”: Bb4, the 2nd note, stretches above G4 in the first third of the playing, before the \
         lips are warm"
    );
}

#[test]
fn a_loud_stretch_is_warned_of_even_at_the_end_of_a_crescendo() {
    let loud = stretching(5, "notes = \"f G4:half Bb4:half\"");
    assert!(only(&loud, "loud-stretch").1.ends_with("louder than mf"));
    only(
        &stretching(5, "notes = \"cresc G4:half Bb4:half | f G4:whole\""),
        "loud-stretch",
    );
    silent(
        &stretching(5, "notes = \"f G4:half mf Bb4:half | f G4:whole\""),
        "loud-stretch",
    );
}

#[test]
fn much_stretching_is_warned_of_at_the_reach() {
    let (_, message, _, place) = only(
        &stretching(5, "notes = \"Bb4:whole | Bb4:whole | Bb4:whole\""),
        "much-stretch",
    );
    assert!(
        message.starts_with("18 % of the playing stretches above G4"),
        "{message}"
    );
    assert_eq!(place, "\"B4\"");
}

#[test]
fn a_slur_over_partials_waits_for_its_level() {
    let line = "open = \"slur( C4:half C5:half )\"\ntubes = [\"1-2-3\"]";
    let (severity, message, ..) = only(&routine("G4", None, &[AIR, line, END]), "wide-slur");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: F#4, the 2nd note, on 1-2-3, is slurred from F#3 on one tube and skips 1 partial: a \
         player whose top is G4 should skip none"
    );
    silent(&routine("C5", None, &[AIR, line, END]), "wide-slur");
    let two = "open = \"slur( C4:half E5:half )\"\ntubes = [\"1-2-3\"]";
    let (_, message, ..) = only(&routine("C5", None, &[AIR, two, END]), "wide-slur");
    assert!(
        message.ends_with("skips 2 partials: a player whose top is C5 should skip no more than 1")
    );
}

#[test]
fn a_tongued_leap_and_a_slur_over_valves_are_left_alone() {
    let tongued = "open = \"C4:half C5:half\"\ntubes = [\"1-2-3\"]";
    silent(&routine("G4", None, &[AIR, tongued, END]), "wide-slur");
    silent(&middle("notes = \"slur( C4:half F4:half )\""), "wide-slur");
}
