//! The tables of a routine's text and their places.

use crate::problem::{Problem, Span, Text};
use crate::routine::source::row_and_column;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The place of an entry's name, and its value.
type Entry<'s, 't> = (Range<usize>, &'s Spanned<DeValue<'t>>);

/// The text of a routine, taken apart into head and lines.
pub struct Structure<'t> {
    pub text: &'t str,
    root: Spanned<DeTable<'t>>,
    /// Where each line's header begins.
    headers: Vec<usize>,
}

impl<'t> Structure<'t> {
    /// The structure of a text, whatever faults its notes have.
    pub fn of(text: &'t str) -> Result<Self, Problem> {
        let (root, errors) = DeTable::parse_recoverable(text);
        if let Some(error) = errors.first() {
            let at = error.span().map_or(0, |span| span.start.min(text.len()));
            let (row, _) = row_and_column(text, at);
            return Err(Problem::error(format!(
                "row {row} of the text is not understood, so nothing can be changed by hand yet"
            ))
            .hint("mend that row in the text first")
            .at(Text::Routine, Span::new(at, at)));
        }
        let mut headers = vec![];
        if let Some(lines) = root.get_ref().get("line") {
            let tables = lines.get_ref().as_array().ok_or_else(not_tables)?;
            for table in tables {
                let start = table.span().start;
                if !text[start..].starts_with("[[") {
                    return Err(not_tables());
                }
                headers.push(start);
            }
        }
        Ok(Self {
            text,
            root,
            headers,
        })
    }

    /// How many lines there are.
    pub fn count(&self) -> usize {
        self.headers.len()
    }

    /// The table of a line, or the head.
    pub fn table(&self, line: Option<usize>) -> Result<&DeTable<'t>, Problem> {
        let root = self.root.get_ref();
        let Some(line) = line else { return Ok(root) };
        let tables = root
            .get("line")
            .and_then(|lines| lines.get_ref().as_array());
        let table = tables.and_then(|tables| tables.get(line)?.get_ref().as_table());
        table.ok_or_else(|| self.no_line(line))
    }

    /// The places of an entry's name and value.
    pub fn entry(&self, line: Option<usize>, key: &str) -> Result<Option<Entry<'_, 't>>, Problem> {
        let found = self.table(line)?.get_key_value(key);
        Ok(found.map(|(name, value)| (name.span(), value)))
    }

    /// Behind the last row of a line's entries, or of the head's; with the row's end.
    pub fn end_of_entries(&self, line: Option<usize>) -> Result<usize, Problem> {
        let values = self.table(line)?.iter();
        let ends = values
            .filter(|(key, _)| line.is_some() || key.get_ref() != "line")
            .map(|(_, value)| value.span().end);
        let header = line.map(|line| self.headers[line]);
        Ok(match ends.max().or(header) {
            Some(at) => self.row_end(at),
            None => 0,
        })
    }

    /// From the comment over a line's header to that of the next one.
    pub fn block(&self, line: usize) -> Result<Range<usize>, Problem> {
        let start = *self.headers.get(line).ok_or_else(|| self.no_line(line))?;
        let end = self.headers.get(line + 1).map(|next| self.over(*next));
        Ok(self.over(start)..end.unwrap_or(self.text.len()))
    }

    /// The start of the row that holds a byte.
    pub fn row_start(&self, at: usize) -> usize {
        self.text[..at].rfind('\n').map_or(0, |at| at + 1)
    }

    /// Behind the end of the row that holds a byte.
    pub fn row_end(&self, at: usize) -> usize {
        let end = self.text[at..].find('\n');
        end.map_or(self.text.len(), |end| at + end + 1)
    }

    /// How rows of this text end.
    pub fn row_break(&self) -> &'static str {
        if self.text.contains("\r\n") {
            "\r\n"
        } else {
            "\n"
        }
    }

    /// The start of the comment right over a header, or of the header's row.
    fn over(&self, header: usize) -> usize {
        let mut start = self.row_start(header);
        while start > 0 {
            let above = self.row_start(start - 1);
            if !self.text[above..start].starts_with('#') {
                break;
            }
            start = above;
        }
        start
    }

    fn no_line(&self, line: usize) -> Problem {
        let count = self.count();
        Problem::error(format!("there is no line {}", line + 1))
            .hint(format!("this routine has {count}"))
    }
}

fn not_tables() -> Problem {
    Problem::error("the lines of this routine are not written as [[line]] tables")
        .hint("write every line under a [[line]] of its own")
}
