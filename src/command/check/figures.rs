//! The figures of a routine's takes.

use crate::check::Summary;
use crate::command::table::Table;
use crate::command::text::printable;
use crate::edition::{Plan, PlannedTake};
use crate::music::WrittenPitch;
use crate::routine::Routine;
use crate::score::{Take, TakeTempo};
use crate::words::{count, duration};

/// The takes of a plan as a table.
pub fn table(routine: &Routine, plan: &Plan<'_>) -> String {
    let mut table = Table::new(&[
        ("Clicks a minute", true),
        ("Length", true),
        ("Playing", true),
        ("Rest", true),
        ("Rest to playing", true),
        ("Lowest", false),
        ("Highest", false),
        ("Breaths", true),
    ]);
    for PlannedTake { take, report, .. } in &plan.takes {
        let summary = &report.summary;
        let note = |pitch: Option<WrittenPitch>| {
            pitch.map_or_else(|| "none".to_owned(), |p| p.to_string())
        };
        table.row(vec![
            clicks(take, summary),
            duration(summary.seconds),
            duration(summary.playing_seconds),
            duration(summary.rest_seconds),
            ratio(summary),
            note(summary.lowest),
            note(summary.highest),
            summary.breaths.to_string(),
        ]);
    }
    let title = printable(&routine.title);
    let lines = count(routine.lines.len(), "line", "lines");
    format!(
        "{title}, {}, {lines}\n{}",
        routine.instrument.name,
        table.lines()
    )
}

fn clicks(take: &Take, summary: &Summary) -> String {
    match take.tempo {
        TakeTempo::Percent(_) => format!("{} ({})", summary.tempo, take.tempo),
        TakeTempo::Clicks(_) => summary.tempo.to_string(),
    }
}

/// True if the ratio does not follow from the two figures before it.
pub fn sets_apart(summary: &Summary) -> bool {
    summary.final_seconds > 0.0 && summary.ratio().is_some()
}

/// The ratio of rest to playing.
fn ratio(summary: &Summary) -> String {
    summary
        .ratio()
        .map_or_else(|| "none".to_owned(), |ratio| format!("{ratio:.2} to 1"))
}
