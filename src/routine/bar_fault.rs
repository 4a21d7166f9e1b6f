//! A bar that holds more or less than its meter says.

use super::fault::{Fault, Span};
use crate::music::{Meter, Whole};
use num_traits::{Signed, Zero};

/// What is to be said of the bar of this number, which holds so much. `span` is its end.
pub(super) fn of(number: u32, held: Whole, meter: Meter, span: Span) -> Fault {
    let bar = meter.bar();
    let off = beats((held - bar).abs(), meter);
    let which = if held < bar { "short" } else { "too long" };
    let message = if held.is_zero() {
        format!("bar {number} is empty")
    } else {
        format!("bar {number} is {off} {which}")
    };
    let holds = counted(meter.clicks_per_bar(), meter.click_name());
    let hint = if held.is_zero() {
        format!("one | parts two bars; a silent bar of {meter} is written with rests")
    } else {
        format!(
            "a bar of {meter} holds {holds}; this one holds {}",
            beats(held, meter)
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

/// `3 quarters`, `1 dotted quarter`.
fn counted(n: u32, name: &str) -> String {
    let plural = match name {
        "half" => "halves".to_owned(),
        name => format!("{name}s"),
    };
    if n == 1 {
        format!("1 {name}")
    } else {
        format!("{n} {plural}")
    }
}

/// A length in beats of a meter, in words: "one beat", "half a beat", "2 1/2 beats".
fn beats(length: Whole, meter: Meter) -> String {
    let beats = length / meter.click();
    let (whole, part) = (beats.trunc().to_integer(), beats.fract());
    match (whole, (*part.numer(), *part.denom())) {
        (0, (0, _)) => "nothing".to_owned(),
        (0, (1, 2)) => "half a beat".to_owned(),
        (0, (1, 3)) => "a third of a beat".to_owned(),
        (0, (1, 4)) => "a quarter of a beat".to_owned(),
        (0, (n, d)) => format!("{n}/{d} of a beat"),
        (1, (0, _)) => "one beat".to_owned(),
        (n, (0, _)) => format!("{n} beats"),
        (n, (a, b)) => format!("{n} {a}/{b} beats"),
    }
}
