//! A routine as its teacher wrote it.

use super::fault::Span;
use super::melody::Melody;
use super::notes::Phrase;
use crate::brass::{Instrument, Valves};
use crate::music::{Decimal, Meter, Tempo, WrittenPitch};
use std::fmt;

/// A whole routine.
#[derive(Clone, Debug, PartialEq)]
pub struct Routine {
    /// Its title.
    pub title: String,
    /// What it is for, in a sentence.
    pub purpose: Option<String>,
    /// What it is played on.
    pub instrument: &'static Instrument,
    /// The highest open note played with ease, as written.
    pub comfortable_top: WrittenPitch,
    /// The highest note it stretches to, as written.
    pub reach: Option<WrittenPitch>,
    /// Base tempo.
    pub tempo: Tempo,
    /// Meter of lines that name none.
    pub meter: Meter,
    /// The lines, at least one.
    pub lines: Vec<Line>,
    /// The player's own words for the sheet; only a pencil has some.
    pub words: Option<String>,
    /// Places of the head's entries.
    pub spans: HeadSpans,
}

/// Where the head's entries stand in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct HeadSpans {
    pub title: Span,
    pub comfortable_top: Span,
    pub reach: Option<Span>,
    pub tempo: Span,
}

/// One line of a routine.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// What it is for.
    pub purpose: Option<String>,
    /// One sentence on how to play it.
    pub say: Option<String>,
    /// What it is played on.
    pub on: On,
    /// The notes as written, with every token's place.
    pub phrase: Phrase,
    /// The notes as understood.
    pub melody: Melody,
    /// What changes from pass to pass.
    pub walk: Walk,
    /// How often each half step or tube is played, 1–100.
    pub times: u32,
    /// One pass each.
    pub articulations: Vec<Articulation>,
    /// Rest from one pass to the next.
    pub between: RestLength,
    /// Rest after the line.
    pub rest: RestLength,
    /// The part of `between` that is kept, in percent; other than 100 only after a pencil.
    pub between_part: Decimal,
    /// The part of `rest` that is kept, in percent; other than 100 only after a pencil.
    pub rest_part: Decimal,
    /// Own tempo.
    pub tempo: Option<Tempo>,
    /// Own meter.
    pub meter: Option<Meter>,
    /// Bars of count-in.
    pub count_in: Option<u32>,
    /// Where the click sounds.
    pub click: ClickMode,
    /// Own guide mode.
    pub guide: Option<Guide>,
    /// What the drone holds.
    pub drone: Drone,
    /// The line's key note, as written.
    pub tonic: Option<WrittenPitch>,
    /// The player's own words for the sheet; only a pencil has some.
    pub words: Option<String>,
    /// Where its name stands, or its header if it has none.
    pub span: Span,
    /// Where its notes stand.
    pub notes_span: Span,
    /// Where its rest is written.
    pub rest_span: Option<Span>,
    /// Where its half steps or tubes are written, one place each.
    pub walk_spans: Vec<Span>,
}

impl Line {
    /// Meter of this line in its routine.
    pub fn meter_in(&self, routine: &Routine) -> Meter {
        self.meter.unwrap_or(routine.meter)
    }

    /// True if a note of it carries a written fingering.
    pub fn has_fingerings(&self) -> bool {
        self.melody.events.iter().any(|e| e.valves.is_some())
    }
}

/// What a line is played on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum On {
    /// The instrument.
    Horn,
    /// The mouthpiece alone: pitches without fingerings or partials.
    Mouthpiece,
    /// Air alone: breathing in and out.
    Air,
}

impl On {
    /// The words in a routine file.
    pub const WORDS: [(&'static str, On); 3] = [
        ("horn", On::Horn),
        ("mouthpiece", On::Mouthpiece),
        ("air", On::Air),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            On::Horn => "horn",
            On::Mouthpiece => "mouthpiece",
            On::Air => "air",
        }
    }
}

/// What changes from pass to pass. Never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Walk {
    /// The line moved by half steps; `[0]` if nothing is said.
    HalfSteps(Vec<i32>),
    /// The line as on the open horn, moved through these tubes.
    Tubes(Vec<Valves>),
}

/// How the notes of a pass are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Articulation {
    /// As the slurs say.
    AsWritten,
    /// Everything joined, across all but rests, breaths and repeated pitches.
    Slurred,
    /// Nothing joined but bends.
    Tongued,
}

impl Articulation {
    /// The words in a routine file.
    pub const WORDS: [(&'static str, Articulation); 3] = [
        ("as written", Articulation::AsWritten),
        ("slurred", Articulation::Slurred),
        ("tongued", Articulation::Tongued),
    ];

    /// Its word: in a routine file, and wherever it is said.
    pub fn word(self) -> &'static str {
        match self {
            Articulation::AsWritten => "as written",
            Articulation::Slurred => "slurred",
            Articulation::Tongued => "tongued",
        }
    }
}

/// How long a rest is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RestLength {
    /// No rest.
    None,
    /// As long as the pupil has played since the last rest.
    Same,
    /// Bars of the line just played.
    Bars(Decimal),
    /// Clicks of the line just played.
    Beats(Decimal),
    /// Seconds.
    Seconds(Decimal),
}

impl RestLength {
    /// All of a rest, in percent.
    pub const WHOLE: Decimal = Decimal::from_integer(100);

    /// True for a rest longer than nothing.
    pub fn is_some(self) -> bool {
        match self {
            RestLength::None => false,
            RestLength::Same => true,
            RestLength::Bars(d) | RestLength::Beats(d) | RestLength::Seconds(d) => d.is_positive(),
        }
    }
}

/// Where the click sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ClickMode {
    /// On every beat of the line.
    All,
    /// In the count-in, and in the last count-in's worth of each rest between passes.
    CountIn,
}

/// What the guide tone does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Guide {
    /// Sounds while the pupil plays.
    Together,
    /// Plays a pass, then leaves the same time free.
    Echo,
    /// Silent.
    Off,
}

impl Guide {
    /// The words in a routine file and on the command line.
    pub const WORDS: [(&'static str, Guide); 3] = [
        ("together", Guide::Together),
        ("echo", Guide::Echo),
        ("off", Guide::Off),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Guide::Together => "together",
            Guide::Echo => "echo",
            Guide::Off => "off",
        }
    }
}

impl fmt::Display for Guide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// What the drone holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Drone {
    /// The key note of the pass.
    Tonic,
    /// The key note and the fifth above it.
    TonicAndFifth,
    /// A concert pitch, as named, in every pass.
    Pitch(WrittenPitch),
    /// Nothing.
    Off,
}
