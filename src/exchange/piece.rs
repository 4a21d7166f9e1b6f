//! Music as a file contains it: bars with notes, and what is written around them. Both readers return this;
//! [`adopt`](mod@super::adopt) decides what becomes of it.

use crate::music::{Dynamic, Key, Whole, WrittenPitch};
use crate::problem::Problem;
use crate::routine::{Attack, Style};
use num_rational::Ratio;
use std::borrow::Cow;

/// Words that leadpipe writes into a file and recognises when it reads one.
pub mod words {
    /// Name of the field for the highest open note played with ease.
    pub const COMFORTABLE_TOP: &str = "comfortable top";
    /// Name of the field for the highest note the routine stretches to.
    pub const REACH: &str = "reach";
    /// Name of the field for the purpose of the routine.
    pub const PURPOSE: &str = "purpose";
    /// Start of the text over a line that gives its purpose.
    pub const FOR: &str = "For: ";
    /// Text over bars of rest; a length may follow.
    pub const REST: &str = "rest";
    /// Text over the bars in which the pupil answers.
    pub const TURN: &str = "your turn";
    /// Text over a line that is listened to first.
    pub const ECHO: &str = "listen first, then play";
    /// Text over a line that is buzzed.
    pub const MOUTHPIECE: &str = "mouthpiece alone";
    /// Text at the end of a line that has no rest after it.
    pub const GO_ON: &str = "go on without a rest";
}

/// A piece for one player.
#[derive(Clone, Debug, Default)]
pub struct ImportedPiece {
    /// Its title.
    pub title: Option<String>,
    /// The name of the part.
    pub part: Option<String>,
    /// How its pitches are to be read.
    pub pitches: Pitches,
    /// The fields that leadpipe writes into the head of its own files: name and value.
    pub fields: Vec<(String, String)>,
    /// Its measures in order.
    pub measures: Vec<Measure>,
    /// What the reader could not keep.
    pub losses: Vec<Loss>,
    /// What this kind of file cannot hold at all, in a sentence.
    pub limits: Option<&'static str>,
    /// True if a rest in the file is measured in seconds, not in bars.
    pub rests_by_clock: bool,
    /// True if the file has no names of notes, only their numbers, and no key to name them by.
    pub unspelt: bool,
}

/// How the pitches of a piece are to be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Pitches {
    /// As written; the file does not say how they sound.
    #[default]
    Read,
    /// As written for an instrument that sounds so many half steps away.
    For(i32),
    /// As they sound.
    Concert,
}

/// Something that is not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loss {
    /// Index of the measure; `None` if it is not about one measure.
    pub measure: Option<usize>,
    /// What is lost, in words.
    pub what: Cow<'static, str>,
}

/// A bar of the file, or a section between two of its bar lines.
#[derive(Clone, Debug, Default)]
pub struct Measure {
    /// Its printed number.
    pub label: String,
    /// A meter that begins here.
    pub meter: Option<MeterSign>,
    /// A key that begins here.
    pub key: Option<KeySign>,
    /// How long it is.
    pub length: Whole,
    /// Notes and rests in order, without gaps.
    pub symbols: Vec<MeasureSymbol>,
    /// The marks around them, in order of time.
    pub marks: Vec<MeasureMark>,
    /// True if a new system begins here.
    pub new_system: bool,
    /// True if a section begins here: a double bar precedes it.
    pub double_before: bool,
    /// True if a double bar follows it.
    pub double_after: bool,
    /// How it is repeated.
    pub repeat: Repeat,
}

/// Repeats and jumps at a measure.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Repeat {
    /// A repeat begins here.
    pub begins: bool,
    /// The repeat ends here; it is played so many times in all.
    pub times: Option<u32>,
    /// An ending begins here: the numbers under its bracket.
    pub ending: Option<Vec<u32>>,
    /// An ending is over.
    pub ending_over: bool,
    /// The numbers under the bracket of the ending that is over, if they stand at its end.
    pub over: Vec<u32>,
    /// *Da capo*.
    pub da_capo: bool,
    /// *Dal segno*.
    pub dal_segno: bool,
    /// The sign to jump back to.
    pub segno: bool,
    /// Jump to the coda here, once a jump back has been made.
    pub to_coda: bool,
    /// The coda begins here.
    pub coda: bool,
    /// The sign of the coda stands after the first note of the bar.
    pub coda_late: bool,
    /// *Fine*.
    pub fine: bool,
}

/// A meter as it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeterSign {
    /// So many of a note value.
    Of(u32, u32),
    /// No meter.
    Free,
}

/// A key signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeySign {
    /// Of this key; where a file says neither major nor minor, it is major.
    In(Key),
    /// Without sharps or flats, and of no key that the file names.
    Unnamed,
}

/// A note or rest with its own value.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureSymbol {
    /// From the start of the measure.
    pub at: Whole,
    /// How long it lasts.
    pub length: Whole,
    /// What it is.
    pub what: SymbolKind,
    /// Tied from the one before.
    pub tied_from: bool,
    /// Tied to the next one.
    pub tied_on: bool,
    /// Numbers of slurs that begin at it.
    pub slurs_begin: Vec<u8>,
    /// Numbers of slurs that end at it.
    pub slurs_end: Vec<u8>,
    /// How it is held.
    pub style: Option<Style>,
    /// How it starts.
    pub attack: Attack,
    /// Lipped down from the note before.
    pub bend: bool,
    /// A breath after it.
    pub breath: bool,
    /// Its fingering as written.
    pub fingering: Option<String>,
    /// One of leadpipe's own words, written under it.
    pub syllable: Option<String>,
}

impl MeasureSymbol {
    /// A symbol without slurs, marks or fingering.
    pub fn plain(at: Whole, length: Whole, what: SymbolKind) -> Self {
        Self {
            at,
            length,
            what,
            tied_from: false,
            tied_on: false,
            slurs_begin: vec![],
            slurs_end: vec![],
            style: None,
            attack: Attack::Tongue,
            bend: false,
            breath: false,
            fingering: None,
            syllable: None,
        }
    }
}

/// What a symbol is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SymbolKind {
    /// A note.
    Note(WrittenPitch),
    /// A note without pitch.
    Unpitched,
    /// Silence.
    Rest,
}

/// A mark at a moment of a measure.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureMark {
    /// From the start of the measure.
    pub at: Whole,
    /// What the mark is.
    pub kind: MarkKind,
}

/// Kinds of mark.
#[derive(Clone, Debug, PartialEq)]
pub enum MarkKind {
    /// The name of what begins here.
    Name(String),
    /// Words.
    Words(String),
    /// Quarters per minute.
    Tempo(Ratio<i128>),
    /// A dynamic.
    Dynamic(Dynamic),
    /// A wedge, or the word for one: louder or softer from here.
    Wedge(bool),
    /// The wedge ends.
    WedgeOver,
}

/// The most notes, rests and marks of a player, with repeats written out: several times what a routine can hold.
pub(super) const MOST_SIGNS: usize = 100_000;

/// Says that there are more of them.
pub(super) fn too_many_signs() -> Problem {
    Problem::error("it has more than 100,000 notes and signs, which no warm-up needs")
        .hint("export a part of it")
}

/// Moments of a file are rounded to this fraction of a whole note. Halves down to a hundred and twenty-eighth,
/// groups of 3, 5, 7, 11 and 13 of them, groups of 5 in groups of 5, and groups of 3 in one another three deep are
/// exact. On one grid no sum of lengths can overflow 64 bits, whatever a file contains.
const GRID: i64 = 128 * 27 * 25 * 7 * 11 * 13;

/// The longest length that is accepted from a file, in whole notes.
const LONGEST: i64 = 4096;

/// `numerator / denominator` whole notes on the grid; `None` if that is not a length.
pub(super) fn on_grid(numerator: i128, denominator: i128) -> Option<Whole> {
    if denominator <= 0 || numerator.abs() > denominator.checked_mul(i128::from(LONGEST))? {
        return None;
    }
    // Rounds halves up.
    let twice = denominator.checked_mul(2)?;
    let scaled = numerator.checked_mul(2 * i128::from(GRID))?;
    let ticks = scaled.checked_add(denominator)?.div_euclid(twice);
    Some(Whole::new(i64::try_from(ticks).ok()?, GRID))
}
