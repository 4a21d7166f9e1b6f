//! Faults in notes and bars.

use crate::{faults, read_line};

#[test]
fn slips_in_notes_are_told_at_their_place_all_at_once() {
    assert_eq!(
        faults("notes = \"G4:haf X9:half slur( A4:half\""),
        [
            "haf: haf is no note value / write G4:half",
            "X9:half: X9:half is not understood / a note is its pitch and its length: G4:half",
            "slur(: this slur is never closed / put a ) after its last note",
        ]
    );
    assert_eq!(
        faults("notes = \"g4:half f#4:half bb3:half\""),
        [
            "g4:half: pitches are written with a capital letter (here and 2 more in this line) / write G4"
        ]
    );
    assert_eq!(
        faults("notes = \"H4:half C5:half\""),
        ["H4:half: H is the German name of B / write B4; the German B is Bb here"]
    );
    assert_eq!(
        faults("notes = \"G4:half, A4:half, G4:whole\""),
        [
            ",: notes are parted by blanks, not by commas (here and 1 more in this line) / leave the \
          commas out; where a breath is meant write the word breath"
        ]
    );
    assert_eq!(
        faults("notes = \"G4 A4\""),
        [
            "G4: G4 has no length (here and 1 more in this line) / write G4:quarter, and the notes after \
          it that name no length are quarters, too"
        ]
    );
    assert_eq!(
        faults("notes = \"G:half\""),
        [
            "G:half: G does not say in which octave / write G3 (below the second ledger line below), G4 \
          (second-line G) or G5 (on top of the staff)"
        ]
    );
    assert_eq!(
        faults("notes = \"F##4:half G4#:half Fis4:half\""),
        [
            "F##4:half: double sharps and flats are not used / write G4, which is the same valve",
            "G4#:half: the octave stands after the accidental / write G#4",
            "Fis4:half: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
        ]
    );
    assert_eq!(
        faults("notes = \"G4:crotchet r:half G4:half (bent) G4:half [31]\""),
        [
            "crotchet: crotchet is no note value / write G4:quarter",
            "r:half: r:half is not understood / write rest:half",
            "(bent): (bent) is no mark for a note / did you mean (bend)?",
            "[31]: [31] is no fingering / write [1-3]",
        ]
    );
}

#[test]
fn bars_that_do_not_add_up_say_which_and_by_how_much() {
    assert_eq!(
        faults("notes = \"G4:half A4:half | G4:half A4:quarter | G4:whole\""),
        ["|: bar 2 is one beat short / a bar of 4/4 holds 4 quarters; this one holds 3 beats"]
    );
    assert_eq!(
        faults("meter = \"6/8\"\nnotes = \"G4:half. A4:quarter | G4:half.\""),
        [
            "|: bar 1 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths"
        ]
    );
    assert_eq!(
        faults("notes = \"G4:quarter | G4:whole\""),
        [
            "|: bar 1 is 3 beats short / a bar of 4/4 holds 4 quarters; this one holds one beat; a \
          pickup is written as a whole bar that begins with rests"
        ]
    );
    assert_eq!(
        faults("notes = \"G4:whole | G4:whole tie:quarter\""),
        [
            "G4:whole: bar 2 is one beat too long / a bar of 4/4 holds 4 quarters; this one holds 5 beats"
        ]
    );
    read_line("notes = \"G4:whole | G4:half\"");
    read_line("notes = \"| G4:whole | G4:whole |\"");
}
