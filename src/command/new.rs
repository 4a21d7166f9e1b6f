//! `leadpipe new`: a copy of a built-in routine to change.

use super::console::Console;
use super::{Exit, Failure, Outcome};
use crate::presets;
use crate::render::failure::system_words;
use crate::render::files::kept;
use crate::words::{Words, tell};
use clap::Args;
use std::io;
use std::path::{Path, PathBuf};

/// Write a copy of a built-in routine, to be changed
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe new anna --from first-steps   writes anna.toml
  leadpipe new \"Anna, week 3\"            writes Anna, week 3.toml

A file that is there already is never overwritten.")]
pub struct New {
    /// Title of the new routine; its file is called the same and ends in .toml
    name: String,

    /// The built-in routine to copy; leadpipe list shows them
    #[arg(long, value_name = "ROUTINE", default_value = presets::DEFAULT)]
    from: String,
}

impl New {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let preset = presets::named(&self.from).ok_or_else(|| {
            let failure = Failure::usage(tell::no_built_in(&self.from));
            match presets::suggestion(&self.from) {
                Some(name) => failure.hint(tell::did_you_mean(name)),
                None => failure.hint(tell::list_shows_built_in()),
            }
        })?;
        let path = path_of(&self.name)?;
        let title = title_of(&path);
        let language = console.asked();
        let text = language.and_then(|language| presets::translated(preset, language));
        let text = text.as_deref().unwrap_or(preset.text);
        write_new(&path, &retitled(text, &title), tell::choose_another_name())?;
        let shown = path.display();
        console.say(tell::copy_is_yours(&shown, &self.from));
        console.say(tell::next_check(quoted(&path)));
        Ok(Exit::Done)
    }
}

fn path_of(name: &str) -> Result<PathBuf, Failure> {
    let stem = name.strip_suffix(".toml").unwrap_or(name);
    let last = Path::new(stem).file_name().and_then(|n| n.to_str());
    if last.is_none_or(|last| last.trim().is_empty()) || stem.ends_with(['/', '\\']) {
        return Err(Failure::usage(tell::no_name_for_file(name)).hint(tell::name_after_player()));
    }
    if stem.chars().any(char::is_control) {
        return Err(Failure::usage(
            "a name cannot hold line ends or other control characters",
        ));
    }
    Ok(PathBuf::from(format!("{stem}.toml")))
}

fn title_of(path: &Path) -> String {
    path.file_stem()
        .map(|stem| stem.to_string_lossy().into_owned())
        .unwrap_or_default()
}

/// The text of a routine with another title.
fn retitled(text: &str, title: &str) -> String {
    let escaped = title.replace('\\', "\\\\").replace('"', "\\\"");
    let mut out = String::with_capacity(text.len());
    let mut found = false;
    for line in text.split_inclusive('\n') {
        let is_title = line
            .strip_prefix("title")
            .is_some_and(|rest| rest.trim_start().starts_with('='));
        if is_title && !found {
            found = true;
            out.push_str(&format!("title = \"{escaped}\"\n"));
        } else {
            out.push_str(line);
        }
    }
    out
}

/// Writes a file that is not there yet; `or_else` says what to do if it is.
pub(super) fn write_new(path: &Path, text: &str, or_else: Words) -> Result<(), Failure> {
    let written = kept::create(path, text.as_bytes());
    written.map_err(|error| not_written(path, &error, or_else))
}

/// Why a text was not written.
pub(super) fn not_written(path: &Path, error: &io::Error, if_there: Words) -> Failure {
    let shown = path.display();
    match error.kind() {
        io::ErrorKind::AlreadyExists => Failure::error(tell::there_already(&shown)).hint(if_there),
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => {
            Failure::error(tell::no_such_folder(&shown)).hint(tell::make_the_folder())
        }
        io::ErrorKind::PermissionDenied => {
            Failure::error(tell::folder_not_writable(&shown)).hint(tell::own_folder())
        }
        io::ErrorKind::StorageFull => Failure::error(tell::disk_full(&shown)),
        _ => Failure::error(tell::cannot_write(&shown, system_words(error))),
    }
}

/// A path as it can be typed: in quotes if necessary, and never mistaken for an option.
pub(super) fn quoted(path: &Path) -> String {
    let text = path.to_string_lossy();
    let text = if text.starts_with('-') {
        format!("./{text}")
    } else {
        text.into_owned()
    };
    let quote = if text.contains('"') { '\'' } else { '"' };
    if text.contains(|c: char| !c.is_alphanumeric() && !"._-/".contains(c)) {
        format!("{quote}{text}{quote}")
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_title_changes() {
        let text =
            "# words\nformat = 1\ntitle = \"Old\"\ninstrument = \"trumpet\"\ntitle = \"x\"\n";
        assert_eq!(
            retitled(text, "Anna's \"new\""),
            "# words\nformat = 1\ntitle = \"Anna's \\\"new\\\"\"\ninstrument = \"trumpet\"\ntitle = \"x\"\n"
        );
    }

    #[test]
    fn names_become_files() {
        let path = |n| path_of(n).ok().map(|p| p.to_string_lossy().into_owned());
        assert_eq!(path("anna").as_deref(), Some("anna.toml"));
        assert_eq!(path("anna.toml").as_deref(), Some("anna.toml"));
        assert_eq!(path("v1.2").as_deref(), Some("v1.2.toml"));
        for name in ["", " ", "..", "lessons/", "a\nb", ".toml"] {
            assert_eq!(path(name), None, "{name:?}");
        }
    }
}
