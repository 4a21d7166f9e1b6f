//! Fingerings, the seventh partial and bends.

use crate::{AIR, END, middle, only, report, routine, silent};
use leadpipe::check::Severity;

#[test]
fn a_fingering_that_does_not_sound_its_note_is_an_error() {
    let text = middle("notes = \"G4:half F#4:half [1] | G4:whole\"");
    let (severity, message, hint, place) = only(&text, "silent-fingering");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: F#4, the 2nd note, does not sound on 1: that tube sounds Bb3 F4 Bb4 D5 F5 Bb5"
    );
    assert_eq!(hint, "F#4 sounds on 2; other fingerings for it: 1-2-3");
    assert_eq!(place, "F#4:half [1]");
    assert!(report(&text).has_errors());
}

#[test]
fn a_wrong_fingering_in_many_passes_is_told_once_with_how_many() {
    let text = middle(
        "notes = \"G4:half F#4:half [1]\"\ntimes = 3\narticulation = [\"slurred\", \"tongued\"]",
    );
    let (_, message, ..) = only(&text, "silent-fingering");
    assert!(
        message.starts_with("“L2”: F#4, the 2nd note, slurred (in 6 passes), does not sound on 1"),
        "{message}"
    );
}

#[test]
fn alternate_fingerings_are_fine() {
    silent(
        &middle("notes = \"G4:half [1-3] E4:half [3] | F#4:whole [1-2-3]\""),
        "silent-fingering",
    );
    silent(
        &middle("on = \"mouthpiece\"\nnotes = \"G4:half F#4:half\""),
        "silent-fingering",
    );
}

#[test]
fn the_seventh_partial_is_warned_of() {
    let line = "notes = \"p Bb5:half [0] G5:half\"";
    let text = routine("G5", Some("C6"), &[AIR, line, END]);
    let (severity, message, hint, _) = only(&text, "seventh-partial");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L2”: Bb5, the 1st note, is the seventh partial of 0, 31 cents flat: nobody plays it in tune"
    );
    assert_eq!(hint, "Bb5 sounds on 1");
    silent(
        &routine(
            "G5",
            Some("C6"),
            &[AIR, "notes = \"p Bb5:half G5:half\"", END],
        ),
        "seventh-partial",
    );
}

const FINGERED: &str = "notes = \"slur( G4:half F#4:half | G4:whole )\"";

#[test]
fn a_bend_after_the_same_notes_were_fingered_is_fine() {
    let bend = "notes = \"slur( G4:half F#4:half (bend) | G4:whole )\"";
    let text = routine("G4", None, &[AIR, FINGERED, bend, END]);
    for rule in [
        "bend-first",
        "bend-size",
        "bend-from-nothing",
        "silent-fingering",
    ] {
        silent(&text, rule);
    }
}

#[test]
fn a_bend_inside_its_own_line_after_the_fingered_notes_is_fine() {
    silent(
        &middle("notes = \"slur( G4:half F#4:half | G4:half F#4:half (bend) | G4:whole )\""),
        "bend-first",
    );
}

#[test]
fn a_bend_that_was_never_fingered_is_warned_of_once() {
    let bend = "notes = \"slur( G4:half F#4:half (bend) | G4:whole )\"\nhalf_steps = [0, -1, -2]";
    let text = routine("G4", None, &[AIR, FINGERED, bend, END]);
    let (severity, message, hint, _) = only(&text, "bend-first");
    assert_eq!(severity, Severity::Warning);
    assert_eq!(
        message,
        "“L3”: F4, the 2nd note, 1 half step down (in 2 passes), is bent from Gb4 before Gb4 and F4 \
         were fingered"
    );
    assert!(
        hint.starts_with("first finger it, then bend it: play Gb4 F4 Gb4"),
        "{hint}"
    );
}

#[test]
fn a_bend_is_half_a_step_down() {
    let up = middle("notes = \"slur( F#4:half G4:half (bend) )\"");
    let (severity, message, ..) = only(&up, "bend-size");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: G4, the 2nd note, is a bend upwards from F#4: lips bend a note down, not up"
    );
    let deep = middle("notes = \"slur( G4:half F4:half (bend) )\"");
    let (severity, message, hint, _) = only(&deep, "bend-size");
    assert_eq!(severity, Severity::Error);
    assert!(
        message.contains("is bent down from G4 by a whole step"),
        "{message}"
    );
    assert!(hint.starts_with("bend G4 to F#4"), "{hint}");
    let twice = middle("notes = \"slur( G4:half F#4:quarter (bend) F4:quarter (bend) )\"");
    assert!(
        only(&twice, "bend-size")
            .1
            .starts_with("“L2”: F4, the 3rd note,")
    );
}
