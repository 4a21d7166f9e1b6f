//! Problems, shown at their place in the teacher's own file.

use super::console::Console;
use super::source::SourceText;
use crate::problem::{Also, Problem, Span};
use crate::routine::source::boundary;
use crate::words::Words;
use crate::words::tell;
use annotate_snippets::{AnnotationKind, Group, Snippet};
use std::borrow::Cow;
use std::ops::Range;

/// The length in bytes from which a row is too long to show often, and the most faults of it that are shown.
const LONG_ROW: usize = 10_000;
const MOST_OF_LONG_ROW: usize = 5;

/// Shows every problem of a text, but only the first few of an extremely long row.
pub fn problems(console: &mut Console, source: &SourceText, problems: &[Problem]) {
    let mut long_row: Option<(Range<usize>, usize)> = None;
    let mut left_out = 0;
    for problem in problems {
        if let Some((row, shown)) = &mut long_row
            && row.contains(&problem.start())
        {
            *shown += 1;
            if *shown > MOST_OF_LONG_ROW {
                left_out += 1;
                continue;
            }
        }
        let window = Window::of(source, problem);
        let rows = window.start..window.start + window.text.len();
        if rows.len() > LONG_ROW && long_row.as_ref().is_none_or(|(row, _)| *row != rows) {
            long_row = Some((rows, 1));
        }
        self::problem(console, source, problem, None);
    }
    if left_out > 0 {
        console.say(tell::more_not_shown(left_out));
    }
}

/// Shows a problem at its place; `at` names the take if it is not clear.
pub fn problem(console: &mut Console, source: &SourceText, problem: &Problem, at: Option<&Words>) {
    let said = |words: &Words| words.said(console.language(), source.names()).into_owned();
    let message = match at {
        Some(at) => format!("{}: {}", said(at), said(&problem.message)),
        None => said(&problem.message),
    };
    let title = console.level(problem.severity).primary_title(message);
    let mut group = match problem.place {
        None => Group::with_title(title),
        Some(place) => {
            let window = Window::of(source, problem);
            let mut mark = AnnotationKind::Primary.span(window.place(place.span));
            if let Some(label) = &problem.label {
                mark = mark.label(said(label));
            }
            let mut snippet = window.snippet(source).annotation(mark);
            if let Some(Also { span, message }) = &problem.also {
                let other = AnnotationKind::Context.span(window.place(*span));
                snippet = snippet.annotation(other.label(said(message)));
            }
            title.element(snippet)
        }
    };
    if let Some(hint) = &problem.hint {
        group = group.element(console.help().message(said(hint)));
    }
    console.show(&[group]);
}

/// The lines of a file that a message is about. Only these are passed to the renderer, because a file may be long and
/// have many faults.
struct Window<'a> {
    text: Cow<'a, str>,
    start: usize,
    first_line: usize,
}

impl<'a> Window<'a> {
    fn of(source: &'a SourceText, problem: &Problem) -> Self {
        let span = problem.place.map_or(Span::new(0, 0), |place| place.span);
        Self::around(source, span, problem.also.as_ref().map(|also| also.span))
    }

    fn around(source: &'a SourceText, span: Span, also: Option<Span>) -> Self {
        let text = &source.text;
        let also = also.unwrap_or(span);
        let first = boundary(text, span.start.min(also.start));
        let last = boundary(text, span.end.max(also.end)).max(first);
        let start = text[..first].rfind('\n').map_or(0, |i| i + 1);
        let end = text[last..].find('\n').map_or(text.len(), |i| last + i);
        // In a line end of two characters a blank replaces the first, so that offsets stay valid.
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

    fn snippet<T: Clone>(&self, source: &'a SourceText) -> Snippet<'a, T> {
        Snippet::source(self.text.clone())
            .line_start(self.first_line)
            .path(&source.name)
    }

    /// Converts a span of the file to one of the window, on character boundaries.
    fn place(&self, span: Span) -> Range<usize> {
        let within = |byte: usize| byte.saturating_sub(self.start).min(self.text.len());
        let start = boundary(&self.text, within(span.start));
        let end = boundary(&self.text, within(span.end)).max(start);
        start..end
    }
}
