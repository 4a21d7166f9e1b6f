//! A class as its teacher lists it.

use crate::brass::AgeBand;
use crate::music::WrittenPitch;
use crate::routine::{Guide, Span};
use crate::score::TakeTempo;

/// A class.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassList {
    /// What it is called.
    pub title: Option<String>,
    /// The players in order.
    pub players: Vec<Listed>,
}

/// An entry of the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Listed {
    /// A player; no two have the same name.
    Player(Player),
    /// A player whose entry has faults.
    NotUnderstood(NotUnderstood),
}

/// What is understood of an entry with faults.
#[derive(Clone, Debug, PartialEq)]
pub struct NotUnderstood {
    /// Nickname.
    pub name: Option<String>,
    /// A built-in routine or a file.
    pub routine: Option<Named>,
    /// A file.
    pub pencil: Option<Named>,
}

/// Something that a list names: a routine, a pencil.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// As it is written.
    pub name: String,
    /// Where it stands.
    pub span: Span,
}

/// One player.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    /// Nickname.
    pub name: String,
    /// Where it stands.
    pub span: Span,
    /// A built-in routine or a file.
    pub routine: Named,
    /// A file.
    pub pencil: Option<Named>,
    /// Tempos, at least one.
    pub tempos: Vec<TakeTempo>,
    /// Keys, at least one.
    pub keys: Vec<i32>,
    /// Guide modes, at least one.
    pub guides: Vec<Guide>,
    /// Whose breath it is.
    pub age: Option<AgeBand>,
    /// The highest open note played with ease.
    pub comfortable_top: Option<WrittenPitch>,
}
