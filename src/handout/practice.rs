//! A player's page as text: what to play, how fast, the marks, how long it takes, and the caution.

use crate::brass::caution;
use crate::edition::{Edition, Plan, PlannedTake};
use crate::pencil::hand::by_line;
use crate::pencil::words;
use crate::render::{FileKind, TrackPart};
use crate::routine::Guide;
use crate::score::spoken;
use crate::words::{Language, duration, key, say};

/// Name of the page in the player's folder.
pub const NAME: &str = "practice.md";

/// The page in Markdown, with tracks of this kind. It contains nothing that depends on the day, so that a second run
/// writes the same bytes.
pub fn of(player: &str, edition: &Edition, plan: &Plan<'_>, kind: FileKind) -> String {
    let routine = edition.played();
    let language = routine.words_in;
    let mut page = format!("# {}: {}\n", plain(player), plain(&routine.title));
    if let Some(purpose) = &routine.purpose {
        page += &format!("\n{}\n", plain(purpose));
    }
    page += &format!("\n## {}\n\n", say::practice_what(language));
    let instrument = routine.instrument.name_in(language);
    page += &format!(
        "{}\n\n| {} |\n|---|---|---|---|---|---|---|\n",
        say::practice_lines(language, routine.lines.len(), instrument),
        say::practice_columns(language)
    );
    for take in &plan.takes {
        page += &row(language, take, kind);
    }
    page += &format!(
        "\n| | {} |\n|---|---|---|---|---|\n",
        say::practice_line_columns(language)
    );
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
                language.number(line.tempo),
                line.passes,
                plain(&how)
            );
        }
    }
    page += &marks(edition);
    page += &format!("\n## {}\n\n", say::practice_how_long(language));
    for take in &plan.takes {
        let summary = &take.report.summary;
        let said = say::practice_take(
            language,
            spoken::facts(language, &take.take, routine),
            duration(summary.seconds),
            duration(summary.playing_seconds),
            duration(summary.rest_seconds),
        );
        page += &format!("- {said}\n");
    }
    page += &format!("\n## {}\n", say::before_you_play(language));
    for paragraph in caution::long(language) {
        page += &format!("\n{paragraph}\n");
    }
    page
}

fn row(language: Language, take: &PlannedTake<'_>, kind: FileKind) -> String {
    let key = key::moved(language, take.take.key);
    let guide = match take.take.guide {
        Guide::Together => say::mark_guide_along(language),
        Guide::Echo => say::mark_guide_first(language),
        Guide::Off => say::choose_guide_silent(language),
    };
    let summary = &take.report.summary;
    format!(
        "| {} | {} | {key} | {guide} | {} | {} | {} |\n",
        plain(&TrackPart::Mix.file_name(&take.name, kind)),
        language.number(take.tempo),
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
    let language = edition.played().words_in;
    let mut out = format!("\n## {}\n\n", say::practice_pencil(language));
    for (heading, marks) in by_line(language, marks, edition.teacher()) {
        let said: Vec<String> = marks
            .iter()
            .map(|mark| words::mark(language, mark))
            .collect();
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
