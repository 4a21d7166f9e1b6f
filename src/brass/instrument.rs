//! Instruments, one row of data each: another instrument is a row, not code.

use super::valves::Valves;
use crate::music::{
    SoundingPitch, WrittenPitch,
    pitch::Letter::{C, F},
};

/// A valved brass instrument.
#[derive(Debug, PartialEq, Eq)]
pub struct Instrument {
    /// Its name in a routine file.
    pub name: &'static str,
    /// Other spellings of the name that are taken.
    pub also: &'static [&'static str],
    /// Half steps from what is written to what sounds.
    pub transposition: i32,
    /// Lowest written note that is no pedal tone.
    pub lowest: WrittenPitch,
    /// Highest written note the program deals with.
    pub highest: WrittenPitch,
    /// Written pitch of the second partial of the open horn.
    pub second_partial: WrittenPitch,
    /// Highest partial the program deals with.
    pub highest_partial: u8,
    /// Half steps each valve lowers the horn by, first valve first.
    pub valve_half_steps: [i32; 3],
    /// Combinations so sharp that the third slide goes out for them. Common practice, no source.
    pub slide_out: &'static [Valves],
}

const LONG_TUBES: &[Valves] = &[Valves::of(&[1, 3]), Valves::of(&[1, 2, 3])];

/// A three-valved horn read in treble clef; the rows differ in name and transposition.
const TREBLE: Instrument = Instrument {
    name: "",
    also: &[],
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
        transposition: -2,
        ..TREBLE
    },
];

impl Instrument {
    /// The instrument of that name, whatever its capitals.
    pub fn named(text: &str) -> Option<&'static Instrument> {
        let same = |name: &&str| name.to_lowercase() == text.trim().to_lowercase();
        INSTRUMENTS
            .iter()
            .find(|i| same(&i.name) || i.also.iter().any(same))
    }

    /// Half steps the valves lower the horn by.
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

    /// What sounds for a written pitch.
    pub fn sounding(&self, written: WrittenPitch) -> SoundingPitch {
        written.sounding(self.transposition)
    }

    /// True if the player puts the third slide out for this combination.
    pub fn slide_goes_out(&self, valves: Valves) -> bool {
        self.slide_out.contains(&valves)
    }
}
