//! An easy beginning, not only upwards, a soft end.

use crate::{AIR, END, of_rule, only, report, routine, silent};
use leadpipe::check::Severity;

#[test]
fn a_routine_that_only_climbs_is_warned_of() {
    let up = ["C4", "D4", "F4"].map(|n| format!("notes = \"p {n}:whole\""));
    let (severity, message, _, place) = only(
        &routine("G4", None, &[&up[0], &up[1], &up[2]]),
        "only-climbs",
    );
    assert_eq!(severity, Severity::Warning);
    assert!(message.starts_with("the routine only climbs"), "{message}");
    assert_eq!(place, "\"Test\"");
    silent(
        &routine("G4", None, &[&up[0], &up[2], &up[1]]),
        "only-climbs",
    );
    silent(
        &routine("G4", None, &[&up[0], &up[0], &up[1]]),
        "only-climbs",
    );
}

#[test]
fn a_first_line_that_is_not_easy_is_warned_of_with_every_reason() {
    let hard = "notes = \"f C4:sixteenth E4:sixteenth G4:sixteenth C5:sixteenth C4:half.\"";
    let (severity, message, ..) = only(&routine("G4", None, &[hard, END]), "hard-beginning");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L1”: the first line is not easy: C5 (the 4th note) lies above what is comfortable; it goes \
         from C4 to C5, an octave; C4 (the 1st note) is louder than mf; C4 (the 1st note) is fast"
    );
}

#[test]
fn easy_first_lines_are_fine() {
    for line in [
        AIR,
        "on = \"mouthpiece\"\nnotes = \"f C4:half C5:half\"",
        "notes = \"C4:half G4:half | C4:eighth D4:eighth E4:half.\"",
        "notes = \"G4:whole\"\nhalf_steps = [0, -2, -4, -7, -10]",
    ] {
        silent(&routine("G4", None, &[line, END]), "hard-beginning");
    }
}

#[test]
fn a_last_line_that_is_loud_or_high_is_warned_of() {
    let (severity, message, hint, _) = only(
        &routine("G4", None, &[AIR, "notes = \"G4:whole\""]),
        "hard-ending",
    );
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: the last line is not a gentle end: G4 (the 1st note) is louder than mp"
    );
    assert!(hint.contains("a pass starts at mf"), "{hint}");
    let high = routine("G4", Some("B4"), &[AIR, "notes = \"p G4:half Bb4:half\""]);
    assert!(
        only(&high, "hard-ending")
            .1
            .contains("Bb4 (the 2nd note) lies above")
    );
    silent(&routine("G4", None, &[AIR, END]), "hard-ending");
    silent(&routine("G4", None, &[END, AIR]), "hard-ending");
}

#[test]
fn a_single_line_has_no_shape() {
    let report = report(&routine("G4", None, &["notes = \"ff C4:half G5:half\""]));
    for rule in ["hard-beginning", "hard-ending", "only-climbs"] {
        assert!(of_rule(&report, rule).is_empty());
    }
}
