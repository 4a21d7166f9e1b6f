//! What a routine trains.

/// A skill that a routine trains. The words are a teacher's; a test holds them against the notes of every routine that
/// comes with the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Skill {
    Breathing,
    Buzzing,
    LongTones,
    Bends,
    LipSlurs,
    Scales,
    Minor,
    Arpeggios,
    Intervals,
    Tonguing,
    TonguingSpeed,
    DoubleTonguing,
    TripleTonguing,
    Fingers,
    Dynamics,
    Tunes,
    HighNotes,
    LowNotes,
    PedalTones,
}

impl Skill {
    /// The words in a routine file and on the command line.
    pub const WORDS: [(&'static str, Skill); 19] = [
        ("breathing", Skill::Breathing),
        ("buzzing", Skill::Buzzing),
        ("long tones", Skill::LongTones),
        ("bends", Skill::Bends),
        ("lip slurs", Skill::LipSlurs),
        ("scales", Skill::Scales),
        ("minor", Skill::Minor),
        ("arpeggios", Skill::Arpeggios),
        ("intervals", Skill::Intervals),
        ("tonguing", Skill::Tonguing),
        ("tonguing speed", Skill::TonguingSpeed),
        ("double tonguing", Skill::DoubleTonguing),
        ("triple tonguing", Skill::TripleTonguing),
        ("fingers", Skill::Fingers),
        ("dynamics", Skill::Dynamics),
        ("tunes", Skill::Tunes),
        ("high notes", Skill::HighNotes),
        ("low notes", Skill::LowNotes),
        ("pedal tones", Skill::PedalTones),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, skill)| *skill == self)
            .map_or("", |(word, _)| word)
    }
}
