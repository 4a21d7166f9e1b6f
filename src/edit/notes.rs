//! The notes of a line as signs with their places.

use super::structure::Structure;
use crate::problem::Problem;
use crate::routine::notes::lexer::{Token, TokenKind, tokens};
use crate::routine::source::PlacedText;
use std::ops::Range;

/// A note, rest, tie, breath in or out, or hold.
#[derive(Clone, Debug)]
pub struct Sign {
    /// Its token among the tokens.
    pub token: usize,
    /// Behind the last token of its marks and fingering.
    pub behind: usize,
    /// The slurs and triplets that it is in, outermost first: the tokens that open them.
    pub groups: Vec<usize>,
}

/// The notes of a line.
pub struct Notes {
    pub placed: PlacedText,
    pub kinds: Vec<(Range<usize>, Kind)>,
    pub signs: Vec<Sign>,
    /// The closing token of each opening one.
    pub closes: Vec<(usize, usize)>,
    /// True if the line gives a length to all signs without their own.
    pub has_each: bool,
}

/// What a token is, as far as an edit cares.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    Word,
    Open(String),
    Close,
    Mark(String),
    Fingering,
    Bar,
    Other,
}

impl Notes {
    /// The notes of a line.
    pub fn of(structure: &Structure<'_>, line: usize) -> Result<Self, Problem> {
        let table = structure.table(Some(line))?;
        let value = table.get("notes").or_else(|| table.get("open"));
        let value = value.filter(|value| value.get_ref().is_str());
        let value = value.ok_or_else(|| {
            Problem::error(format!("line {} has no notes", line + 1))
                .hint("give it notes = \"G4:half G4:half\" first")
        })?;
        let placed = PlacedText::decode(structure.text, value.span());
        let mut notes = Self {
            kinds: tokens(&placed.text).iter().map(kind).collect(),
            placed,
            signs: vec![],
            closes: vec![],
            has_each: table.contains_key("each"),
        };
        notes.find_signs();
        Ok(notes)
    }

    fn find_signs(&mut self) {
        let mut open: Vec<usize> = vec![];
        for (token, (range, kind)) in self.kinds.iter().enumerate() {
            match kind {
                Kind::Open(_) => open.push(token),
                Kind::Close => {
                    if let Some(opened) = open.pop() {
                        self.closes.push((opened, token));
                    }
                }
                Kind::Word if is_sign(&self.placed.text[range.clone()]) => self.signs.push(Sign {
                    token,
                    behind: token + 1,
                    groups: open.clone(),
                }),
                Kind::Mark(_) | Kind::Fingering => {
                    if let Some(sign) = self.signs.last_mut().filter(|s| s.behind == token) {
                        sign.behind = token + 1;
                    }
                }
                Kind::Word | Kind::Bar | Kind::Other => {}
            }
        }
    }

    /// The word of a sign.
    pub fn word(&self, sign: usize) -> &str {
        &self.placed.text[self.kinds[self.signs[sign].token].0.clone()]
    }

    /// The word of a sign without its length.
    pub fn head(&self, sign: usize) -> &str {
        let word = self.word(sign);
        word.split_once(':').map_or(word, |(head, _)| head)
    }

    /// The length of a sign, if it is written at it.
    pub fn own_length(&self, sign: usize) -> Option<&str> {
        self.word(sign).split_once(':').map(|(_, length)| length)
    }

    /// The length that a sign without its own takes over from one before it.
    pub fn carried_length(&self, sign: usize) -> Option<&str> {
        let before = (0..sign).rev().filter(|sign| self.head(*sign) != "tie");
        let mut lengths = before.filter_map(|sign| self.own_length(sign));
        lengths.next()
    }

    /// The text of a token.
    pub fn text(&self, token: usize) -> &str {
        &self.placed.text[self.kinds[token].0.clone()]
    }

    /// The place of a token in the file.
    pub fn place(&self, token: usize) -> Range<usize> {
        let span = self.placed.span(self.kinds[token].0.clone());
        span.start..span.end
    }

    /// The place of the word of a sign in the file.
    pub fn word_place(&self, sign: usize) -> Range<usize> {
        self.place(self.signs[sign].token)
    }

    /// The place of a sign in the file, with its marks.
    pub fn sign_place(&self, sign: usize) -> Range<usize> {
        let behind = self.signs[sign].behind;
        self.word_place(sign).start..self.place(behind - 1).end
    }

    /// Signs from `first` to `last`, if they are there.
    pub fn selected(&self, first: usize, last: usize) -> Result<Range<usize>, Problem> {
        if first <= last && last < self.signs.len() {
            return Ok(first..last + 1);
        }
        let count = self.signs.len();
        Err(Problem::error("there is no such note in this line")
            .hint(format!("its notes and rests are counted from 1 to {count}")))
    }
}

fn kind(token: &Token<'_>) -> (Range<usize>, Kind) {
    let kind = match token.kind {
        TokenKind::Word(_) => Kind::Word,
        TokenKind::Open(word) => Kind::Open(word.to_owned()),
        TokenKind::Close => Kind::Close,
        TokenKind::Mark(word) => Kind::Mark(word.to_owned()),
        TokenKind::Fingering(_) => Kind::Fingering,
        TokenKind::Bar => Kind::Bar,
        TokenKind::Comma | TokenKind::Stray => Kind::Other,
    };
    (token.range.clone(), kind)
}

/// True for a word that has a length, whether or not it is written.
fn is_sign(word: &str) -> bool {
    let head = word.split_once(':').map_or(word, |(head, _)| head);
    matches!(head, "rest" | "tie" | "in" | "out" | "hold")
        || crate::music::WrittenPitch::parse(head).is_some()
}
