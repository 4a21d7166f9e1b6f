//! The report of a class as a page to print or to keep.

use super::closing;
use super::roster::{LeftOut, Ready};
use crate::command::console::Console;
use crate::command::{Failure, output};
use crate::handout::class_report::{ClassReport, PlayerRow};
use crate::render::Finished;
use crate::render::files::Replace;
use std::path::{Path, PathBuf};

/// The page of a class of this title.
pub fn page(
    title: &str,
    ready: &[&Ready<'_>],
    done: &[Vec<&Finished>],
    left_out: &[&LeftOut],
) -> String {
    let problems = left_out
        .iter()
        .map(|left| format!("{} has no tracks: {}.", left.name, left.why))
        .chain(ready.iter().flat_map(|player| {
            let warnings = player.warnings.iter();
            warnings.map(|warning| format!("{}: {warning}.", player.name))
        }));
    let suggestions = ready.iter().filter_map(|player| {
        let advice = player.advice.as_ref()?;
        Some(format!("{} {}.", player.name, advice.words()))
    });
    let rows = ready.iter().zip(done).map(|(player, done)| {
        let mut row = closing::row(player, done).into_iter();
        let mut next = || row.next().unwrap_or_default();
        PlayerRow {
            name: next(),
            routine: next(),
            marks: next(),
            tracks: next(),
            length: next(),
        }
    });
    ClassReport {
        title: title.to_owned(),
        problems: problems.collect(),
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
            Failure::usage(format!("{} is no name for a file", file.display()))
                .hint("name the report after the class: --report tuesday.html"),
        );
    };
    let folder = match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    output::put(&folder, name, page.as_bytes(), replace)?;
    console.say(format!("The report is in {}.", file.display()));
    Ok(())
}
