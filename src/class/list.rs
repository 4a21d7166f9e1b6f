//! A class list.

use crate::brass::{AgeBand, Instrument};
use crate::carry::CarryRule;
use crate::music::{NoteNames, WrittenPitch};
use crate::routine::{Guide, Span};
use crate::score::TakeTempo;
use crate::words::Language;

/// A class.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassList {
    /// Its name.
    pub title: Option<String>,
    /// Its groups in order; no two have the same name.
    pub groups: Vec<Group>,
    /// The players in order.
    pub players: Vec<Listed>,
}

/// Players who have something in common.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Its name.
    pub name: String,
    /// Its place.
    pub span: Span,
    /// The routine of players without their own.
    pub routine: Option<Named>,
    /// Whether its players play their routine together: at one concert pitch and with one clock.
    pub together: bool,
}

/// An entry of the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Listed {
    /// A player; no two have the same name.
    Player(Player),
    /// A player whose entry has faults.
    NotUnderstood(NotUnderstood),
}

/// The parts of a faulty entry that are understood.
#[derive(Clone, Debug, PartialEq)]
pub struct NotUnderstood {
    /// Nickname.
    pub name: Option<String>,
    /// A built-in routine or a file.
    pub routine: Option<Named>,
    /// The path of a pencil file.
    pub pencil: Option<Named>,
}

/// A routine or pencil that a list names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// The name as written.
    pub name: String,
    /// Its place.
    pub span: Span,
}

/// One player.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    /// Nickname.
    pub name: String,
    /// Its place.
    pub span: Span,
    /// The group the player belongs to, as an index of the list's groups.
    pub group: Option<usize>,
    /// A built-in routine or a file.
    pub routine: Named,
    /// The path of a pencil file.
    pub pencil: Option<Named>,
    /// The instrument the routine is carried to; its own where nothing is said.
    pub instrument: Option<&'static Instrument>,
    /// How it is carried.
    pub carry: CarryRule,
    /// Tempos, at least one.
    pub tempos: Vec<TakeTempo>,
    /// Keys, at least one.
    pub keys: Vec<i32>,
    /// Guide modes, at least one.
    pub guides: Vec<Guide>,
    /// The language of the words for the player; that of the routine where nothing is said.
    pub language: Option<Language>,
    /// The names that notes are shown in; those of the routine where nothing is said.
    pub names: Option<NoteNames>,
    /// The breath to check for.
    pub age: Option<AgeBand>,
    /// The highest open note played with ease.
    pub comfortable_top: Option<WrittenPitch>,
}
