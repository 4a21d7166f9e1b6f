//! The report of a class as a page to print or to keep.

use super::closing;
use super::roster::{LeftOut, Ready};
use crate::command::console::Console;
use crate::command::{Failure, output};
use crate::handout::class_report::{ClassReport, PlayerRow};
use crate::render::Finished;
use crate::render::files::Replace;
use crate::words::{Language, tell};
use std::path::{Path, PathBuf};

/// The page of a class of this title.
pub fn page(
    language: Language,
    title: &str,
    ready: &[&Ready<'_>],
    done: &[Vec<&Finished>],
    left_out: &[&LeftOut],
) -> String {
    let problems = left_out
        .iter()
        .map(|left| tell::has_no_tracks(&left.name, &left.why))
        .chain(ready.iter().flat_map(|player| {
            let warnings = player.warnings.iter();
            warnings.map(|warning| tell::player_warning(&player.name, warning))
        }));
    let suggestions = ready.iter().filter_map(|player| {
        let advice = player.advice.as_ref()?;
        Some(format!(
            "{} {}.",
            player.name,
            advice.words().in_language(language)
        ))
    });
    let rows = ready.iter().zip(done).map(|(player, done)| {
        let mut row = closing::row(player, done).into_iter();
        let mut next = || {
            row.next()
                .unwrap_or_default()
                .in_language(language)
                .to_owned()
        };
        PlayerRow {
            name: next(),
            routine: next(),
            marks: next(),
            tracks: next(),
            length: next(),
        }
    });
    ClassReport {
        language,
        title: title.to_owned(),
        problems: problems
            .map(|said| said.in_language(language).to_owned())
            .collect(),
        suggestions: suggestions.collect(),
        rows: rows.collect(),
    }
    .html()
}

/// Writes the page to the file that was named.
pub fn write(
    console: &mut Console,
    file: &Path,
    page: &str,
    replace: Replace,
) -> Result<(), Failure> {
    let Some(name) = file.file_name().and_then(|name| name.to_str()) else {
        return Err(
            Failure::usage(tell::no_name_for_report(file.display().to_string()))
                .hint(tell::name_the_report()),
        );
    };
    let folder = match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    output::put(&folder, name, page.as_bytes(), replace)?;
    console.say(tell::report_is_in(file.display().to_string()));
    Ok(())
}
