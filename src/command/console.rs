//! Standard output for data, standard error for words.

use super::failure::Failure;
use super::text;
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{Group, Level, Renderer};
use std::io::{self, Write};

/// Columns that a line with a place in a file is cut to.
const COLUMNS: usize = 100;

/// Where a command writes. Colours are removed if the stream is not a terminal or `NO_COLOR` is set.
pub struct Console {
    out: Box<dyn Write>,
    err: Box<dyn Write>,
}

impl Console {
    /// The streams of the process.
    pub fn standard() -> Self {
        Self {
            out: Box::new(anstream::stdout()),
            err: Box::new(anstream::stderr()),
        }
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
    pub fn say(&mut self, line: &str) {
        self.words(&format!("{}\n", text::printable(line)));
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
                self.complain(&problem.message, problem.hint.as_deref());
            }
            Failure::Output(error) if error.kind() == io::ErrorKind::BrokenPipe => {}
            Failure::Output(error) => {
                self.complain(&format!("the output could not be written: {error}"), None);
            }
        }
    }

    /// Shows an error without a place in a file.
    pub fn complain(&mut self, message: &str, hint: Option<&str>) {
        self.remark(Level::ERROR, message, hint);
    }

    /// Shows a warning without a place in a file.
    pub fn warn(&mut self, message: &str, hint: Option<&str>) {
        self.remark(Level::WARNING, message, hint);
    }

    fn remark(&mut self, level: Level<'_>, message: &str, hint: Option<&str>) {
        let title = level.primary_title(message);
        let group = match hint {
            Some(hint) => title.element(Level::HELP.message(hint)),
            None => Group::with_title(title),
        };
        let shown = Renderer::styled()
            .decor_style(DecorStyle::Ascii)
            .render(&[group]);
        self.words(&format!("{shown}\n"));
    }

    /// Nothing can be done if even standard error is closed.
    fn words(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes());
        let _ = self.err.flush();
    }
}
