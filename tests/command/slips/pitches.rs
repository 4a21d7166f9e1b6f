//! Slips in the names of notes: syllables, German names, octaves.

use super::{NOTES, Slip};

pub const SLIPS: &[Slip] = &[
    (
        NOTES,
        "notes = \"do4:half re4:half | E4:whole\"",
        &[
            "do4:half: do4 is C4 here / write C4: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first ledger line below",
        ],
    ),
    (
        NOTES,
        "notes = \"D:half C4:half | E4:whole\"",
        &[
            "D:half: D does not say in which octave / write D4 (just below the staff) or D5 (fourth-line D)",
        ],
    ),
    (
        NOTES,
        "notes = \"H4:half C4:half | B4:whole\"",
        &[
            "H4:half: H is the German name of B / write B4; the German B is Bb here",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"Fis4:half C4:half | B4:whole\"",
        &[
            "Fis4:half: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"Es4:half As4:half | B4:whole\"",
        &[
            "Es4:half: Es4 is a German name / write Eb4: is is #, es or s is b, H is B",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"c4:half d4:half | e4:whole\"",
        &["c4:half: pitches are written with a capital letter / write C4"],
    ),
    (
        NOTES,
        "notes = \"C7:half D4:half | E4:whole\"",
        &["C7:half: C7 lies above the trumpet in B-flat / notes from F#3 to C6 are dealt with"],
    ),
    (
        NOTES,
        "notes = \"C2:half D4:half | E4:whole\"",
        &[
            "C2:half: C2 lies below the trumpet in B-flat, among the pedal tones / its lowest note is F#3; pedal tones are not dealt with",
        ],
    ),
    (
        NOTES,
        "notes = \"C4#:half D4:half | E4:whole\"",
        &["C4#:half: the octave stands after the accidental / write C#4"],
    ),
    (
        NOTES,
        "notes = \"C 4:half D4:half | E4:whole\"",
        &[
            "C: C does not say in which octave / write C4 (first ledger line below), C5 (third-space C) or C6 (second ledger line above)",
            "4:half: 4:half is not understood / a note is its pitch and its length: G4:half",
        ],
    ),
    (
        NOTES,
        "notes = \"fa#4:half sib4:half | E4:whole\"",
        &[
            "fa#4:half: fa#4 is F#4 here / write F#4: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first ledger line below",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | Fis4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"B4:half D4:half\"\n\n[[line]]\nname = \"Two2\"\nnotes = \"B4:half B3:half\"",
        &[
            "Fis4:whole: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
            "B4:half: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
];
