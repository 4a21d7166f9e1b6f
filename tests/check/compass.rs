//! Passes that leave the instrument.

use crate::{middle, of_rule, only, silent};
use leadpipe::check::Options;
use leadpipe::check::Severity;
use leadpipe::check::check;
use leadpipe::routine::read;
use leadpipe::score::Take;
use leadpipe::score::unroll;

#[test]
fn a_pass_that_leaves_the_instrument_is_an_error_at_its_half_step() {
    let text = middle("notes = \"C4:whole\"\nhalf_steps = [0, -6, -7]");
    let (severity, message, hint, place) = only(&text, "off-compass");
    assert_eq!(severity, Severity::Error);
    assert_eq!(
        message,
        "“L2”: the pass 7 half steps down goes to F3, below F#3, the lowest note of the trumpet in \
         B-flat"
    );
    assert_eq!(hint, "this line can go no further than 6 half steps down");
    assert_eq!(place, "-7");
    silent(
        &middle("notes = \"C4:whole\"\nhalf_steps = [0, -6]"),
        "off-compass",
    );
}

#[test]
fn every_pass_the_written_routine_loses_is_an_error() {
    let text = middle("notes = \"C4:whole G5:whole\"\nhalf_steps = [-8, -7, 0, 5, 6]");
    let routine = read(&text).unwrap();
    let score = unroll(&routine, &Take::default()).unwrap();
    let found = of_rule(&check(&score, &Options::default()), "off-compass");
    assert_eq!(found.len(), score.notices.len());
    assert_eq!(found.len(), 3);
}

#[test]
fn a_pass_that_only_a_key_takes_away_is_no_error_of_the_routine() {
    let text = middle("notes = \"C4:whole\"\nhalf_steps = [0, -6]");
    let take = Take {
        key: -3,
        ..Take::default()
    };
    let routine = read(&text).unwrap();
    let score = unroll(&routine, &take).unwrap();
    assert!(!score.notices.is_empty());
    assert!(!check(&score, &Options::default()).has_errors());
}

/// A pedal tone is a note of the horn, also in a pass; between it and the lowest other note lie none.
#[test]
fn a_pass_may_go_to_the_pedal_tones_and_not_between_them_and_the_lowest_note() {
    let on_trombone = |rows: &str| {
        middle(rows)
            .replace("trumpet in B-flat", "trombone")
            .replace("\"G4\"", "\"F3\"")
    };
    for rows in [
        "notes = \"Bb1:half G1:half\"",
        "notes = \"Bb1:whole\"\nhalf_steps = [0, -1, -2, -3]",
        "open = \"Bb2:half Bb1:half\"\ntubes = [\"1\", \"2\", \"3\", \"4\"]",
    ] {
        silent(&on_trombone(rows), "off-compass");
    }
    let (_, message, hint, place) = only(
        &on_trombone("notes = \"Bb1:whole\"\nhalf_steps = [0, -3, -4]"),
        "off-compass",
    );
    assert_eq!(
        message,
        "“L2”: the pass 4 half steps down goes to Gb1, below G1, the lowest pedal tone of the trombone"
    );
    assert_eq!(hint, "this line can go no further than 3 half steps down");
    assert_eq!(place, "-4");
    let (_, message, hint, _) = only(
        &on_trombone("notes = \"G2:whole\"\nhalf_steps = [0, -3, -6]"),
        "off-compass",
    );
    assert_eq!(
        message,
        "“L2”: the pass 6 half steps down goes to Db2, between Bb1, a pedal tone, and E2, the lowest other note of the \
         trombone"
    );
    assert_eq!(hint, "this line can go no further than 3 half steps down");
    let text = on_trombone("open = \"Bb1:whole\"\ntubes = [\"4\", \"5\"]");
    let (_, message, _, _) = only(&text, "off-compass");
    assert!(message.contains("in position 5 goes to"), "{message}");
}
