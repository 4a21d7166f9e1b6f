//! Instruments, one row of data each: another instrument is a row, not code.

use super::{family::Family, valves::Valves};
use crate::music::{
    SoundingPitch, WrittenPitch,
    pitch::Letter::{C, F},
};

/// A valved brass instrument.
#[derive(Debug, PartialEq, Eq)]
pub struct Instrument {
    /// Its name in a routine file.
    pub name: &'static str,
    /// Other accepted spellings of the name.
    pub also: &'static [&'static str],
    /// What it sounds like.
    pub family: Family,
    /// Half steps from written to sounding pitch.
    pub transposition: i32,
    /// The lowest written note above the pedal tones.
    pub lowest: WrittenPitch,
    /// The highest written note that leadpipe supports.
    pub highest: WrittenPitch,
    /// Written pitch of the second partial of the open horn.
    pub second_partial: WrittenPitch,
    /// The highest partial that leadpipe supports.
    pub highest_partial: u8,
    /// By how many half steps each valve lowers the horn, first valve first.
    pub valve_half_steps: [i32; 3],
    /// Combinations so sharp that the player pulls the third slide for them. Common practice, without a source.
    pub slide_out: &'static [Valves],
}

const LONG_TUBES: &[Valves] = &[Valves::of(&[1, 3]), Valves::of(&[1, 2, 3])];

/// A three-valved horn read in treble clef; the rows differ in name and transposition.
const TREBLE: Instrument = Instrument {
    name: "",
    also: &[],
    family: Family::Trumpet,
    transposition: 0,
    lowest: WrittenPitch::new(F, 1, 3),
    highest: WrittenPitch::new(C, 0, 6),
    second_partial: WrittenPitch::new(C, 0, 4),
    highest_partial: 8,
    valve_half_steps: [2, 1, 3],
    slide_out: LONG_TUBES,
};

/// Every instrument leadpipe knows.
pub const INSTRUMENTS: &[Instrument] = &[
    Instrument {
        name: "trumpet in B-flat",
        also: &[
            "trumpet",
            "trumpet in Bb",
            "trumpet in B♭",
            "B-flat trumpet",
            "Bb trumpet",
        ],
        transposition: -2,
        ..TREBLE
    },
    Instrument {
        name: "trumpet in C",
        also: &["C trumpet"],
        ..TREBLE
    },
    Instrument {
        name: "cornet",
        also: &[
            "cornet in B-flat",
            "cornet in Bb",
            "cornet in B♭",
            "B-flat cornet",
            "Bb cornet",
        ],
        family: Family::Cornet,
        transposition: -2,
        ..TREBLE
    },
    Instrument {
        name: "flugelhorn",
        also: &[
            "flugelhorn in B-flat",
            "flugelhorn in Bb",
            "flugelhorn in B♭",
            "flügelhorn",
        ],
        family: Family::Flugelhorn,
        transposition: -2,
        ..TREBLE
    },
];

impl Instrument {
    /// The instrument with this name, ignoring case.
    pub fn named(text: &str) -> Option<&'static Instrument> {
        let same = |name: &&str| name.to_lowercase() == text.trim().to_lowercase();
        INSTRUMENTS
            .iter()
            .find(|i| same(&i.name) || i.also.iter().any(same))
    }

    /// By how many half steps these valves lower the horn.
    pub fn tube_half_steps(&self, valves: Valves) -> i32 {
        valves
            .numbers()
            .map(|n| self.valve_half_steps[usize::from(n) - 1])
            .sum()
    }

    /// True for a written pitch between the lowest and the highest note.
    pub fn can_reach(&self, written: WrittenPitch) -> bool {
        (self.lowest.number()..=self.highest.number()).contains(&written.number())
    }

    /// The sounding pitch of a written one.
    pub fn sounding(&self, written: WrittenPitch) -> SoundingPitch {
        written.sounding(self.transposition)
    }

    /// True if the player pulls the third slide for this combination.
    pub fn slide_goes_out(&self, valves: Valves) -> bool {
        self.slide_out.contains(&valves)
    }
}
