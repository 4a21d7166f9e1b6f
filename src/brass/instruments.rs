//! The instruments, one row of data each: another instrument is a row, not code.
//!
//! Transpositions and clefs: Wikipedia, "Pitch of brass instruments" and "Brass band (British style)". The lowest note is the
//! second partial of the longest tube. The highest is the eighth partial of the open horn, and what is common practice for
//! horns and trombones. Air: estimates from lesson practice, without a source.

use super::{
    family::Family,
    instrument::{Instrument, Mechanism},
    tube::Tube,
    tubes::{COMPENSATING, DOUBLE_HORN, FOUR_VALVES, SLIDE, SLIDE_WITH_ATTACHMENT, THREE_VALVES},
};
use crate::music::{
    Clef, WrittenPitch,
    pitch::Letter::{self, A, B, C, D, E, F, G},
};

const LONG_TUBES: &[Tube] = &[Tube::of(&[1, 3]), Tube::of(&[1, 2, 3])];

const fn natural(letter: Letter, octave: i8) -> WrittenPitch {
    WrittenPitch::new(letter, 0, octave)
}

const fn flat(letter: Letter, octave: i8) -> WrittenPitch {
    WrittenPitch::new(letter, -1, octave)
}

const fn sharp(letter: Letter, octave: i8) -> WrittenPitch {
    WrittenPitch::new(letter, 1, octave)
}

/// Three valves and a part in treble clef whose second partial is C4: every such part is read alike.
const TREBLE: Instrument = Instrument {
    name: "",
    also: &[],
    family: Family::Trumpet,
    transposition: 0,
    clef: Clef::Treble,
    mechanism: Mechanism::Valves {
        count: 3,
        thumb: false,
    },
    tubes: THREE_VALVES,
    usual: &[],
    lowest: sharp(F, 3),
    highest: natural(C, 6),
    pedals: 0,
    second_partial: natural(C, 4),
    highest_partial: 8,
    ladder: None,
    slide_out: &[],
    air: 1.0,
    sound: "brass.trumpet",
    midi_program: 57,
};

const TRUMPET: Instrument = Instrument {
    slide_out: LONG_TUBES,
    ..TREBLE
};

/// Four valves. The lowest note is that of the longest tube.
const PICCOLO: Instrument = Instrument {
    mechanism: Mechanism::Valves {
        count: 4,
        thumb: false,
    },
    tubes: FOUR_VALVES,
    lowest: natural(D, 3),
    highest: natural(G, 5),
    sound: "brass.trumpet.piccolo",
    ..TREBLE
};

const CORNET: Instrument = Instrument {
    family: Family::Cornet,
    slide_out: LONG_TUBES,
    sound: "brass.cornet",
    ..TREBLE
};

/// What a horn's part looks like on either side. The first notes, and the ladder of a horn, run some three half steps under
/// the trumpet's: published grades pair the trumpet's C5 with the horn's A4 and its E5 with C5 (the ladder is a proposal).
const HORN: Instrument = Instrument {
    family: Family::Horn,
    transposition: -7,
    second_partial: natural(C, 3),
    lowest: sharp(F, 2),
    highest: natural(C, 6),
    highest_partial: 16,
    ladder: Some(&[
        (natural(C, 4), 4),
        (natural(G, 4), 6),
        (natural(A, 4), 8),
        (natural(C, 5), 8),
        (natural(E, 5), 10),
    ]),
    // Teaching charts put the tenth partial of 1 before the ninth of the open horn.
    usual: &[(natural(D, 5), Tube::of(&[1]))],
    slide_out: &[],
    sound: "brass.french-horn",
    midi_program: 61,
    ..TREBLE
};

const fn thumb(numbers: &[u8]) -> Tube {
    Tube::of(numbers).with_thumb()
}

/// The usual side of a double horn: F up to G4, B-flat from A-flat 4 up; C-sharp 3 and D3 on the B-flat side, where 1-2-3 and
/// 1-3 of the F side are sharp. C. Smalley, "Double Horn Fingering Dictionary"; Auburn University horn clinic.
const DOUBLE_HORN_USUAL: &[(WrittenPitch, Tube)] = &[
    (sharp(C, 3), thumb(&[2, 3])),
    (natural(D, 3), thumb(&[1, 2])),
    (flat(A, 4), thumb(&[2, 3])),
    (natural(A, 4), thumb(&[1, 2])),
    (flat(B, 4), thumb(&[1])),
    (natural(B, 4), thumb(&[2])),
    (natural(C, 5), thumb(&[])),
    (sharp(C, 5), thumb(&[2, 3])),
    (natural(D, 5), thumb(&[1, 2])),
    (flat(E, 5), thumb(&[1])),
    (natural(E, 5), thumb(&[2])),
    (natural(F, 5), thumb(&[])),
    (sharp(F, 5), thumb(&[2])),
    (natural(G, 5), thumb(&[])),
    (flat(A, 5), thumb(&[2, 3])),
    (natural(A, 5), thumb(&[1, 2])),
    (flat(B, 5), thumb(&[1])),
    (natural(B, 5), thumb(&[2])),
    (natural(C, 6), thumb(&[])),
];

/// A horn in B-flat alone: its part is in F, and its open notes are those of the thumb on a double horn.
const SINGLE_B_FLAT_HORN: Instrument = Instrument {
    second_partial: natural(F, 3),
    lowest: natural(B, 2),
    highest_partial: 12,
    ladder: Some(&[
        (natural(C, 4), 3),
        (natural(G, 4), 5),
        (natural(A, 4), 6),
        (natural(C, 5), 6),
        (natural(E, 5), 8),
    ]),
    // The fifth and the tenth partial of the open horn and of 2 are flat: players take 1-2 and 2-3.
    usual: &[
        (flat(A, 4), Tube::of(&[2, 3])),
        (natural(A, 4), Tube::of(&[1, 2])),
        (flat(A, 5), Tube::of(&[2, 3])),
        (natural(A, 5), Tube::of(&[1, 2])),
    ],
    ..HORN
};

const TENOR_HORN: Instrument = Instrument {
    family: Family::TenorHorn,
    transposition: -9,
    air: 1.2,
    sound: "brass.alto-horn",
    midi_program: 61,
    ..TREBLE
};

const BARITONE: Instrument = Instrument {
    family: Family::TenorHorn,
    transposition: -14,
    air: 1.3,
    sound: "brass.baritone-horn",
    midi_program: 61,
    ..TREBLE
};

const EUPHONIUM: Instrument = Instrument {
    family: Family::Euphonium,
    transposition: -14,
    pedals: 4,
    air: 1.4,
    sound: "brass.euphonium",
    midi_program: 59,
    ..TREBLE
};

/// Four valves in treble clef, without compensation.
const fn four_valves(instrument: Instrument) -> Instrument {
    Instrument {
        mechanism: Mechanism::Valves {
            count: 4,
            thumb: false,
        },
        tubes: FOUR_VALVES,
        lowest: natural(D, 3),
        ..instrument
    }
}

/// The part in bass clef of an instrument that is in B-flat an octave below the trumpet: it is written as it sounds.
const fn bass_clef(instrument: Instrument) -> Instrument {
    Instrument {
        clef: Clef::Bass,
        transposition: 0,
        lowest: natural(E, 2),
        highest: flat(B, 4),
        second_partial: flat(B, 2),
        ..instrument
    }
}

const TROMBONE: Instrument = Instrument {
    family: Family::Trombone,
    mechanism: Mechanism::Slide { attachment: false },
    tubes: SLIDE,
    pedals: 4,
    highest: natural(D, 5),
    highest_partial: 12,
    air: 1.4,
    sound: "brass.trombone.tenor",
    midi_program: 58,
    ..bass_clef(TREBLE)
};

const TUBA: Instrument = Instrument {
    family: Family::Tuba,
    pedals: 1,
    air: 2.0,
    sound: "brass.tuba",
    midi_program: 59,
    ..TREBLE
};

/// Every instrument leadpipe knows.
pub const INSTRUMENTS: &[Instrument] = &[
    Instrument {
        name: "trumpet in B-flat",
        also: &["trumpet", "trumpet in Bb", "B-flat trumpet", "Bb trumpet"],
        transposition: -2,
        ..TRUMPET
    },
    Instrument {
        name: "trumpet in C",
        also: &["C trumpet"],
        ..TRUMPET
    },
    Instrument {
        name: "trumpet in E-flat",
        also: &["trumpet in Eb", "E-flat trumpet", "Eb trumpet"],
        transposition: 3,
        ..TRUMPET
    },
    Instrument {
        name: "piccolo trumpet in B-flat",
        also: &["piccolo trumpet", "piccolo trumpet in Bb"],
        transposition: 10,
        ..PICCOLO
    },
    Instrument {
        name: "piccolo trumpet in A",
        transposition: 9,
        ..PICCOLO
    },
    Instrument {
        name: "cornet",
        also: &[
            "cornet in B-flat",
            "cornet in Bb",
            "B-flat cornet",
            "Bb cornet",
        ],
        transposition: -2,
        ..CORNET
    },
    Instrument {
        name: "soprano cornet",
        also: &[
            "soprano cornet in E-flat",
            "soprano cornet in Eb",
            "cornet in E-flat",
            "cornet in Eb",
        ],
        transposition: 3,
        sound: "brass.cornet.soprano",
        ..CORNET
    },
    Instrument {
        name: "flugelhorn",
        also: &["flugelhorn in B-flat", "flugelhorn in Bb", "flügelhorn"],
        family: Family::Flugelhorn,
        transposition: -2,
        sound: "brass.flugelhorn",
        ..TRUMPET
    },
    Instrument {
        name: "horn in F",
        also: &[
            "horn",
            "French horn",
            "French horn in F",
            "single horn",
            "F horn",
        ],
        ..HORN
    },
    Instrument {
        name: "horn in B-flat",
        also: &["horn in Bb", "single horn in B-flat", "single horn in Bb"],
        ..SINGLE_B_FLAT_HORN
    },
    Instrument {
        name: "double horn",
        also: &["double horn in F and B-flat", "double horn in F and Bb"],
        mechanism: Mechanism::Valves {
            count: 3,
            thumb: true,
        },
        tubes: DOUBLE_HORN,
        usual: DOUBLE_HORN_USUAL,
        ..HORN
    },
    Instrument {
        name: "tenor horn",
        also: &[
            "alto horn",
            "tenor horn in E-flat",
            "tenor horn in Eb",
            "alto horn in E-flat",
            "alto horn in Eb",
        ],
        ..TENOR_HORN
    },
    Instrument {
        name: "baritone in bass clef",
        also: &["baritone", "baritone horn"],
        ..bass_clef(BARITONE)
    },
    Instrument {
        name: "baritone in treble clef",
        ..BARITONE
    },
    Instrument {
        name: "euphonium in bass clef",
        also: &["euphonium"],
        ..bass_clef(EUPHONIUM)
    },
    Instrument {
        name: "euphonium in treble clef",
        ..EUPHONIUM
    },
    Instrument {
        name: "four-valve euphonium in bass clef",
        also: &["four-valve euphonium"],
        lowest: natural(C, 2),
        ..bass_clef(four_valves(EUPHONIUM))
    },
    Instrument {
        name: "four-valve euphonium in treble clef",
        ..four_valves(EUPHONIUM)
    },
    Instrument {
        name: "compensating euphonium in bass clef",
        also: &["compensating euphonium"],
        tubes: COMPENSATING,
        lowest: natural(B, 1),
        ..bass_clef(four_valves(EUPHONIUM))
    },
    Instrument {
        name: "compensating euphonium in treble clef",
        tubes: COMPENSATING,
        lowest: sharp(C, 3),
        ..four_valves(EUPHONIUM)
    },
    Instrument {
        name: "trombone",
        also: &["tenor trombone", "trombone in bass clef"],
        ..TROMBONE
    },
    Instrument {
        name: "trombone in treble clef",
        also: &["tenor trombone in treble clef"],
        clef: Clef::Treble,
        transposition: -14,
        lowest: sharp(F, 3),
        highest: natural(E, 6),
        second_partial: natural(C, 4),
        ..TROMBONE
    },
    Instrument {
        name: "trombone with F attachment",
        also: &["tenor trombone with F attachment"],
        mechanism: Mechanism::Slide { attachment: true },
        tubes: SLIDE_WITH_ATTACHMENT,
        lowest: natural(C, 2),
        ..TROMBONE
    },
    Instrument {
        name: "bass trombone",
        mechanism: Mechanism::Slide { attachment: true },
        tubes: SLIDE_WITH_ATTACHMENT,
        lowest: natural(C, 2),
        highest: flat(B, 4),
        air: 1.7,
        sound: "brass.trombone.bass",
        ..TROMBONE
    },
    Instrument {
        name: "tuba in E-flat",
        also: &["tuba in Eb", "E-flat tuba", "Eb tuba"],
        clef: Clef::Bass,
        lowest: natural(A, 1),
        highest: flat(E, 4),
        second_partial: flat(E, 2),
        ..TUBA
    },
    Instrument {
        name: "tuba in E-flat in treble clef",
        also: &["E-flat bass", "Eb bass", "tuba in Eb in treble clef"],
        transposition: -21,
        ..TUBA
    },
    Instrument {
        name: "compensating tuba in E-flat",
        also: &["compensating tuba in Eb"],
        clef: Clef::Bass,
        tubes: COMPENSATING,
        lowest: natural(E, 1),
        highest: flat(E, 4),
        second_partial: flat(E, 2),
        ..four_valves(TUBA)
    },
    Instrument {
        name: "compensating tuba in E-flat in treble clef",
        also: &["compensating E-flat bass", "compensating Eb bass"],
        transposition: -21,
        tubes: COMPENSATING,
        lowest: sharp(C, 3),
        ..four_valves(TUBA)
    },
    Instrument {
        name: "tuba in B-flat",
        also: &[
            "tuba",
            "tuba in Bb",
            "BB-flat tuba",
            "BBb tuba",
            "B-flat tuba",
            "Bb tuba",
        ],
        clef: Clef::Bass,
        lowest: natural(E, 1),
        highest: flat(B, 3),
        second_partial: flat(B, 1),
        ..TUBA
    },
    Instrument {
        name: "four-valve tuba in B-flat",
        also: &["four-valve tuba", "four-valve tuba in Bb"],
        clef: Clef::Bass,
        lowest: natural(C, 1),
        highest: flat(B, 3),
        second_partial: flat(B, 1),
        ..four_valves(TUBA)
    },
    Instrument {
        name: "tuba in B-flat in treble clef",
        also: &["B-flat bass", "Bb bass", "tuba in Bb in treble clef"],
        transposition: -26,
        ..TUBA
    },
    Instrument {
        name: "tuba in F",
        also: &["F tuba"],
        clef: Clef::Bass,
        lowest: natural(G, 1),
        highest: natural(F, 4),
        second_partial: natural(F, 2),
        ..four_valves(TUBA)
    },
    Instrument {
        name: "tuba in C",
        also: &["CC tuba", "C tuba"],
        clef: Clef::Bass,
        lowest: natural(D, 1),
        highest: natural(C, 4),
        second_partial: natural(C, 2),
        ..four_valves(TUBA)
    },
];

impl Instrument {
    /// The instrument with this name, ignoring case.
    pub fn named(text: &str) -> Option<&'static Instrument> {
        let plain = |name: &str| name.to_lowercase().replace('♭', "b");
        let wanted = plain(text.trim());
        let same = |name: &&str| plain(name) == wanted;
        INSTRUMENTS
            .iter()
            .find(|i| same(&i.name) || i.also.iter().any(same))
    }
}
