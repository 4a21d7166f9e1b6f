//! Bar lines, repeats and endings.

use super::lengths::number;

/// A bar line: what it says to the bars before and after it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Line {
    /// The repeat ends before it; it is played so many times in all.
    pub times: Option<u32>,
    /// A repeat begins after it.
    pub begins: bool,
    /// It is double, or has a thick stroke.
    pub double: bool,
    /// The numbers of an ending that begins after it.
    pub ending: Option<Vec<u32>>,
}

/// Reads a bar line from the beginning of a text, and returns what is left of it. `None` if there is none.
pub(super) fn read(text: &str) -> Option<(&str, Line)> {
    let mut line = Line::default();
    let bytes = text.as_bytes();
    let mut at = 0;
    let (mut before, mut after, mut strokes) = (0, 0, 0);
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'|' => strokes += 1,
            b':' if strokes == 0 => before += 1,
            b':' => after += 1,
            // A bracket is part of a bar line only beside a stroke.
            b'[' if strokes == 0 && before == 0 && bytes.get(at + 1) == Some(&b'|') => {}
            b']' if strokes > 0 => {}
            // `:]` of old files.
            b']' if before > 0 => strokes += 1,
            // A dotted one.
            b'.' if at == 0 && bytes.get(1) == Some(&b'|') => {}
            _ => break,
        }
        line.double |= matches!(byte, b'[' | b']');
        at += 1;
        // What follows the dots after the strokes is another bar line, but `::|` belongs together.
        if after > 0 && bytes.get(at) == Some(&b'|') && strokes < 3 {
            break;
        }
    }
    // `::` is both; a lone colon is none.
    if strokes == 0 && before < 2 {
        return endings_alone(text);
    }
    if strokes == 0 {
        (before, after) = (1, 1);
    }
    line.double |= strokes > 1;
    line.times = (before > 0).then_some(before + 1);
    line.begins = after > 0;
    let mut rest = &text[at..];
    if let Some((left, numbers)) = numbers_of(rest) {
        (rest, line.ending) = (left, Some(numbers));
    } else if let Some((left, numbers)) = bracketed(rest.trim_start_matches(' ')) {
        (rest, line.ending) = (left, Some(numbers));
    }
    Some((rest, line))
}

/// `[1` without a bar line.
fn endings_alone(text: &str) -> Option<(&str, Line)> {
    let (rest, numbers) = bracketed(text)?;
    let line = Line {
        ending: Some(numbers),
        ..Line::default()
    };
    Some((rest, line))
}

fn bracketed(text: &str) -> Option<(&str, Vec<u32>)> {
    numbers_of(text.strip_prefix('[')?)
}

/// `1`, `1,3`, `1-3`.
fn numbers_of(text: &str) -> Option<(&str, Vec<u32>)> {
    /// A repeat is played as many times at most.
    const MOST: u32 = 100;
    let (mut rest, first) = number(text);
    let first = u32::try_from(first?).ok()?.min(MOST);
    let mut numbers = vec![first];
    loop {
        let (between, after) = match rest.as_bytes() {
            [b',', next, ..] if next.is_ascii_digit() => (false, &rest[1..]),
            [b'-', next, ..] if next.is_ascii_digit() => (true, &rest[1..]),
            _ => return Some((rest, numbers)),
        };
        let (left, number) = number(after);
        let to = u32::try_from(number?).ok()?.min(MOST);
        let from = if between {
            numbers[numbers.len() - 1] + 1
        } else {
            to
        };
        if numbers.len() < MOST as usize {
            numbers.extend(from..=to);
        }
        rest = left;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bar_lines_of_every_kind() {
        let line = |times, begins, double, ending: &[u32]| Line {
            times,
            begins,
            double,
            ending: (!ending.is_empty()).then(|| ending.to_vec()),
        };
        for (text, left, wanted) in [
            ("|A", "A", line(None, false, false, &[])),
            ("||A", "A", line(None, false, true, &[])),
            ("|]", "", line(None, false, true, &[])),
            ("[|A", "A", line(None, false, true, &[])),
            ("|:A", "A", line(None, true, false, &[])),
            (":|A", "A", line(Some(2), false, false, &[])),
            ("::A", "A", line(Some(2), true, false, &[])),
            (":|:A", "A", line(Some(2), true, false, &[])),
            (":||:A", "A", line(Some(2), true, true, &[])),
            ("::|A", "A", line(Some(3), false, false, &[])),
            ("|1A", "A", line(None, false, false, &[1])),
            (":|2A", "A", line(Some(2), false, false, &[2])),
            ("[1,3A", "A", line(None, false, false, &[1, 3])),
            ("| [1-3 A", " A", line(None, false, false, &[1, 2, 3])),
            (".|A", "A", line(None, false, false, &[])),
        ] {
            assert_eq!(read(text), Some((left, wanted)), "{text}");
        }
        for text in ["A", "[CE]", "[K:G]", ":", ".A", "]"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
