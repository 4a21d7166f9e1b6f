//! A player's page as text: what to play, how fast, the marks, how long it takes, and the caution.

use crate::brass::caution;
use crate::edition::{Edition, Plan, PlannedTake};
use crate::pencil::hand::by_line;
use crate::pencil::words;
use crate::render::{FileKind, TrackPart};
use crate::routine::Guide;
use crate::score::spoken;
use crate::words::{count, duration, key};

/// Name of the page in the player's folder.
pub const NAME: &str = "practice.md";

/// The page in Markdown, with tracks of this kind. It contains nothing that depends on the day, so that a second run
/// writes the same bytes.
pub fn of(player: &str, edition: &Edition, plan: &Plan<'_>, kind: FileKind) -> String {
    let routine = edition.played();
    let mut page = format!("# {}: {}\n", plain(player), plain(&routine.title));
    if let Some(purpose) = &routine.purpose {
        page += &format!("\n{}\n", plain(purpose));
    }
    page += "\n## What to play\n\n";
    page += &format!(
        "{}, for the {}. Play it along with one of these tracks:\n\n",
        count(routine.lines.len(), "line", "lines"),
        routine.instrument.name
    );
    page += "| track | clicks a minute | key | guide | length | playing | rest |\n|---|---|---|---|---|---|---|\n";
    for take in &plan.takes {
        page += &row(take, kind);
    }
    page += "\n| | line | at | times through | how |\n|---|---|---|---|---|\n";
    if let Some(first) = plan.takes.first() {
        for line in &first.report.summary.lines {
            let written = &routine.lines[line.line];
            let mut how = written.say.clone().unwrap_or_default();
            if let Some(words) = &written.words {
                how = format!("{words} {how}").trim().to_owned();
            }
            page += &format!(
                "| {} | {} | {} | {} | {} |\n",
                line.line + 1,
                plain(&line.name),
                line.tempo,
                line.passes,
                plain(&how)
            );
        }
    }
    page += &marks(edition);
    page += "\n## How long\n\n";
    for take in &plan.takes {
        let summary = &take.report.summary;
        page += &format!(
            "- {}: {}, of it {} playing and {} rest\n",
            spoken::in_words(&take.take, routine),
            duration(summary.seconds),
            duration(summary.playing_seconds),
            duration(summary.rest_seconds)
        );
    }
    page += "\n## Before you play\n";
    for paragraph in caution::LONG {
        page += &format!("\n{paragraph}\n");
    }
    page
}

fn row(take: &PlannedTake<'_>, kind: FileKind) -> String {
    let key = match take.take.key {
        0 => "as written".to_owned(),
        key => key::moved(key),
    };
    let guide = match take.take.guide {
        Guide::Together => "plays along",
        Guide::Echo => "plays first",
        Guide::Off => "silent",
    };
    let summary = &take.report.summary;
    format!(
        "| {} | {} | {key} | {guide} | {} | {} | {} |\n",
        plain(&TrackPart::Mix.file_name(&take.name, kind)),
        take.tempo,
        duration(summary.seconds),
        duration(summary.playing_seconds),
        duration(summary.rest_seconds)
    )
}

/// The player's marks in words. Line numbers are those of the teacher's routine.
fn marks(edition: &Edition) -> String {
    let marks = edition.marks();
    if marks.is_empty() {
        return String::new();
    }
    let mut out = "\n## Your pencil\n\n".to_owned();
    for (heading, marks) in by_line(marks, edition.teacher()) {
        let said: Vec<String> = marks.iter().map(|mark| words::mark(mark)).collect();
        out += &format!("- {}: {}\n", plain(&heading), plain(&said.join("; ")));
    }
    out
}

/// Escapes text so that Markdown shows it unchanged.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if "\\`*_[]<>|#~".contains(c) {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn what_a_teacher_writes_makes_no_markup() {
        assert_eq!(plain("a|b <c> *d*"), "a\\|b \\<c\\> \\*d\\*");
    }
}
