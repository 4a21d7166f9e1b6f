//! Music as it stands in somebody's file: bars with notes, and what is written around them. Both readers give
//! this; what becomes of it is decided in [`adopt`](mod@super::adopt).

use crate::music::{Dynamic, Whole, WrittenPitch};
use crate::routine::{Attack, Style};
use num_rational::Ratio;

/// Words that leadpipe writes into a file and knows again when it reads one.
pub mod words {
    /// Name of the field that holds the highest open note played with ease.
    pub const COMFORTABLE_TOP: &str = "comfortable top";
    /// Name of the field that holds the highest note the routine stretches to.
    pub const REACH: &str = "reach";
    /// Name of the field that says what the routine is for.
    pub const PURPOSE: &str = "purpose";
    /// Begins the words over a line that say what it is for.
    pub const FOR: &str = "For: ";
    /// Stands over bars in which nobody plays; a length may follow.
    pub const REST: &str = "rest";
    /// Stands over the bars in which the pupil answers.
    pub const TURN: &str = "your turn";
    /// Stands over a line that is listened to first.
    pub const ECHO: &str = "listen first, then play";
    /// Stands over a line that is buzzed.
    pub const MOUTHPIECE: &str = "mouthpiece alone";
    /// Stands at the end of a line that has no rest after it.
    pub const GO_ON: &str = "go on without a rest";
}

/// A piece for one player.
#[derive(Clone, Debug, Default)]
pub struct Piece {
    /// Its title.
    pub title: Option<String>,
    /// What the part is called.
    pub part: Option<String>,
    /// How its pitches are to be taken.
    pub pitches: Pitches,
    /// What leadpipe has written into the head of its own files: name and value.
    pub fields: Vec<(String, String)>,
    /// Its measures in order.
    pub measures: Vec<Measure>,
    /// What the reader could not take over.
    pub losses: Vec<Loss>,
    /// What the kind of file cannot hold at all, in a sentence.
    pub limits: Option<&'static str>,
    /// True if a rest in the file is measured by the clock, not in bars.
    pub rests_by_clock: bool,
}

/// How the pitches of a piece are to be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Pitches {
    /// As a player reads them; nothing is said of how they sound.
    #[default]
    Read,
    /// As the player of an instrument reads them that sounds so many half steps from what is written.
    For(i32),
    /// As they sound.
    Concert,
}

/// Something that is not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loss {
    /// Index of the measure; none where it is not about one.
    pub measure: Option<usize>,
    /// What becomes of it, in words.
    pub what: String,
}

/// A bar of the file, or what stands between two of its bar lines.
#[derive(Clone, Debug, Default)]
pub struct Measure {
    /// Its number as printed.
    pub label: String,
    /// A meter that begins here.
    pub meter: Option<MeterSign>,
    /// How long it is.
    pub length: Whole,
    /// Notes and rests in order, without gaps.
    pub symbols: Vec<Symbol>,
    /// What stands around them, in order of time.
    pub marks: Vec<Mark>,
    /// True if a new system begins here.
    pub new_system: bool,
    /// True if something new begins here: a double bar stands before it.
    pub double_before: bool,
    /// True if a double bar stands after it.
    pub double_after: bool,
    /// How it is repeated.
    pub repeat: Repeat,
}

/// What a measure says of repeats and jumps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Repeat {
    /// A repeat begins here.
    pub begins: bool,
    /// It is played from the beginning of the repeat so many times in all.
    pub times: Option<u32>,
    /// An ending begins here: the numbers under its bracket.
    pub ending: Option<Vec<u32>>,
    /// An ending is over.
    pub ending_over: bool,
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
    /// *Fine*.
    pub fine: bool,
}

/// A meter as it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeterSign {
    /// So many of a note value.
    Of(u32, u32),
    /// None.
    Free,
}

/// A note or rest with its own value.
#[derive(Clone, Debug, PartialEq)]
pub struct Symbol {
    /// From the start of the measure.
    pub at: Whole,
    /// How long it lasts.
    pub length: Whole,
    /// What it is.
    pub what: What,
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
    /// A word of leadpipe's own under it.
    pub syllable: Option<String>,
}

impl Symbol {
    /// A plain note or rest.
    pub fn plain(at: Whole, length: Whole, what: What) -> Self {
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
pub enum What {
    /// A note.
    Note(WrittenPitch),
    /// A note without pitch.
    Unpitched,
    /// Silence.
    Rest,
}

/// Something that stands at a moment of a measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// From the start of the measure.
    pub at: Whole,
    /// What stands there.
    pub kind: MarkKind,
}

/// What can stand at a moment.
#[derive(Clone, Debug, PartialEq)]
pub enum MarkKind {
    /// The name of what begins here.
    Name(String),
    /// Words.
    Words(String),
    /// Quarters a minute.
    Tempo(Ratio<i128>),
    /// A dynamic.
    Dynamic(Dynamic),
    /// A wedge, or the word for one: louder or softer from here.
    Wedge(bool),
    /// It is over.
    WedgeOver,
}

/// Parts of a whole note that moments of a file are rounded to: lengths in halves down to a hundred and
/// twenty-eighth, and groups of 3, 5, 7, 9 and 11 of them, are exact. On one grid no sum of lengths
/// can outgrow its 64 bits, whatever a file says.
const GRID: i64 = 128 * 9 * 5 * 7 * 11;

/// The longest length that is taken from a file, in whole notes.
const LONGEST: i64 = 4096;

/// `numerator / denominator` whole notes on the grid; none where that is no length.
pub(super) fn on_grid(numerator: i128, denominator: i128) -> Option<Whole> {
    if denominator <= 0 || numerator.abs() > denominator.checked_mul(i128::from(LONGEST))? {
        return None;
    }
    // Halves up.
    let twice = denominator.checked_mul(2)?;
    let scaled = numerator.checked_mul(2 * i128::from(GRID))?;
    let ticks = scaled.checked_add(denominator)?.div_euclid(twice);
    Some(Whole::new(i64::try_from(ticks).ok()?, GRID))
}
