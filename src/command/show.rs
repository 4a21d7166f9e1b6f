//! Faults and findings, shown at their place in the teacher's own file.

use super::console::Console;
use super::source::Source;
use crate::check::{Finding, Severity};
use crate::routine::source::boundary;
use crate::routine::{Fault, Span};
use annotate_snippets::{AnnotationKind, Level, Snippet};
use std::borrow::Cow;
use std::ops::Range;

/// Bytes of a row that is too long to show over and over, and the faults of it that are shown.
const LONG_ROW: usize = 10_000;
const MOST_OF_LONG_ROW: usize = 5;

/// Shows every fault of a file; of a row that is longer than anybody writes, the first few.
pub fn faults(console: &mut Console, source: &Source, faults: &[Fault]) {
    let mut long_row: Option<(Range<usize>, usize)> = None;
    let mut left_out = 0;
    for fault in faults {
        if let Some((row, shown)) = &mut long_row
            && row.contains(&fault.span.start)
        {
            *shown += 1;
            if *shown > MOST_OF_LONG_ROW {
                left_out += 1;
                continue;
            }
        }
        let also = fault.also.as_ref().map(|(span, what)| (*span, what));
        let window = Window::around(source, fault.span, also.map(|(span, _)| span));
        let rows = window.start..window.start + window.text.len();
        if rows.len() > LONG_ROW && long_row.as_ref().is_none_or(|(row, _)| *row != rows) {
            long_row = Some((rows, 1));
        }
        let mut mark = AnnotationKind::Primary.span(window.place(fault.span));
        if let Some(label) = &fault.label {
            mark = mark.label(label);
        }
        let mut snippet = window.snippet(source).annotation(mark);
        if let Some((span, what)) = also {
            let other = AnnotationKind::Context.span(window.place(span));
            snippet = snippet.annotation(other.label(what));
        }
        let mut group = Level::ERROR.primary_title(&fault.message).element(snippet);
        if let Some(hint) = &fault.hint {
            group = group.element(Level::HELP.message(hint));
        }
        console.show(&[group]);
    }
    if left_out > 0 {
        console.say(&format!(
            "{left_out} more in rows that are as long are not shown."
        ));
    }
}

/// Shows a finding; `at` says at which take, where that is not plain.
pub fn finding(console: &mut Console, source: &Source, finding: &Finding, at: Option<&str>) {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Advice => Level::NOTE.with_name("advice"),
    };
    let message = match at {
        Some(at) => format!("{at}: {}", finding.message),
        None => finding.message.clone(),
    };
    let window = Window::around(source, finding.span, None);
    let mark = AnnotationKind::Primary.span(window.place(finding.span));
    let snippet = window.snippet(source).annotation(mark);
    let mut group = level.primary_title(message).element(snippet);
    if let Some(hint) = &finding.hint {
        group = group.element(Level::HELP.message(hint));
    }
    console.show(&[group]);
}

/// The lines of a file that a message is about. Only these are handed on, for a file may be long and
/// its faults many.
struct Window<'a> {
    text: Cow<'a, str>,
    start: usize,
    first_line: usize,
}

impl<'a> Window<'a> {
    fn around(source: &'a Source, span: Span, also: Option<Span>) -> Self {
        let text = &source.text;
        let also = also.unwrap_or(span);
        let first = boundary(text, span.start.min(also.start));
        let last = boundary(text, span.end.max(also.end)).max(first);
        let start = text[..first].rfind('\n').map_or(0, |i| i + 1);
        let end = text[last..].find('\n').map_or(text.len(), |i| last + i);
        // Line ends of two characters: a blank in place of the first keeps everything where it is.
        let rows = text[start..end].trim_end_matches('\r');
        Self {
            text: if rows.contains('\r') {
                rows.replace('\r', " ").into()
            } else {
                rows.into()
            },
            start,
            first_line: text[..start].bytes().filter(|b| *b == b'\n').count() + 1,
        }
    }

    fn snippet<T: Clone>(&self, source: &'a Source) -> Snippet<'a, T> {
        Snippet::source(self.text.clone())
            .line_start(self.first_line)
            .path(&source.name)
    }

    /// A span of the file as one of the window, never inside a character.
    fn place(&self, span: Span) -> Range<usize> {
        let within = |byte: usize| byte.saturating_sub(self.start).min(self.text.len());
        let start = boundary(&self.text, within(span.start));
        let end = boundary(&self.text, within(span.end)).max(start);
        start..end
    }
}
