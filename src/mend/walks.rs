//! Walks that end before the instrument does.

use super::place::{At, Mend};
use crate::edit::Value;
use crate::routine::Walk;

/// The walk without its last steps: as few as have to go.
pub fn of(place: &At<'_>, line: usize) -> Vec<Mend> {
    let Some(written) = place.routine.lines.get(line) else {
        return vec![];
    };
    let (key, all): (&str, Vec<Value>) = match &written.walk {
        Walk::HalfSteps(steps) => {
            let steps = steps.iter().map(|step| Value::Whole(i64::from(*step)));
            ("half_steps", steps.collect())
        }
        Walk::Tubes(tubes) => {
            let tubes = tubes.iter().map(|tube| Value::Text(tube.to_string()));
            ("tubes", tubes.collect())
        }
    };
    let shorter = (1..all.len()).rev();
    let shorter = shorter.filter_map(|length| {
        let kept = Value::List(all[..length].to_vec());
        place.entries(line, &[(key, kept)])
    });
    shorter.collect()
}
