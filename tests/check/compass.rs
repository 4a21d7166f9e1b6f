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
