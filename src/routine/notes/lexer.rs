//! Cuts the text of a line into tokens.

use std::ops::Range;

/// A token of the text and its place in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token<'t> {
    /// The kind of token.
    pub kind: TokenKind<'t>,
    /// Bytes of the text.
    pub range: Range<usize>,
}

/// Kinds of token.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TokenKind<'t> {
    /// `G4:half`, `mf`, `breath`
    Word(&'t str),
    /// `slur(`, or any other word right before an opening bracket; empty for a bare `(`.
    Open(&'t str),
    /// `)`
    Close,
    /// `(bend)`: the word inside.
    Mark(&'t str),
    /// `[1-2]`: the text inside.
    Fingering(&'t str),
    /// `|`
    Bar,
    /// `,` or `;`
    Comma,
    /// A `[` without its `]`, or a lone `]`.
    Stray,
}

/// Cuts `text` into tokens. Every byte that is not a space is in exactly one of them.
pub fn tokens(text: &str) -> Vec<Token<'_>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        if c.is_whitespace() {
            at += c.len_utf8();
            continue;
        }
        let (kind, length) = next(&text[at..], c);
        found.push(Token {
            kind,
            range: at..at + length,
        });
        at += length;
    }
    found
}

/// The token at the start of `rest`, whose first character is `first`, and its length in bytes.
fn next(rest: &str, first: char) -> (TokenKind<'_>, usize) {
    match first {
        '|' => (TokenKind::Bar, 1),
        ',' | ';' => (TokenKind::Comma, 1),
        ')' => (TokenKind::Close, 1),
        ']' => (TokenKind::Stray, 1),
        '[' => match rest[1..].find(['[', ']', '(', ')', '|']) {
            Some(end) if rest.as_bytes()[end + 1] == b']' => {
                (TokenKind::Fingering(&rest[1..=end]), end + 2)
            }
            _ => (TokenKind::Stray, 1),
        },
        '(' => mark(rest).unwrap_or((TokenKind::Open(""), 1)),
        _ => word(rest),
    }
}

/// `(word)` with only letters inside, or with only the signs of other notations: `(>)`, `(1-2)`.
fn mark(rest: &str) -> Option<(TokenKind<'_>, usize)> {
    let letter = |c: char| c.is_alphabetic() || c == ' ' || c == '-';
    let sign = |c: char| "<>^.-_~*'!+0123 ".contains(c);
    let end = 1 + rest[1..].find(|c| !(letter(c) || sign(c)))?;
    let word = rest[1..end].trim();
    let of_one_kind = word.chars().all(letter) || word.chars().all(sign);
    (rest[end..].starts_with(')') && !word.is_empty() && of_one_kind)
        .then_some((TokenKind::Mark(word), end + 1))
}

fn word(rest: &str) -> (TokenKind<'_>, usize) {
    let ends = |c: char| c.is_whitespace() || "()[]|,;".contains(c);
    let length = rest.find(ends).unwrap_or(rest.len());
    let word = &rest[..length];
    // `slur(` opens a group; `G4:half(bend)` is a note and its mark, and so is `C4(bend)`.
    let opens = rest[length..].starts_with('(')
        && word.chars().all(char::is_alphabetic)
        && mark(&rest[length..]).is_none_or(|_| matches!(word, "slur" | "triplet"));
    if opens {
        (TokenKind::Open(word), length + 1)
    } else {
        (TokenKind::Word(word), length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(text: &str) -> Vec<TokenKind<'_>> {
        tokens(text).into_iter().map(|t| t.kind).collect()
    }

    #[test]
    fn spans_notes_and_marks_are_told_apart() {
        use TokenKind::{Bar, Close, Fingering, Mark, Open, Word};
        assert_eq!(
            kinds("mf slur(G4:half [1-3] F#4:half(bend) | tie:half )"),
            [
                Word("mf"),
                Open("slur"),
                Word("G4:half"),
                Fingering("1-3"),
                Word("F#4:half"),
                Mark("bend"),
                Bar,
                Word("tie:half"),
                Close
            ]
        );
    }

    #[test]
    fn nothing_that_is_not_blank_is_lost() {
        for text in [
            "[1-2", "]", "((", "a(b", "(a b)", "[|]", "x,y;z", "[]", "slur(a)",
        ] {
            let mut covered = 0;
            for token in tokens(text) {
                assert!(token.range.start >= covered);
                assert!(text[covered..token.range.start].trim().is_empty());
                covered = token.range.end;
            }
            assert!(text[covered..].trim().is_empty(), "{text}");
        }
    }
}
