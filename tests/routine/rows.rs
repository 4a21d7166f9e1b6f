//! Faults in the rows of a routine, and in files that are no routine.

use crate::{faults, faults_of, with_line};

#[test]
fn what_cannot_stand_together_is_told() {
    let first = |body: &str| faults(body).remove(0);
    for (body, begins) in [
        (
            "notes = \"G4:half rest:half breath\"",
            "breath: a breath after a rest",
        ),
        (
            "notes = \"G4:half breath tie:half\"",
            "tie:half: a breath before a tie",
        ),
        (
            "notes = \"slur( G4:half rest:half A4:half )\"",
            "rest:half: a slur over a rest",
        ),
        (
            "notes = \"slur( G4:half slur( A4:half B4:half ) )\"",
            "slur(: a slur inside a slur",
        ),
        (
            "notes = \"slur( G4:half )\"",
            "slur( G4:half ): a slur joins two notes or more",
        ),
        (
            "notes = \"G4:half [0]\"\nhalf_steps = [0, -1]",
            "half_steps: a line with fingerings",
        ),
        (
            "open = \"C4:half\"\nhalf_steps = [0]",
            "half_steps: a line on tubes is moved",
        ),
        (
            "notes = \"C4:half\"\ntubes = [\"0\"]",
            "tubes: tubes move a line that is written",
        ),
        (
            "open = \"D4:half\"",
            "D4:half: D4 is no note of the open horn",
        ),
        (
            "notes = \"G4:half cresc A4:half\"",
            "cresc: this leads to no dynamic",
        ),
        (
            "notes = \"f G4:half cresc A4:half p\"",
            "p: cresc leads from f to p",
        ),
        (
            "notes = \"E3:half\"",
            "E3:half: E3 lies below the trumpet in B-flat, among the pedal tones",
        ),
        (
            "notes = \"D6:half\"",
            "D6:half: D6 lies above the trumpet in B-flat",
        ),
        (
            "notes = \"triplet( C4:half D4:half )\"",
            "triplet( C4:half D4:half ): this triplet is not",
        ),
        (
            "on = \"air\"\nnotes = \"G4:half\"",
            "G4:half: G4 is a note, and this is a breathing line",
        ),
        (
            "notes = \"in:half\"",
            "in:half: in belongs to breathing lines",
        ),
        (
            "on = \"mouthpiece\"\nnotes = \"G4:half [0]\"",
            "[0]: a mouthpiece has no valves",
        ),
        (
            "notes = \"rest:half\"",
            "rest:half: there is no note in this line",
        ),
        (
            "notes = \"(bend) G4:half\"",
            "(bend): (bend) stands after no note",
        ),
        (
            "notes = \"G4:half\"\nopen = \"C4:half\"",
            "open: a line has notes or open, not both",
        ),
    ] {
        let fault = first(body);
        assert!(fault.starts_with(begins), "{body}\n  {fault}");
    }
}

#[test]
fn entries_out_of_bounds_and_unknown_entries_are_told() {
    let first = |body: &str| faults(body).remove(0);
    let notes = "notes = \"G4:half\"\n";
    for (entry, begins) in [
        (
            "tiems = 2",
            "tiems: tiems is not known here / did you mean times?",
        ),
        (
            "reach = \"A4\"",
            "reach: reach is not known here / reach belongs to the head of the file",
        ),
        ("times = 0", "0: times is a whole number from 1 to 100"),
        ("times = 101", "101: times is a whole number from 1 to 100"),
        (
            "tempo = 19",
            "19: tempo is a number of clicks a minute, from 20 to 300",
        ),
        (
            "tempo = 72.12345",
            "72.12345: tempo has more than three decimals",
        ),
        (
            "tempo = \"72\"",
            "\"72\": tempo is a number of clicks a minute",
        ),
        (
            "meter = \"4/16\"",
            "\"4/16\": 4/16 is no meter leadpipe can click",
        ),
        (
            "rest = \"2 bar\"\ncount_in = 0",
            "0: count_in is a whole number from 1 to 16",
        ),
        (
            "rest = \"a while\"",
            "\"a while\": rest cannot be \"a while\"",
        ),
        (
            "rest = 20",
            "20: rest is written as words in straight quotes",
        ),
        (
            "guide = \"togehter\"",
            "\"togehter\": guide cannot be \"togehter\" / did you mean \"together\"?",
        ),
        (
            "articulation = [\"slured\"]",
            "\"slured\": articulation cannot be \"slured\" / did you mean",
        ),
        (
            "half_steps = [0, 40]",
            "40: half_steps are whole numbers from -36 to 36",
        ),
        ("drone = \"h3\"", "\"h3\": H is the German name of B"),
        ("each = \"haf\"", "\"haf\": haf is no note value"),
    ] {
        let fault = first(&format!("{notes}{entry}"));
        assert!(fault.starts_with(begins), "{entry}\n  {fault}");
    }
}

#[test]
fn the_head_is_told_what_it_lacks() {
    let told = faults_of("title = \"T\"\n[[line]]\nname = \"N\"\nnotes = \"G4:half\"\n");
    assert_eq!(told.len(), 4, "{told:#?}");
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"G4\"", "\"A4\""));
    assert!(
        told[0].starts_with("\"A4\": A4 is not among the open notes"),
        "{told:#?}"
    );
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("B-flat", "H"));
    assert!(
        told[0].contains("is no instrument leadpipe knows"),
        "{told:#?}"
    );
    // A head that is there but says nothing lacks everything.
    assert_eq!(faults_of("purpose = \"air\"\n").len(), 6);
    assert_eq!(faults_of("").len(), 1);
}

#[test]
fn files_that_are_no_toml_are_told_in_plain_words() {
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"T\"", "“T”"));
    assert_eq!(told, ["“T”: curly quotes / write straight ones: \"T\""]);
    let told = faults_of(&with_line("notes = \"G4:half\"").replace("\"T\"", "Second steps"));
    assert!(
        told[0].starts_with("Second steps: words stand in straight quotes"),
        "{told:#?}"
    );
    let told = faults_of(&format!("{}tempo 80\n", with_line("notes = \"G4:half\"")));
    assert!(
        told[0].starts_with("tempo 80: this row is not understood"),
        "{told:#?}"
    );
    let told = faults_of(&with_line("notes = \"G4:half\nrest = \"same\""));
    assert!(told.iter().any(|t| t.contains("not closed")), "{told:#?}");
    let told = faults_of(&with_line("notes = \"G4:half\"\nnotes = \"G4:half\""));
    assert!(
        told.iter().any(|t| t.contains("written twice")),
        "{told:#?}"
    );
}
