//! Rests as long as the playing.

use super::place::{At, Mend};
use crate::edit::{Edit, Value};
use crate::words::say;

fn same() -> Value {
    Value::Text("same".to_owned())
}

/// After a line, between its times, or both.
pub fn of_line(place: &At<'_>, line: usize) -> Vec<Mend> {
    let all = [
        place.entries(line, &[("rest", same())]),
        place.entries(line, &[("between", same())]),
        place.entries(line, &[("rest", same()), ("between", same())]),
    ];
    all.into_iter().flatten().collect()
}

/// After every line.
pub fn everywhere(place: &At<'_>) -> Option<Mend> {
    let lines = 0..place.routine.lines.len();
    let edits: Vec<Edit> = lines
        .map(|line| Edit::Set {
            line: Some(line),
            key: "rest".to_owned(),
            value: same(),
        })
        .collect();
    place.mend(say::mend_rests(place.routine.words_in).to_owned(), &edits)
}
