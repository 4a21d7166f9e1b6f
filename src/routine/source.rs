//! Maps text inside a TOML string back to its place in the file.

use super::fault::Span;
use std::ops::Range;

/// The text of a TOML string, with the place of every byte in the file.
#[derive(Clone, Debug)]
pub struct PlacedText {
    /// The text, escapes resolved.
    pub text: String,
    /// For each byte of `text`, start and end in the file of the character it belongs to.
    places: Vec<(usize, usize)>,
    /// The end of the text in the file.
    end: usize,
}

impl PlacedText {
    /// Decodes the TOML string, quotes included, at `span` of `source`.
    ///
    /// The TOML parser has accepted or repaired the string; anything invalid is copied as it is.
    pub fn decode(source: &str, span: Range<usize>) -> PlacedText {
        let raw = &source[span.clone()];
        let (quote, literal) = match raw.as_bytes() {
            [b'"', b'"', b'"', ..] => (3, false),
            [b'\'', b'\'', b'\'', ..] => (3, true),
            [b'\'', ..] => (1, true),
            [b'"', ..] => (1, false),
            _ => (0, true),
        };
        let close = &raw[..quote];
        let inner = &raw[quote..];
        let inner = inner.strip_suffix(close).unwrap_or(inner);
        let mut start = span.start + quote;
        let mut rest = inner;
        if quote == 3 {
            // A line end right after the opening quotes is not part of the text.
            for line_end in ["\r\n", "\n"] {
                if let Some(after) = rest.strip_prefix(line_end) {
                    start += line_end.len();
                    rest = after;
                    break;
                }
            }
        }
        let mut placed = PlacedText {
            text: String::with_capacity(rest.len()),
            places: Vec::new(),
            end: start,
        };
        let mut at = 0;
        while let Some(c) = rest[at..].chars().next() {
            let (decoded, used) = if c == '\\' && !literal {
                unescape(&rest[at..])
            } else {
                (Some(c), c.len_utf8())
            };
            if let Some(c) = decoded {
                placed.text.push(c);
                let place = (start + at, start + at + used);
                placed.places.resize(placed.text.len(), place);
            }
            at += used;
        }
        placed.end = start + at;
        placed
    }

    /// The place in the file of a range of the text.
    pub fn span(&self, range: Range<usize>) -> Span {
        let start = self
            .places
            .get(range.start)
            .map_or(self.end, |place| place.0);
        // The end of the last character itself: the next one may begin after a line end that was dropped.
        let end = match range.end.checked_sub(1) {
            Some(last) if !range.is_empty() => self.places[last].1,
            _ => start,
        };
        Span::new(start, end)
    }

    /// The place of the whole text, without quotes.
    pub fn whole(&self) -> Span {
        self.span(0..self.text.len())
    }
}

/// The character that the escape at the start of `text` produces, and the length of the escape in bytes. An
/// escaped line end produces nothing.
fn unescape(text: &str) -> (Option<char>, usize) {
    let simple = |c| (Some(c), 2);
    match text.as_bytes().get(1) {
        Some(b'b') => simple('\u{8}'),
        Some(b't') => simple('\t'),
        Some(b'n') => simple('\n'),
        Some(b'f') => simple('\u{c}'),
        Some(b'r') => simple('\r'),
        Some(b'e') => simple('\u{1b}'),
        Some(b'"') => simple('"'),
        Some(b'\\') => simple('\\'),
        Some(&kind @ (b'x' | b'u' | b'U')) => {
            let digits = match kind {
                b'x' => 2,
                b'u' => 4,
                _ => 8,
            };
            let code = text
                .get(2..2 + digits)
                .and_then(|d| u32::from_str_radix(d, 16).ok());
            match code.and_then(char::from_u32) {
                Some(c) => (Some(c), 2 + digits),
                None => (Some('\\'), 1),
            }
        }
        Some(b' ' | b'\t' | b'\n' | b'\r') => {
            let blanks = text[1..].len() - text[1..].trim_start().len();
            (None, 1 + blanks)
        }
        _ => (Some('\\'), 1),
    }
}

/// Row and column of a byte of a text, both from 1, the column in characters.
pub fn row_and_column(text: &str, byte: usize) -> (usize, usize) {
    let before = &text[..boundary(text, byte)];
    let row_start = before.rfind('\n').map_or(0, |i| i + 1);
    let row = before.bytes().filter(|b| *b == b'\n').count() + 1;
    (row, before[row_start..].chars().count() + 1)
}

/// `byte`, or the start of the character it lies in, or the end of the text.
pub fn boundary(text: &str, byte: usize) -> usize {
    let byte = byte.min(text.len());
    (0..=byte)
        .rev()
        .find(|b| text.is_char_boundary(*b))
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decode(raw: &str) -> PlacedText {
        let source = format!("notes = {raw}\n");
        let start = "notes = ".len();
        PlacedText::decode(&source, start..start + raw.len())
    }

    #[test]
    fn plain_text_keeps_its_places() {
        let placed = decode("\"C4 D4\"");
        assert_eq!(placed.text, "C4 D4");
        assert_eq!(placed.span(3..5), Span::new(12, 14));
    }

    #[test]
    fn escapes_are_longer_in_the_file() {
        let placed = decode(r#""C4\tF\u00234 E4""#);
        assert_eq!(placed.text, "C4\tF#4 E4");
        assert_eq!(placed.span(3..6), Span::new(13, 21));
        assert_eq!(placed.span(7..9), Span::new(22, 24));
    }

    #[test]
    fn long_strings_drop_their_first_line_end() {
        let placed = decode("\"\"\"\nC4\\\n   D4\n\"\"\"");
        assert_eq!(placed.text, "C4D4\n");
        assert_eq!(placed.span(0..2), Span::new(12, 14));
        let placed = decode("'''C4 \\t'''");
        assert_eq!(placed.text, "C4 \\t");
    }
}
