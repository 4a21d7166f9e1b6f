//! Slips in slurs, ties, rests, breaths, loudness, fingerings and marks at notes.

use super::{NOTES, Slip};

pub const SLIPS: &[Slip] = &[
    (
        NOTES,
        "notes = \"C4:half(>) D4:half | E4:whole\"",
        &["(>): (>) is no mark for a note / write (accent)"],
    ),
    (
        NOTES,
        "notes = \"C4:half(.) D4:half | E4:whole\"",
        &["(.): (.) is no mark for a note / write (staccato)"],
    ),
    (
        NOTES,
        "notes = \"C4:half(-) D4:half | E4:whole\"",
        &["(-): (-) is no mark for a note / held to the full and tongued softly is (legato)"],
    ),
    (
        NOTES,
        "notes = \"tie( D4:half ) C4:half | E4:whole\"",
        &[
            "tie(: tie( is not known / a tie stands after its note and lengthens it: D4:whole tie:half; notes of different pitch are joined by slur( … )",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half tie( C4:half ) | E4:whole\"",
        &[
            "tie(: tie( is not known / a tie stands after its note and lengthens it: D4:whole tie:half; notes of different pitch are joined by slur( … )",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half, D4:half | E4:whole\"",
        &[
            ",: notes are parted by blanks, not by commas / leave the commas out; where a breath is meant write the word breath",
        ],
    ),
    (
        NOTES,
        "notes = \"slur(C4:half D4:half | E4:whole\"",
        &["slur(: this slur is never closed / put a ) after its last note"],
    ),
    (
        NOTES,
        "notes = \"slur C4:half D4:half | E4:whole\"",
        &["slur: slur is not understood / its bracket stands right after it: slur( … )"],
    ),
    (
        NOTES,
        "notes = \"(C4:half D4:half) | E4:whole\"",
        &["(: a bracket that opens nothing / say what it is: slur( … ) or triplet( … )"],
    ),
    (
        NOTES,
        "notes = \"slur( slur( C4:half D4:half ) | E4:whole )\"",
        &["slur(: a slur inside a slur / close the first one with ) before you open another"],
    ),
    (
        NOTES,
        "notes = \"triplet( C4:eighth D4:eighth ) | E4:whole\"",
        &[
            "triplet( C4:eighth D4:eighth ): this triplet is not full / a triplet is three in the time of two: triplet( C4:eighth D4:eighth E4:eighth )",
            "|: bar 1 is 3 1/3 beats short / a bar of 4/4 holds 4 quarters; this one holds 2/3 of a beat; a pickup is written as a whole bar that begins with rests",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half r:half | E4:whole\"",
        &["r:half: r:half is not understood / write rest:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half pause:half | E4:whole\"",
        &["pause:half: pause:half is not understood / write rest:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half breathe D4:half | E4:whole\"",
        &["breathe: breathe is not understood / write breath"],
    ),
    (
        NOTES,
        "notes = \"C4:half breath:half | E4:whole\"",
        &[
            "breath:half: a breath has no length: its time is taken from the note before it / write breath; silence is written rest:half",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half crescendo D4:half | E4:whole\"",
        &["crescendo: crescendo is not understood / write cresc"],
    ),
    (
        NOTES,
        "notes = \"cresc C4:half D4:half | E4:whole\"",
        &[
            "cresc: this leads to no dynamic / put the dynamic it leads to after its notes: cresc C4:half E4:half f",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half MF D4:half | E4:whole\"",
        &["MF: MF is not understood / write mf"],
    ),
    (
        NOTES,
        "notes = \"C4:half ppp D4:half | E4:whole\"",
        &["ppp: ppp is not understood / did you mean pp?"],
    ),
    (
        NOTES,
        "notes = \"C4:half [12] D4:half | E4:whole\"",
        &["[12]: [12] is no fingering / write [1-2]"],
    ),
    (
        NOTES,
        "notes = \"C4:half (1-2) D4:half | E4:whole\"",
        &["(1-2): (1-2) is no mark for a note / a fingering stands in square brackets: [1-2]"],
    ),
    (
        NOTES,
        "notes = \"C4:half(bent) D4:half | E4:whole\"",
        &["(bent): (bent) is no mark for a note / did you mean (bend)?"],
    ),
    (
        NOTES,
        "notes = \"G4:half(bend) D4:half | E4:whole\"",
        &[
            "G4:half(bend): a bend is lipped down from a note, and follows nothing / put the note it starts from right before it, half a step higher",
        ],
    ),
    (
        NOTES,
        "notes = \"G4:half E4:half(bend) | E4:whole\"",
        &[
            "E4:half(bend): “One”: E4, the 2nd note, is bent down from G4 by a minor third: further than the half step that a lip bends / bend G4 to F#4, or leave `(bend)` out and finger the note",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half (stacc) D4:half | E4:whole\"",
        &["(stacc): (stacc) is no mark for a note / did you mean (staccato)?"],
    ),
    (
        NOTES,
        "notes = \"|: C4:half D4:half :| E4:whole\"",
        &[
            ":: : is not understood / a bar line is a single |; a repeat is times = 2 on the line",
            ":: : is not understood / a bar line is a single |; a repeat is times = 2 on the line",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half~ C4:half | E4:whole\"",
        &["half~: half~ is no note value / two notes are tied by the word tie: C4:half tie:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half_D4:half | E4:whole\"",
        &["half_D4:half: half_D4:half is no note value / a blank parts two notes: C4:half D4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half staccato D4:half | E4:whole\"",
        &[
            "staccato: staccato is not understood / it stands in round brackets after its note: G4:half(staccato)",
        ],
    ),
    (
        NOTES,
        "notes = \"tongue C4:half D4:half | E4:whole\"",
        &["tongue: tongue is not understood / what stands in no slur( … ) is tongued"],
    ),
    (
        NOTES,
        "notes = \"C4:half x2 | E4:whole\"",
        &["x2: x2 is not understood / a repeat is times = 2, in a row of its own under the line"],
    ),
    (
        NOTES,
        "notes = \"breathe:half out:half\"\non = \"air\"",
        &[
            "breathe:half: breathe does not say whether it goes in or out / write in:half or out:half",
        ],
    ),
    (
        NOTES,
        "notes = \"breath:half out:half\"\non = \"air\"",
        &["breath:half: breath does not say whether it goes in or out / write in:half or out:half"],
    ),
    (
        NOTES,
        "notes = \"inhale:half out:half\"\non = \"air\"",
        &["inhale:half: inhale:half is not understood / write in:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half out:half\"\non = \"air\"",
        &[
            "C4:half: C4 is a note, and this is a breathing line / it holds in, out, hold and rest, each with its length: in:whole out:whole",
        ],
    ),
];
