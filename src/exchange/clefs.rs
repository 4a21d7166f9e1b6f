//! What is said of clefs that a routine does not keep. A routine is written in the clef of its instrument, whatever clef the
//! notes were read in.

/// A bass clef, which is kept where the instrument's part is in bass clef too.
pub const BASS: &str =
    "the bass clef is not kept: the part of this instrument is written in treble clef";

/// Any other clef: tenor, alto, or one that sounds an octave away.
pub const OTHER: &str = "the clef is not kept: a routine is written in the clef of its instrument";
