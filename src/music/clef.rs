//! Clefs: where a note stands on the staff.

use super::pitch::WrittenPitch;

/// The clef an instrument's part is read in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Clef {
    /// G on the second line from below.
    Treble,
    /// F on the fourth line from below.
    Bass,
}

impl Clef {
    /// Its word in a sentence.
    pub fn word(self) -> &'static str {
        match self {
            Clef::Treble => "treble clef",
            Clef::Bass => "bass clef",
        }
    }

    /// The staff step, above C0, of the note on the lowest line: E4 or G2.
    pub fn lowest_line(self) -> i32 {
        match self {
            Clef::Treble => 7 * 4 + 2,
            Clef::Bass => 7 * 2 + 4,
        }
    }

    /// Steps of the staff from its lowest line up to a note.
    pub fn step(self, pitch: WrittenPitch) -> i32 {
        pitch.staff_step() - self.lowest_line()
    }
}
