//! The texts that the command line names: a file, a built-in routine or standard input.

use super::Failure;
use crate::brass::Instrument;
use crate::carry::CarryRule;
use crate::edition::name;
use crate::music::NoteNames;
use crate::presets;
use crate::render::failure::system_words;
use crate::render::reading::{self, Unread};
use crate::render::reuse::origin;
use crate::routine::{self, Fault, Routine, note_names};
use crate::words::{Language, tell};
use std::ffi::OsStr;
use std::io;
use std::path::Path;

/// The most bytes of a file, equal to the bound of the routine reader.
const LARGEST: u64 = 1 << 20;

/// How a file writes its text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileForm {
    /// It begins with a byte order mark, as some editors write it.
    pub order_mark: bool,
    /// Its rows end with carriage returns alone, as some old editors wrote them.
    pub old_rows: bool,
}

impl FileForm {
    const PLAIN: Self = Self {
        order_mark: false,
        old_rows: false,
    };
}

/// The text of a routine and where it comes from.
#[derive(Clone, Debug)]
pub struct SourceText {
    /// Its name in messages.
    pub name: String,
    /// The argument that names it on the command line.
    pub argument: String,
    /// Its text.
    pub text: String,
    /// The instrument it was carried to, if it was.
    pub carried: Option<CarriedTo>,
    /// The language of the words for the player, if it was asked for.
    pub language: Option<Language>,
    /// The names that notes are shown in, if they were asked for.
    pub names: Option<NoteNames>,
}

/// Where a routine was carried.
#[derive(Clone, Copy, Debug)]
pub struct CarriedTo {
    /// The instrument.
    pub instrument: &'static Instrument,
    /// What its notes kept, if that was said.
    pub rule: Option<CarryRule>,
}

impl CarriedTo {
    /// The options that carry a routine so.
    pub fn options(&self) -> String {
        let rule = CarryRule::WORDS
            .iter()
            .find(|(_, rule)| Some(*rule) == self.rule);
        let rule = rule.map_or(String::new(), |(word, _)| format!(" --carry {word}"));
        let name = self.instrument.name;
        match name.contains(' ') {
            true => format!(" --instrument \"{name}\"{rule}"),
            false => format!(" --instrument {name}{rule}"),
        }
    }
}

impl SourceText {
    /// The same with the words for the player in a language, if one is asked for. A built-in routine is in that language
    /// as a whole, where it is translated.
    #[must_use]
    pub fn in_language(self, language: Option<Language>) -> Self {
        let preset = presets::named(&self.argument).filter(|preset| preset.text == self.text);
        let text = preset.zip(language);
        let text = text.and_then(|(preset, language)| presets::translated(preset, language));
        Self {
            text: text.unwrap_or(self.text),
            language,
            ..self
        }
    }

    /// The same with notes shown in other names, if they are asked for.
    #[must_use]
    pub fn in_names(self, names: Option<NoteNames>) -> Self {
        Self { names, ..self }
    }

    /// The names that notes are shown in: those asked for, or those of the text.
    pub fn names(&self) -> NoteNames {
        self.names.unwrap_or_else(|| note_names::of(&self.text))
    }

    /// Finds what `argument` names: `-` is standard input, a built-in routine's name that routine,
    /// anything else a file.
    ///
    /// # Errors
    /// If it does not exist or is not text.
    pub fn find(argument: &OsStr) -> Result<Self, Failure> {
        Self::find_with_form(argument).map(|(source, _)| source)
    }

    /// The same, and how the file writes its text.
    ///
    /// # Errors
    /// If it does not exist or is not text.
    pub fn find_with_form(argument: &OsStr) -> Result<(Self, FileForm), Failure> {
        let shown = argument.to_string_lossy().into_owned();
        if shown == "-" {
            let name = "standard input";
            let bytes = reading::stream(io::stdin().lock(), LARGEST);
            let bytes = bytes.map_err(|why| unread(None, name, why))?;
            return Self::from_bytes(name.to_owned(), shown, bytes);
        }
        if let Some(preset) = presets::named(&shown) {
            let preset = Self {
                name: tell::built_in(preset.name).to_string(),
                argument: shown,
                text: preset.text.to_owned(),
                carried: None,
                language: None,
                names: None,
            };
            return Ok((preset, FileForm::PLAIN));
        }
        let path = Path::new(argument);
        if path.is_dir() {
            return Err(
                Failure::usage(tell::folder_no_routine(&shown)).hint(tell::name_the_routine())
            );
        }
        let bytes = reading::named(path, LARGEST);
        let bytes = bytes.map_err(|why| unread(Some(path), &shown, why))?;
        Self::from_bytes(shown.clone(), shown, bytes)
    }

    fn from_bytes(
        name: String,
        argument: String,
        bytes: Vec<u8>,
    ) -> Result<(Self, FileForm), Failure> {
        let (text, form) = decode(&name, bytes)?;
        let source = Self {
            name,
            argument,
            text,
            carried: None,
            language: None,
            names: None,
        };
        Ok((source, form))
    }

    /// The stem of the names of its files: its title, and the instrument it was carried to.
    pub fn stem(&self, title: &str) -> String {
        match self.carried {
            Some(to) => format!("{} {}", name::slug(title), name::slug(to.instrument.name)),
            None => name::slug(title),
        }
    }

    /// Reads the routine.
    ///
    /// # Errors
    /// Every fault in it.
    pub fn read(&self) -> Result<Routine, Vec<Fault>> {
        let mut read = routine::read(&self.text)?;
        read.words_in = self.language.unwrap_or(read.words_in);
        read.names = self.names.unwrap_or(read.names);
        Ok(read)
    }

    /// How the routine is named in the records of tracks in `folder`.
    pub fn origin(&self, folder: &Path) -> String {
        if self.argument == self.name && self.name != "standard input" {
            origin::of_file(Path::new(&self.argument), folder)
        } else {
            self.name.clone()
        }
    }

    /// Line and column of a byte, both from 1, the column in characters.
    pub fn line_and_column(&self, byte: usize) -> (usize, usize) {
        routine::source::row_and_column(&self.text, byte)
    }
}

/// Says why nothing was read; `path` is the file, if it is one.
fn unread(path: Option<&Path>, shown: &str, why: Unread) -> Failure {
    match (why, path) {
        (Unread::TooLarge, _) => Failure::error(tell::larger_than(shown)),
        (Unread::System(error), Some(path)) => refused(path, shown, &error),
        (Unread::System(error), None) => {
            let said = system_words(&error);
            Failure::error(tell::cannot_be_read(shown, &said))
        }
    }
}

fn refused(path: &Path, shown: &str, error: &io::Error) -> Failure {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => {}
        io::ErrorKind::PermissionDenied => {
            return Failure::error(tell::may_not_be_read(shown)).hint(tell::ask_its_owner());
        }
        _ => {
            let said = system_words(error);
            return Failure::error(tell::cannot_be_read(shown, &said));
        }
    }
    if shown.trim().is_empty() {
        return Failure::usage(tell::empty_name()).hint(tell::list_shows());
    }
    let failure = Failure::usage(tell::no_file_called(shown));
    let with_txt = format!("{shown}.txt");
    let with_toml = format!("{shown}.toml");
    if Path::new(&with_txt).is_file() {
        failure.hint(tell::there_is_with_txt(&with_txt))
    } else if path.extension().is_none() && Path::new(&with_toml).is_file() {
        failure.hint(tell::there_is_with_toml(&with_toml))
    } else if path.extension().is_none() && Path::new(&format!("{with_toml}.txt")).is_file() {
        failure.hint(tell::there_is_toml_txt(&with_toml))
    } else if let Some(name) = presets::suggestion(shown) {
        failure.hint(tell::built_in_called(name))
    } else {
        failure.hint(tell::list_and_new())
    }
}

/// Decodes the text of a file, or says why it is not text.
fn decode(name: &str, bytes: Vec<u8>) -> Result<(String, FileForm), Failure> {
    if is_utf_16(&bytes) {
        let failure = Failure::error(tell::saved_as_utf16(name));
        return Err(failure.hint(tell::save_as_utf8()));
    }
    // Text in any single-byte encoding has hardly any control characters; a picture, a sound or a compressed document has
    // many.
    let document = bytes.starts_with(b"{\\rtf") || bytes.starts_with(b"PK\x03\x04");
    if document || bytes.contains(&0) {
        let failure = Failure::error(tell::not_plain(name));
        return Err(failure.hint(tell::text_editor()));
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let good = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = good.iter().filter(|byte| **byte == b'\n').count() + 1;
        Failure::error(tell::not_utf8(name, line)).hint(tell::save_as_utf8())
    })?;
    let body = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let rows = rows_ended(body);
    let form = FileForm {
        order_mark: body.len() < text.len(),
        old_rows: rows != body,
    };
    Ok((rows, form))
}

/// True for UTF-16: there is a byte order mark, or in the first bytes of plain letters every other byte is zero and the
/// others are not.
fn is_utf_16(bytes: &[u8]) -> bool {
    let head = &bytes[..bytes.len().min(64) / 2 * 2];
    let zeros = |from: usize| {
        head.iter()
            .skip(from)
            .step_by(2)
            .filter(|b| **b == 0)
            .count()
    };
    let (first, second) = (zeros(0), zeros(1));
    head.starts_with(&[0xff, 0xfe])
        || head.starts_with(&[0xfe, 0xff])
        || first.min(second) == 0 && head.len() >= 4 && first.max(second) * 3 >= head.len()
}

/// Replaces line ends of carriage returns alone, as some old editors write them, with line feeds.
fn rows_ended(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(c) = letters.next() {
        out.push(match c {
            '\r' if letters.peek() != Some(&'\n') => '\n',
            c => c,
        });
    }
    out
}
