//! Text layout for a terminal.

/// The width in columns of wrapped text.
pub const COLUMNS: usize = 80;

/// `text` without control characters, which a terminal would interpret.
pub fn printable(text: &str) -> String {
    text.chars()
        .map(|c| {
            let turns_text_round = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
            if c.is_control() && c != '\n' || turns_text_round {
                '\u{fffd}'
            } else {
                c
            }
        })
        .collect()
}

/// Wraps `text` at blanks to lines of at most [`COLUMNS`] characters, the first after `first`, the others indented as
/// far. Ends with a line end.
pub fn wrapped(first: &str, text: &str) -> String {
    let indent = first.chars().count();
    let mut out = first.to_owned();
    let mut column = indent;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if column > indent && column + 1 + length > COLUMNS {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else if column > indent {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += length;
    }
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_broken_at_blanks_and_indented() {
        let text = wrapped("Why: ", &"word ".repeat(20));
        assert!(text.lines().all(|l| l.chars().count() <= COLUMNS));
        assert!(text.lines().skip(1).all(|l| l.starts_with("     word")));
        assert_eq!(wrapped("", "a b"), "a b\n");
    }

    #[test]
    fn nothing_a_terminal_obeys_is_left() {
        assert_eq!(printable("a\u{1b}[31mb\u{7}"), "a\u{fffd}[31mb\u{fffd}");
    }
}
