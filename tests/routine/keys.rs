//! Keys of a routine and of a line.

use crate::{HEAD, faults, read_line};
use leadpipe::routine;

#[test]
fn keys_are_read_in_the_head_and_in_a_line() {
    let text = format!(
        "{HEAD}key = \"E♭ major\"\n[[line]]\nname = \"a\"\nnotes = \"G4:whole\"\n\
         [[line]]\nname = \"b\"\nkey = \"f# minor\"\nnotes = \"G4:whole\"\n\
         [[line]]\nname = \"c\"\non = \"air\"\nnotes = \"in:whole\"\n"
    );
    let routine = routine::read(&text).unwrap();
    let key = |line: usize| {
        routine.lines[line]
            .key_in(&routine)
            .map(|key| key.to_string())
    };
    assert_eq!(key(0).as_deref(), Some("E-flat major"));
    assert_eq!(key(1).as_deref(), Some("F-sharp minor"));
    assert_eq!(key(2), None);
    assert_eq!(read_line("notes = \"G4:whole\"").key, None);
}

#[test]
fn what_is_no_key_is_said() {
    assert_eq!(
        faults("key = \"Es-Dur\"\nnotes = \"G4:whole\""),
        [
            "\"Es-Dur\": “Es-Dur” is no key / a key is a note with major or minor, as the player reads it: \
             \"E-flat major\", \"F-sharp minor\", or short \"Eb major\", \"F# minor\""
        ]
    );
    assert_eq!(
        faults("key = \"G# major\"\nnotes = \"G4:whole\""),
        [
            "\"G# major\": “G# major” would have 8 sharps, and a key has at most 7 / write \"A-flat major\", which \
             sounds the same"
        ]
    );
    assert_eq!(
        faults("key = 3\nnotes = \"G4:whole\""),
        ["3: key is written as words in straight quotes / for instance key = \"E-flat major\""]
    );
    assert_eq!(
        faults("on = \"air\"\nkey = \"C major\"\nnotes = \"in:whole\""),
        ["\"C major\": a breathing line has no key / leave key out"]
    );
}
