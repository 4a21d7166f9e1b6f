//! The figures of a routine's takes.

use crate::check::Summary;
use crate::command::table::Table;
use crate::command::text::printable;
use crate::edition::{Plan, PlannedTake};
use crate::music::WrittenPitch;
use crate::routine::Routine;
use crate::score::{Take, TakeTempo};
use crate::words::{Language, Words, count, duration, figures, tell};

/// The takes of a plan as a table.
pub fn table(language: Language, routine: &Routine, plan: &Plan<'_>) -> String {
    let mut table = Table::new(&[
        (tell::heading_clicks_a_minute(), true),
        (tell::heading_length(), true),
        (tell::heading_playing(), true),
        (tell::heading_rest(), true),
        (tell::heading_rest_to_playing(), true),
        (tell::heading_lowest(), false),
        (tell::heading_highest(), false),
        (tell::heading_breaths(), true),
    ]);
    for PlannedTake { take, report, .. } in &plan.takes {
        let summary = &report.summary;
        let note = |pitch: Option<WrittenPitch>| pitch.map_or_else(tell::none, Into::into);
        table.row(vec![
            clicks(take, summary).into(),
            duration(summary.seconds).into(),
            duration(summary.playing_seconds).into(),
            duration(summary.rest_seconds).into(),
            ratio(summary),
            note(summary.lowest),
            note(summary.highest),
            summary.breaths.to_string().into(),
        ]);
    }
    let title = printable(&routine.title);
    let lines = count::lines(routine.lines.len());
    let title = tell::figures_title(&title, routine.instrument.named_in_words(), lines);
    format!(
        "{}\n{}",
        title.in_language(language),
        table.lines_in(language, routine.names)
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
fn ratio(summary: &Summary) -> Words {
    summary.ratio().map_or_else(tell::none, |ratio| {
        tell::ratio_to_one(figures(format!("{:.2}", ratio)))
    })
}
