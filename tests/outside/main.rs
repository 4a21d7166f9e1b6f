//! Published truth: each value with its source beside it, none of them computed by leadpipe.
//!
//! Marks, as in the list the values were taken from: *seen* was read in a published page, *memory*
//! was recalled, *computed* follows from a formula given beside it, *practice* is common practice
//! without a source.

mod combinations;
mod comfort;
mod family;
mod fingering_chart;
mod just_intervals;
mod keys;
mod lungs;
mod meter;
mod partials;
mod pitch;
mod tone;

use leadpipe::brass::Instrument;
use leadpipe::music::WrittenPitch;

fn trumpet() -> &'static Instrument {
    Instrument::named("trumpet in B-flat").expect("the trumpet is a row of the table")
}

fn written(name: &str) -> WrittenPitch {
    WrittenPitch::parse(name).unwrap_or_else(|| panic!("{name} is a pitch"))
}

#[track_caller]
fn near(found: f64, right: f64, tolerance: f64) {
    assert!(
        (found - right).abs() <= tolerance,
        "found {found}, published {right} ± {tolerance}"
    );
}
