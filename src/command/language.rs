//! `--language`: the language of the words that a pupil reads.

use crate::music::NoteNames;
use crate::words::{Language, Words, list, tell};
use clap::Args;
use std::ffi::OsString;

/// The language that is asked for.
#[derive(Args, Clone, Copy, Debug, Default)]
pub struct LanguageOption {
    /// Language: of the words for the player, en, de or fr [default: that of the routine], and of what leadpipe says
    /// here, en or de [default: that of the system]
    #[arg(long = "language", value_name = "LANGUAGE", value_parser = language, global = true)]
    pub asked: Option<Language>,

    /// Names of notes to show: english (F#4), german (Fis4) or solfege (fa♯4) [default: those of the routine]
    #[arg(long, value_name = "NAMES", value_parser = names, global = true)]
    pub names: Option<NoteNames>,
}

/// The language of the command line's own words: that of `--language`, else that of the system, else English.
pub fn spoken(arguments: &[OsString]) -> Language {
    asked(arguments).or_else(of_system).unwrap_or_default()
}

/// What `--language` names. The words for a mistake on the command line are wanted before it is understood.
fn asked(arguments: &[OsString]) -> Option<Language> {
    let mut arguments = arguments.iter().filter_map(|argument| argument.to_str());
    while let Some(argument) = arguments.next() {
        let value = match argument.strip_prefix("--language") {
            Some("") => arguments.next()?,
            Some(value) => value.strip_prefix('=')?,
            None => continue,
        };
        return Language::of(value.trim());
    }
    None
}

/// The language of messages in the system's locale. The first of the variables of POSIX that says something decides, even
/// where it names a language that leadpipe does not speak.
fn of_system() -> Option<Language> {
    let said = ["LC_ALL", "LC_MESSAGES", "LANG"]
        .into_iter()
        .find_map(|name| {
            let value = std::env::var_os(name)?.into_string().ok()?;
            (!value.is_empty()).then_some(value)
        });
    Language::of(&said.or_else(of_settings)?)
}

/// Windows and macOS have the language in their settings, and seldom in variables.
#[cfg(any(windows, target_os = "macos"))]
fn of_settings() -> Option<String> {
    sys_locale::get_locale()
}

#[cfg(not(any(windows, target_os = "macos")))]
fn of_settings() -> Option<String> {
    None
}

/// Reads the word for names of notes.
fn names(text: &str) -> Result<NoteNames, Words> {
    let text = text.trim().to_lowercase();
    let known = NoteNames::WORDS.iter().find(|(word, _)| *word == text);
    known.map(|(_, names)| *names).ok_or_else(|| {
        let words = NoteNames::WORDS.map(|(word, _)| word);
        tell::it_can_be(list::or(&words))
    })
}

/// Reads the tag of a language.
fn language(tag: &str) -> Result<Language, Words> {
    Language::of(tag.trim()).ok_or_else(|| {
        let all = Language::ALL.map(|language| format!("{} ({})", language.name(), language.tag()));
        tell::leadpipe_speaks(list::and(&all))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_language_is_known_before_the_command_is() {
        let of = |line: &str| {
            let arguments: Vec<OsString> = line.split(' ').map(OsString::from).collect();
            asked(&arguments)
        };
        assert_eq!(of("leadpipe check a --language de"), Some(Language::De));
        assert_eq!(of("leadpipe --language=de check a"), Some(Language::De));
        assert_eq!(of("leadpipe check a --language"), None);
        assert_eq!(of("leadpipe check a --language nl"), None);
        assert_eq!(of("leadpipe check a"), None);
    }
}
