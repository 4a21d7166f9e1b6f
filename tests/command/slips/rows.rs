//! Slips in rows, names, values and quotes.

use super::{NOTES, Slip};

pub const SLIPS: &[Slip] = &[
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nhalf_steps = 0, -1",
        &["0, -1: a list stands in square brackets / write half_steps = [0, -1]"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nhalf_steps = [0, -1",
        &[
            "[0, -1: this list is not closed / it ends with a square bracket: half_steps = [0, -1, -2]",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\ntubes = [\"0\"]",
        &[
            "tubes: tubes move a line that is written as on the open horn / write its notes as open = \"…\", with notes of the open horn",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrest = 2 bars",
        &["2 bars: words stand in straight quotes / write rest = \"2 bars\""],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrest = \"same as played\"",
        &[
            "\"same as played\": rest cannot be \"same as played\" / it can be \"same\" (as long as it took to play), \"2 bars\", \"8 beats\", \"20 s\" or \"none\"; an hour is the most",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrepeat = 2",
        &["repeat: repeat is not known here / write times = 2"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nslurred = true",
        &["slurred: slurred is not known here / write articulation = \"slurred\""],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\narticulation = \"slur\"",
        &["\"slur\": articulation cannot be \"slur\" / did you mean \"slurred\"?"],
    ),
    (
        "tempo = 72",
        "tempo = 60 bpm",
        &["60 bpm: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "tempo = 72",
        "tempo = \"60\"",
        &[
            "\"60\": tempo is a number of clicks a minute, from 20 to 300 / write the number alone, without quotes: tempo = 60",
        ],
    ),
    (
        "tempo = 72",
        "tempo = \"60 bpm\"",
        &[
            "\"60 bpm\": tempo is a number of clicks a minute, from 20 to 300 / write the number alone, without quotes: tempo = 60",
        ],
    ),
    (
        "tempo = 72",
        "Tempo = 72",
        &["Tempo: Tempo is not known here / did you mean tempo?"],
    ),
    (
        "tempo = 72",
        "tempo: 72",
        &[
            "tempo: 72: this row is not understood / an equals sign parts a name from its value: tempo = 72",
        ],
    ),
    (
        "tempo = 72",
        "tempo = 72,5",
        &["72,5: a number has a point, not a comma / write tempo = 72.5"],
    ),
    (
        "tempo = 72",
        "tempo = quarter = 60",
        &["quarter = 60: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "tempo = 72",
        "tempo = 600",
        &[
            "600: tempo is a number of clicks a minute, from 20 to 300 / for instance tempo = 72, without quotes",
        ],
    ),
    (
        "tempo = 72",
        "tempo = fast",
        &["fast: a tempo is a number alone, in clicks a minute / write tempo = 72"],
    ),
    (
        "tempo = 72",
        "tempo = 60bpm",
        &["60bpm: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "meter = \"4/4\"",
        "meter = 4/4",
        &["4/4: words stand in straight quotes / write meter = \"4/4\""],
    ),
    (
        "meter = \"4/4\"",
        "meter = \"C\"",
        &["\"C\": C is no meter leadpipe can click / write meter = \"4/4\""],
    ),
    (
        "meter = \"4/4\"",
        "time = \"4/4\"",
        &["time: time is not known here / write meter = \"4/4\""],
    ),
    (
        "title = \"Slips\"",
        "title = Slips",
        &["Slips: words stand in straight quotes / write title = \"Slips\""],
    ),
    (
        "title = \"Slips\"",
        "Title = \"Slips\"",
        &["Title: Title is not known here / did you mean title?"],
    ),
    (
        "title = \"Slips\"",
        "title = “Slips”",
        &["“Slips”: curly quotes / write straight ones: \"Slips\""],
    ),
    (
        "instrument = \"trumpet in B-flat\"",
        "instrument = \"saxophone\"",
        &[
            "\"saxophone\": saxophone is no instrument leadpipe knows / leadpipe list --instruments names those it knows: trumpets, cornets, horns, trombones, euphoniums, tubas",
        ],
    ),
    (
        "comfortable_top = \"G4\"",
        "comfortable_top = \"A4\"",
        &[
            "\"A4\": A4 is not among the open notes that part the levels / comfortable_top is one of C4, G4, C5, E5 or G5",
        ],
    ),
    (
        "comfortable_top = \"G4\"",
        "comfortable_top = G4",
        &["G4: words stand in straight quotes / write comfortable_top = \"G4\""],
    ),
    (
        "[[line]]",
        "[line]",
        &[
            "[line]: a line is opened by [[line]], with two brackets on each side / write [[line]] in a row of its own",
        ],
    ),
    (
        "[[line]]",
        "line",
        &["line: this row is not understood / a line is opened by [[line]] in a row of its own"],
    ),
    (
        NOTES,
        "note = \"C4:half D4:half | E4:whole\"",
        &["note: note is not known here / did you mean notes?"],
    ),
    (
        "name = \"One\"",
        "name One",
        &[
            "name One: this row is not understood / an equals sign parts a name from its value: name = \"One\"",
        ],
    ),
    (
        "format = 1\n",
        "",
        &[
            "title = \"Slips\": this file does not say which format it is in / write format = 1 as its first line",
        ],
    ),
    (
        "tempo = 72\n",
        "",
        &[
            "format = 1: this routine has no tempo / write tempo = 72 at its head: clicks a minute, one click a beat",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"\nrest = \"same\"\n\n[[line]]\nname = \"Three\"\nnotes = \"\"\"\nC4:half D4:half |\nE4:whole\"\"\"",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\nC4:half D4:half |\nE4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "\": a text over several rows stands in three quotes / open it with notes = \"\"\" and close it with \"\"\"",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "notes = \"C4:half D4:half | E4:whole: this text is not closed where it should be / it starts and ends with one straight quote, in one row: \"…\"",
        ],
    ),
];
