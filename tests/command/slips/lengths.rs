//! Slips in lengths, and bars that do not add up.

use super::{NOTES, Slip};

pub const SLIPS: &[Slip] = &[
    (
        NOTES,
        "notes = \"C4 half D4:half | E4:whole\"",
        &["C4 half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:haf D4:half | E4:whole\"",
        &["haf: haf is no note value / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:q D4:q E4:half | E4:whole\"",
        &[
            "q: q is no note value / write C4:quarter",
            "q: q is no note value / write D4:quarter",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:1/2 D4:half | E4:whole\"",
        &["1/2: 1/2 is no note value / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4/half D4:half | E4:whole\"",
        &["C4/half: C4/half is not understood / a colon joins a note and its length: C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4-half D4:half | E4:whole\"",
        &["C4-half: C4-half is not understood / a colon joins a note and its length: C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half. D4:half | E4:whole\"",
        &["|: bar 1 is one beat too long / a bar of 4/4 holds 4 quarters; this one holds 5 beats"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:quarter | E4:whole\"",
        &[
            "|: bar 1 is one beat short / a bar of 4/4 holds 4 quarters; this one holds 3 beats; a pickup is written as a whole bar that begins with rests",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half:D4:half | E4:whole\"",
        &["half:D4:half: half:D4:half is no note value / a blank parts two notes: C4:half D4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:dotted-half D4:quarter | E4:whole\"",
        &[
            "dotted-half: dotted-half is no note value / a dot is a full stop after the value: C4:half.",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half.. D4:eighth | E4:whole\"",
        &[
            "half..: half.. is no note value / there are no double dots; tie the rest on: C4:half. tie:…",
        ],
    ),
    (
        NOTES,
        "notes = \"C4: half D4:half | E4:whole\"",
        &["C4: half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4 :half D4:half | E4:whole\"",
        &["C4 :half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4 D4 E4 F4 | G4:whole\"",
        &[
            "C4: C4 has no length / write C4:quarter, and the notes after it that name no length are quarters, too",
        ],
    ),
    (
        NOTES,
        "notes = \"rest D4:half | E4:whole\"",
        &[
            "rest: rest has no length / write rest:quarter, and the notes after it that name no length are quarters, too",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. | E4:half. tie:quarter\"\nmeter = \"6/8\"",
        &[
            "E4:half.: bar 2 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. E4:quarter | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. E4:eighth | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is one eighth too long / a bar of 6/8 holds 6 eighths; this one holds 7 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is one eighth short / a bar of 6/8 holds 6 eighths; this one holds 5 eighths; a pickup is written as a whole bar that begins with rests",
        ],
    ),
];
