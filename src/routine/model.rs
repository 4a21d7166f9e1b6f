//! A routine as its teacher wrote it.

use super::fault::Span;
use super::melody::Melody;
use super::notes::Phrase;
use super::skill::Skill;
use crate::brass::{AgeBand, Instrument, Tube};
use crate::music::{Decimal, Key, Meter, NoteNames, Tempo, WrittenPitch};
use crate::words::{Language, Words, say, tell};
use std::fmt;

/// A whole routine.
#[derive(Clone, Debug, PartialEq)]
pub struct Routine {
    /// Its title.
    pub title: String,
    /// Its purpose, in a sentence.
    pub purpose: Option<String>,
    /// The language its texts are in, a tag of BCP 47, if it is said.
    pub language: Option<String>,
    /// The language of the words that are added for the player: that of the texts, where leadpipe speaks it, or the
    /// player's own.
    pub words_in: Language,
    /// The names that notes are shown in: those of the file, or the player's own.
    pub names: NoteNames,
    /// The instrument.
    pub instrument: &'static Instrument,
    /// The highest open note played with ease, as written.
    pub comfortable_top: WrittenPitch,
    /// The highest note it stretches to, as written.
    pub reach: Option<WrittenPitch>,
    /// The youngest player it is meant for: whose breath it must suit.
    pub age: Option<AgeBand>,
    /// What it trains.
    pub skills: Vec<Skill>,
    /// Base tempo.
    pub tempo: Tempo,
    /// Meter of lines without their own.
    pub meter: Meter,
    /// Key of lines without their own, as written.
    pub key: Option<Key>,
    /// How slurs are played on a slide in lines without their own word.
    pub legato: SlideLegato,
    /// The lines, at least one.
    pub lines: Vec<Line>,
    /// The player's own words for the sheet; only a pencil has some.
    pub words: Option<String>,
    /// Places of the entries of the head.
    pub spans: HeadSpans,
}

/// Where the entries of the head are in the file.
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
    /// Its purpose.
    pub purpose: Option<String>,
    /// One sentence on how to play it.
    pub say: Option<String>,
    /// Instrument, mouthpiece or air.
    pub on: On,
    /// The notes as written, with every token's place.
    pub phrase: Phrase,
    /// The notes as understood.
    pub melody: Melody,
    /// What changes from pass to pass.
    pub walk: Walk,
    /// How many times each half step or tube is played, 1–100.
    pub times: u32,
    /// The articulation of each pass.
    pub articulations: Vec<Articulation>,
    /// Rest from one pass to the next.
    pub between: RestLength,
    /// Rest after the line.
    pub rest: RestLength,
    /// The part of `between` that is kept, in percent; only a pencil makes it other than 100.
    pub between_part: Decimal,
    /// The part of `rest` that is kept, in percent; only a pencil makes it other than 100.
    pub rest_part: Decimal,
    /// Own tempos: the line is played once at each. Empty where the routine's holds.
    pub tempos: Vec<Tempo>,
    /// Own meter.
    pub meter: Option<Meter>,
    /// Own key, as written.
    pub key: Option<Key>,
    /// Own way of slurring on a slide.
    pub legato: Option<SlideLegato>,
    /// Bars of count-in.
    pub count_in: Option<u32>,
    /// Where the click is heard.
    pub click: ClickMode,
    /// Own guide mode.
    pub guide: Option<Guide>,
    /// What the drone plays.
    pub drone: Drone,
    /// The line's key note, as written.
    pub tonic: Option<WrittenPitch>,
    /// The player's own words for the sheet; only a pencil has some.
    pub words: Option<String>,
    /// The place of its name, or of its header if it has none.
    pub span: Span,
    /// The place of its notes.
    pub notes_span: Span,
    /// The place of its rest.
    pub rest_span: Option<Span>,
    /// The places of its half steps or tubes.
    pub walk_spans: Vec<Span>,
}

impl Line {
    /// The meter of this line in its routine.
    pub fn meter_in(&self, routine: &Routine) -> Meter {
        self.meter.unwrap_or(routine.meter)
    }

    /// The key of this line in its routine. Breathing and resting have none.
    pub fn key_in(&self, routine: &Routine) -> Option<Key> {
        let key = self.key.or(routine.key);
        key.filter(|_| self.on.has_pitches())
    }

    /// How it is slurred on a slide in its routine.
    pub fn legato_in(&self, routine: &Routine) -> SlideLegato {
        self.legato.unwrap_or(routine.legato)
    }

    /// Its tempos in its routine, at least one.
    pub fn tempos_in(&self, routine: &Routine) -> Vec<Tempo> {
        if self.tempos.is_empty() {
            vec![routine.tempo]
        } else {
            self.tempos.clone()
        }
    }

    /// True if one of its notes has a written fingering.
    pub fn has_fingerings(&self) -> bool {
        self.melody.events.iter().any(|e| e.tube.is_some())
    }
}

/// Where a slur on a slide is tongued. It means nothing on valves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum SlideLegato {
    /// Only where it would smear.
    #[default]
    Natural,
    /// At every note but those on the lips alone.
    Always,
}

impl SlideLegato {
    /// The words in a routine file.
    pub const WORDS: [(&'static str, SlideLegato); 2] = [
        ("natural", SlideLegato::Natural),
        ("always", SlideLegato::Always),
    ];
}

/// What a line is played on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum On {
    /// The instrument.
    Horn,
    /// The mouthpiece alone: pitches without fingerings or partials.
    Mouthpiece,
    /// Breathing in and out, without the instrument.
    Air,
    /// Nothing: the player rests and counts while others play.
    Rest,
}

impl On {
    /// The words in a routine file.
    pub const WORDS: [(&'static str, On); 4] = [
        ("horn", On::Horn),
        ("mouthpiece", On::Mouthpiece),
        ("air", On::Air),
        ("rest", On::Rest),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            On::Horn => "horn",
            On::Mouthpiece => "mouthpiece",
            On::Air => "air",
            On::Rest => "rest",
        }
    }

    /// Whether its lines have notes with pitches.
    pub fn has_pitches(self) -> bool {
        matches!(self, On::Horn | On::Mouthpiece)
    }

    /// What a line of this kind is called.
    pub(crate) fn line_in_words(self) -> Words {
        match self {
            On::Horn => tell::a_line_on_the_horn(),
            On::Mouthpiece => tell::a_mouthpiece_line(),
            On::Air => tell::a_breathing_line(),
            On::Rest => tell::a_line_of_rest(),
        }
    }
}

/// What changes from pass to pass; never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Walk {
    /// Half steps that the line is moved by; `[0]` by default.
    HalfSteps(Vec<i32>),
    /// The tubes that the line, written for the open horn, is played on.
    Tubes(Vec<Tube>),
}

/// How the notes of a pass are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Articulation {
    /// As the slurs say.
    AsWritten,
    /// Everything slurred, except across rests, breaths and repeated pitches.
    Slurred,
    /// Everything tongued, except bends.
    Tongued,
}

impl Articulation {
    /// The words in a routine file.
    pub const WORDS: [(&'static str, Articulation); 3] = [
        ("as written", Articulation::AsWritten),
        ("slurred", Articulation::Slurred),
        ("tongued", Articulation::Tongued),
    ];

    /// Its word, in a routine file and everywhere else.
    pub fn word(self) -> &'static str {
        match self {
            Articulation::AsWritten => "as written",
            Articulation::Slurred => "slurred",
            Articulation::Tongued => "tongued",
        }
    }

    /// The same in a language.
    pub fn in_words(self, language: Language) -> String {
        say::articulation(language, self.word())
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
    /// A full rest, in percent.
    pub const WHOLE: Decimal = Decimal::from_integer(100);

    /// True unless the rest is empty.
    pub fn is_some(self) -> bool {
        match self {
            RestLength::None => false,
            RestLength::Same => true,
            RestLength::Bars(d) | RestLength::Beats(d) | RestLength::Seconds(d) => d.is_positive(),
        }
    }
}

/// Where the click is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ClickMode {
    /// On every beat of the line.
    All,
    /// In the count-in, and for the same length at the end of each rest between passes.
    CountIn,
}

/// What the guide tone does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Guide {
    /// Sounds while the pupil plays.
    Together,
    /// Plays a pass, then leaves the same time silent.
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

/// What the drone plays.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Drone {
    /// The key note of the pass.
    Tonic,
    /// The key note and the fifth above it.
    TonicAndFifth,
    /// A concert pitch, the same in every pass.
    Pitch(WrittenPitch),
    /// Nothing.
    Off,
}
