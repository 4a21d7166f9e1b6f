//! What an instrument is: its tubes, its compass, its part, its air.

use super::{family::Family, tube::Tube, tubes::TubeLength};
use crate::music::{Clef, SoundingPitch, WrittenPitch};
use crate::words::{Language, Words, say, tell};

/// A brass instrument with the part that is read on it.
#[derive(Debug)]
pub struct Instrument {
    /// Its name in a routine file.
    pub name: &'static str,
    /// Other accepted spellings of the name.
    pub also: &'static [&'static str],
    /// What it sounds like.
    pub family: Family,
    /// Half steps from written to sounding pitch.
    pub transposition: i32,
    /// The clef of its part.
    pub clef: Clef,
    /// How its tubes are made.
    pub mechanism: Mechanism,
    /// Its tubes, the open horn first. Of two that sound a note the one that comes first is the usual one.
    pub tubes: &'static [TubeLength],
    /// Notes whose usual tube is another one.
    pub usual: &'static [(WrittenPitch, Tube)],
    /// The lowest written note above the pedal tones.
    pub lowest: WrittenPitch,
    /// The highest written note that leadpipe supports.
    pub highest: WrittenPitch,
    /// How many pedal tones (first partials) it has, from that of the open horn down.
    pub pedals: i32,
    /// Written pitch of the second partial of the open horn.
    pub second_partial: WrittenPitch,
    /// The highest partial that leadpipe supports.
    pub highest_partial: u8,
    /// The highest note that is comfortable at each level, with its partial, where it is not what other instruments have.
    pub ladder: Option<&'static [(WrittenPitch, u8); 5]>,
    /// Combinations so sharp that the player pulls the third slide for them. Common practice, without a source.
    pub slide_out: &'static [Tube],
    /// How much more air it takes than a trumpet at the same dynamic.
    pub air: f64,
    /// The instrument in MusicXML's list of standard sounds.
    pub sound: &'static str,
    /// Its program in General MIDI, counted from 1.
    pub midi_program: u8,
}

/// How tubes are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mechanism {
    /// So many valves, perhaps a thumb valve as well.
    Valves {
        /// 3 or 4.
        count: u8,
        /// True for a double horn.
        thumb: bool,
    },
    /// A slide.
    Slide {
        /// True if it has an F attachment.
        attachment: bool,
    },
}

impl Instrument {
    /// The open horn, or the slide's first position.
    pub fn open(&self) -> Tube {
        self.tubes[0].0
    }

    /// Its tubes, the open horn first.
    pub fn tubes(&self) -> impl Iterator<Item = Tube> {
        self.tubes.iter().map(|(tube, _)| *tube)
    }

    /// One tube for each length, shortest first: what a line walks through. Neither a thumb nor a raised slide, nor what is
    /// longer than the tritone that every instrument has.
    pub fn lengths(&self) -> impl Iterator<Item = Tube> {
        const LONGEST: i32 = 6;
        (0..=LONGEST).filter_map(|half_steps| self.of_length(half_steps))
    }

    /// The usual tube that lowers the open horn by so many half steps.
    pub fn of_length(&self, half_steps: i32) -> Option<Tube> {
        let mut plain = self
            .tubes
            .iter()
            .filter(|(tube, _)| !tube.has_thumb() && !tube.is_raised());
        plain
            .find(|(_, of)| *of == half_steps)
            .map(|(tube, _)| *tube)
    }

    /// Its name in a language.
    pub fn name_in(&self, language: Language) -> String {
        say::instrument(language, self.name, self.name.replace(' ', "-"))
    }

    /// How one plays with this tube, in a sentence: "on 1-2", "on 0", "in position 4".
    pub fn with(&self, language: Language, tube: Tube) -> String {
        match self.mechanism {
            Mechanism::Valves { .. } => say::on_valves(language, tube.to_string()),
            Mechanism::Slide { .. } => say::in_position(language, tube.to_string()),
        }
    }

    /// Its name, for a teacher.
    pub fn named_in_words(&self) -> Words {
        Words::of(|language| self.name_in(language))
    }

    /// How one plays with this tube, for a teacher.
    pub fn with_tube(&self, tube: Tube) -> Words {
        Words::of(|language| self.with(language, tube))
    }

    /// The same with the open horn by its name: "on the open horn", "in position 1".
    pub fn on_tube(&self, language: Language, tube: Tube) -> String {
        match self.mechanism {
            Mechanism::Valves { .. } if tube.is_open() => {
                say::on_the_open_horn(language).to_owned()
            }
            _ => self.with(language, tube),
        }
    }

    /// The tube of its open notes by name: "the open horn", "the first position".
    pub fn open_word(&self) -> &'static str {
        match self.mechanism {
            Mechanism::Valves { .. } => "the open horn",
            Mechanism::Slide { .. } => "the first position",
        }
    }

    /// What its tubes are called: "tube", "position".
    pub fn tube_word(&self) -> &'static str {
        match self.mechanism {
            Mechanism::Valves { .. } => "tube",
            Mechanism::Slide { .. } => "position",
        }
    }

    /// How its tubes are written.
    pub fn writing(&self) -> Words {
        match self.mechanism {
            Mechanism::Valves { count: 4, .. } => tell::writes_four_valves(),
            Mechanism::Valves { thumb: true, .. } => tell::writes_thumb_valve(),
            Mechanism::Valves { .. } => tell::writes_valves(),
            Mechanism::Slide { attachment: true } => tell::writes_attachment(),
            Mechanism::Slide { .. } => tell::writes_positions(),
        }
    }

    /// True if it has this tube.
    pub fn has(&self, tube: Tube) -> bool {
        self.tubes.iter().any(|(own, _)| *own == tube)
    }

    /// By how many half steps this tube lowers the horn; 0 for a tube that it does not have, which a reader refuses.
    pub fn tube_half_steps(&self, tube: Tube) -> i32 {
        let found = self.tubes.iter().find(|(own, _)| *own == tube);
        found.map_or(0, |(_, half_steps)| *half_steps)
    }

    /// True for a written pitch between the lowest and the highest note, and for a pedal tone.
    pub fn can_reach(&self, written: WrittenPitch) -> bool {
        (self.lowest.number()..=self.highest.number()).contains(&written.number())
            || self.is_pedal(written)
    }

    /// True for a pedal tone of this instrument.
    pub fn is_pedal(&self, written: WrittenPitch) -> bool {
        self.pedal_tones()
            .is_some_and(|(open, last)| (last.number()..=open.number()).contains(&written.number()))
    }

    /// The highest and the lowest pedal tone; `None` for an instrument whose first partials are not played.
    pub fn pedal_tones(&self) -> Option<(WrittenPitch, WrittenPitch)> {
        let open = self.second_partial.by_octaves(-1);
        (self.pedals > 0).then(|| (open, open.moved(1 - self.pedals)))
    }

    /// The sounding pitch of a written one.
    pub fn sounding(&self, written: WrittenPitch) -> SoundingPitch {
        written.sounding(self.transposition)
    }

    /// True if the player pulls the third slide for this combination.
    pub fn slide_goes_out(&self, tube: Tube) -> bool {
        self.slide_out.contains(&tube)
    }

    /// True for a slide instead of valves.
    pub fn has_slide(&self) -> bool {
        matches!(self.mechanism, Mechanism::Slide { .. })
    }
}

/// Instruments are told apart by their names, which no two share.
impl PartialEq for Instrument {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Eq for Instrument {}

impl std::hash::Hash for Instrument {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.name.hash(state);
    }
}
