//! Standard output for data, standard error for words.

use super::failure::Failure;
use super::language::LanguageOption;
use super::text;
use crate::music::NoteNames;
use crate::problem::Severity;
use crate::words::{Language, Words, say, tell};
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{Group, Level, Renderer};
use std::borrow::Cow;
use std::io::{self, Write};

/// Columns that a line with a place in a file is cut to.
const COLUMNS: usize = 100;

/// Where a command writes. Colours are removed if the stream is not a terminal or `NO_COLOR` is set.
pub struct Console {
    language: Language,
    asked: Option<Language>,
    names: Option<NoteNames>,
    out: Box<dyn Write>,
    err: Box<dyn Write>,
}

impl Console {
    /// The streams of the process, with words in this language.
    pub fn standard(language: Language) -> Self {
        Self {
            language: language.to_teachers(),
            asked: None,
            names: None,
            out: Box::new(anstream::stdout()),
            err: Box::new(anstream::stderr()),
        }
    }

    /// The language that its words are in.
    pub fn language(&self) -> Language {
        self.language
    }

    /// Notes which language and which names of notes were asked for.
    pub fn ask(&mut self, asked: LanguageOption) {
        self.asked = asked.asked;
        self.names = asked.names;
    }

    /// The names that notes are to be shown in, if they were asked for.
    pub fn names(&self) -> Option<NoteNames> {
        self.names
    }

    /// Words in the language and with the names that they are shown in.
    pub fn said<'w>(&self, words: &'w Words) -> Cow<'w, str> {
        words.said(self.language, self.names.unwrap_or_default())
    }

    /// The language of the words for the player, if one was asked for.
    pub fn asked(&self) -> Option<Language> {
        self.asked
    }

    /// Writes data.
    ///
    /// # Errors
    /// If standard output is closed or full.
    pub fn data(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(text.as_bytes())?;
        self.out.flush()
    }

    /// Writes a line of text.
    pub fn say(&mut self, line: impl Into<Words>) {
        let line = line.into();
        self.words(&format!("{}\n", text::printable(&self.said(&line))));
    }

    /// Shows a message with its place.
    pub fn show(&mut self, report: &[Group<'_>]) {
        let renderer = Renderer::styled()
            .decor_style(DecorStyle::Ascii)
            .term_width(COLUMNS);
        let shown = renderer.render(report);
        self.words(&format!("{shown}\n\n"));
    }

    /// Shows why a command failed.
    pub fn fail(&mut self, failure: &Failure) {
        match failure {
            Failure::Refused { problem, .. } => {
                self.complain(&problem.message, problem.hint.clone());
            }
            Failure::Output(error) if error.kind() == io::ErrorKind::BrokenPipe => {}
            Failure::Output(error) => {
                self.complain(tell::output_unwritten(error), None);
            }
        }
    }

    /// Shows an error without a place in a file.
    pub fn complain(&mut self, message: impl Into<Words>, hint: Option<Words>) {
        self.remark(self.level(Severity::Error), &message.into(), hint.as_ref());
    }

    /// Shows a warning without a place in a file.
    pub fn warn(&mut self, message: impl Into<Words>, hint: Option<Words>) {
        self.remark(
            self.level(Severity::Warning),
            &message.into(),
            hint.as_ref(),
        );
    }

    fn remark(&mut self, level: Level<'_>, message: &Words, hint: Option<&Words>) {
        let title = level.primary_title(self.said(message));
        let group = match hint {
            Some(hint) => title.element(self.help().message(self.said(hint))),
            None => Group::with_title(title),
        };
        let shown = Renderer::styled()
            .decor_style(DecorStyle::Ascii)
            .render(&[group]);
        self.words(&format!("{shown}\n"));
    }

    /// What stands before a message.
    pub fn level(&self, severity: Severity) -> Level<'static> {
        let level = match severity {
            Severity::Error => Level::ERROR,
            Severity::Warning => Level::WARNING,
            Severity::Advice => Level::NOTE,
        };
        level.with_name(say::severity(self.language, severity.word()))
    }

    /// What stands before a hint.
    pub fn help(&self) -> Level<'static> {
        Level::HELP.with_name(say::help(self.language))
    }

    /// Nothing can be done if even standard error is closed.
    fn words(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
        let _ = self.err.flush();
    }
}
