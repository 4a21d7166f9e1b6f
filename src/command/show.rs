//! Faults and findings, shown at their place in the teacher's own file.

use super::console::Console;
use super::source::{Source, boundary};
use crate::check::{Finding, Severity};
use crate::routine::{Fault, Span};
use annotate_snippets::{AnnotationKind, Level, Snippet};
use std::ops::Range;

/// Shows every fault of a file.
pub fn faults(console: &mut Console, source: &Source, faults: &[Fault]) {
    for fault in faults {
        let also = fault.also.as_ref().map(|(span, what)| (*span, what));
        let window = Window::around(source, fault.span, also.map(|(span, _)| span));
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
    text: &'a str,
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
        Self {
            text: &text[start..end],
            start,
            first_line: text[..start].bytes().filter(|b| *b == b'\n').count() + 1,
        }
    }

    fn snippet<T: Clone>(&self, source: &'a Source) -> Snippet<'a, T> {
        Snippet::source(self.text)
            .line_start(self.first_line)
            .path(&source.name)
    }

    /// A span of the file as one of the window, never inside a character.
    fn place(&self, span: Span) -> Range<usize> {
        let within = |byte: usize| byte.saturating_sub(self.start).min(self.text.len());
        let start = boundary(self.text, within(span.start));
        let end = boundary(self.text, within(span.end)).max(start);
        start..end
    }
}
