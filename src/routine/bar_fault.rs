//! A bar with more or less than its meter allows.

use super::fault::{Fault, Span};
use crate::music::{Meter, Whole};
use crate::words::{beats, count};
use num_traits::{Signed, Zero};

/// The fault of the bar of this number, which has this length. `span` is its end.
pub(super) fn of(number: u32, held: Whole, meter: Meter, span: Span) -> Fault {
    let bar = meter.bar();
    let off = beats::in_words((held - bar).abs() / meter.click());
    let which = if held < bar { "short" } else { "too long" };
    let message = if held.is_zero() {
        format!("bar {number} is empty")
    } else {
        format!("bar {number} is {off} {which}")
    };
    let holds = count::note_values(meter.clicks_per_bar(), meter.click_name());
    let hint = if held.is_zero() {
        format!("one | parts two bars; a silent bar of {meter} is written with rests")
    } else {
        format!(
            "a bar of {meter} holds {holds}; this one holds {}",
            beats::in_words(held / meter.click())
        )
    };
    let fault = Fault::new(span, message).hint(hint);
    if number == 1 && held < bar {
        let hint = format!(
            "{}; a pickup is written as a whole bar that begins with rests",
            fault.hint.as_deref().unwrap_or_default()
        );
        fault.hint(hint)
    } else {
        fault
    }
}
