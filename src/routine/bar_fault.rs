//! A bar with more or less than its meter allows.

use super::fault::{Fault, Span};
use crate::music::{Meter, Whole};
use crate::words::{Words, beats, count, tell};
use num_traits::{Signed, Zero};

/// The fault of the bar of this number, which has this length. `span` is its end.
pub(super) fn of(number: u32, held: Whole, meter: Meter, span: Span) -> Fault {
    let bar = meter.bar();
    if held.is_zero() {
        return Fault::new(span, tell::bar_is_empty(number)).hint(tell::bar_line_parts(meter));
    }
    let off = off_by((held - bar).abs(), meter);
    let which = if held < bar { "short" } else { "long" };
    let whole = if meter.is_compound() {
        length(bar, meter)
    } else {
        count::note_values(meter.clicks_per_bar(), meter.click_name())
    };
    let holds = tell::bar_holds(meter, whole, length(held, meter));
    let pickup = number == 1 && held < bar;
    Fault::new(span, tell::bar_off(number, off, which)).hint(if pickup {
        tell::pickup(holds)
    } else {
        holds
    })
}

/// A length in eighths, if it is whole and the meter is counted so: in 6/8 a beat is a dotted quarter, and nobody counts
/// thirds of it.
fn eighths(length: Whole, meter: Meter) -> Option<i64> {
    let eighths = length * Whole::from_integer(8);
    (meter.is_compound() && eighths.is_integer()).then(|| eighths.to_integer())
}

/// A length in beats, or in eighths.
fn length(length: Whole, meter: Meter) -> Words {
    match eighths(length, meter) {
        Some(eighths) => count::note_values(eighths, "eighth"),
        None => beats::in_words(length / meter.click()),
    }
}

/// The same with a small number as a word: "two eighths", "one eighth".
fn off_by(by: Whole, meter: Meter) -> Words {
    match eighths(by, meter) {
        Some(eighths) => tell::note_values(eighths, tell::small_number(eighths), "eighth"),
        None => length(by, meter),
    }
}
