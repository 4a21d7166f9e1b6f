//! The note language: tokens separated by spaces, with the musician's whole words.
//!
//! A note or rest without a length has the `each` of its line; without `each`, that of the note or rest before it.

pub mod foreign;
pub mod lexer;
pub mod occurrences;
pub mod parser;
pub mod slips;
pub mod unknown;

use super::fault::Span;
use super::melody::{Attack, Style};
use crate::brass::Tube;
use crate::music::{Dynamic, NoteValue, WrittenPitch};

pub use parser::{NoteContext, parse};

/// The notes of a line as written.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Phrase {
    /// Tokens in order; slurs and triplets hold theirs.
    pub items: Vec<Item>,
}

/// A token with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Its place; for a group from its opening to its closing bracket.
    pub span: Span,
    /// What it is.
    pub kind: ItemKind,
}

/// What a token is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ItemKind {
    /// `G4:half`
    Note(NoteItem),
    /// `rest:quarter`
    Rest(NoteValue),
    /// `tie:half`: the note before lasts that much longer.
    Tie(NoteValue),
    /// `in:whole`
    In(NoteValue),
    /// `out:whole`
    Out(NoteValue),
    /// `hold:half`
    Hold(NoteValue),
    /// `breath`
    Breath,
    /// `|`
    Bar,
    /// `mf`
    Dynamic(Dynamic),
    /// `cresc`
    Cresc,
    /// `dim`
    Dim,
    /// `slur( … )`
    Slur(Vec<Item>),
    /// `triplet( … )`: three in the time of two.
    Triplet(Vec<Item>),
}

/// A note with its marks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoteItem {
    /// Written pitch.
    pub pitch: WrittenPitch,
    /// Written value.
    pub value: NoteValue,
    /// `[1-2]`
    pub tube: Option<Tube>,
    /// `(bend)`
    pub bend: bool,
    /// `(staccato)`, `(legato)`, `(accent)`
    pub style: Option<Style>,
    /// `(air)`, `(ku)`
    pub attack: Attack,
}
