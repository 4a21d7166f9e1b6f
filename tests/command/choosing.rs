//! `choose`, `list` and `new`.

use super::Test;

#[test]
fn small_letters_are_taken_for_notes() {
    let capital = Test::new(&["choose", "G4"]).stderr("").run().stdout;
    assert!(capital.starts_with("G4, second-line G\n\nStart with  second-steps\n"));
    assert!(capital.contains("Stop at once for pain"));
    assert!(capital.lines().all(|line| line.chars().count() <= 80));
    Test::new(&["choose", "g4"]).stdout(&capital).run();
    assert!(
        Test::new(&["choose", "bb3"])
            .run()
            .stdout
            .starts_with("Bb3")
    );
}

#[test]
fn what_is_no_note_is_said_kindly() {
    Test::new(&["choose", "h4"])
        .stdout("")
        .stderr(
            "\
error: “h4” is not a note
 |
 = help: the note called H in German is B here: B4
",
        )
        .exit(2)
        .run();
    Test::new(&["choose", "high"]).exit(2).run();
}

#[test]
fn list_shows_every_built_in_routine() {
    let ran = Test::new(&["list", "--json"]).stderr("").run();
    let json: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    let names: Vec<&str> = json
        .as_array()
        .unwrap()
        .iter()
        .map(|entry| entry["name"].as_str().unwrap())
        .collect();
    let expected = [
        "first-sounds",
        "first-steps",
        "second-steps",
        "third-steps",
        "fourth-steps",
        "fifth-steps",
    ];
    assert_eq!(names, expected);
    let table = Test::new(&["list"]).run().stdout;
    assert_eq!(table.lines().count(), 7);
    for (line, name) in table.lines().skip(1).zip(expected) {
        assert!(line.starts_with(name));
    }
}

#[test]
fn new_writes_a_copy_that_passes_and_never_overwrites() {
    for from in ["first-sounds", "second-steps"] {
        let ran = Test::new(&["new", "anna's week 3", "--from", from])
            .stdout("")
            .stderr(&format!(
                "\
anna's week 3.toml is a copy of {from}, yours to change.
Next: leadpipe check \"anna's week 3.toml\"
"
            ))
            .run();
        let text = ran.read("anna's week 3.toml");
        assert!(text.contains("title = \"anna's week 3\"\n"));
        assert!(text.contains('#'), "it is commented");
        let ran = Test::within(ran.folder, &["new", "anna's week 3"])
            .stderr(
                "\
error: anna's week 3.toml is there already and stays as it is
 |
 = help: choose another name
",
            )
            .exit(1)
            .run();
        assert_eq!(ran.read("anna's week 3.toml"), text);
        Test::within(ran.folder, &["check", "anna's week 3.toml"]).run();
    }
}

#[test]
fn new_says_what_it_cannot_copy_or_write() {
    Test::new(&["new", "anna", "--from", "secondsteps"])
        .stderr(
            "\
error: there is no built-in routine called “secondsteps”
 |
 = help: did you mean second-steps?
",
        )
        .exit(2)
        .run();
    Test::new(&["new", "none/anna"])
        .stderr(
            "\
error: none/anna.toml cannot be written: there is no such folder
 |
 = help: make the folder first, or leave it out of the name
",
        )
        .exit(1)
        .run();
    Test::new(&["new", ""])
        .stderr(
            "\
error: “” is no name for a file
 |
 = help: name it after a player: leadpipe new anna
",
        )
        .exit(2)
        .run();
    for (name, next) in [("a\"b", "'a\"b.toml'"), ("-b", "./-b.toml")] {
        Test::new(&["new", "--", name])
            .stderr(&format!(
                "{name}.toml is a copy of second-steps, yours to change.\n\
                 Next: leadpipe check {next}\n"
            ))
            .run();
    }
}

#[test]
fn a_note_that_is_none_is_told() {
    for (note, hint) in [
        ("H4", "the note called H in German is B here: B4"),
        (
            "high C",
            "write a letter, # or b if there is one, and the octave: G4 is second-line G, C4 the C on \
             the first ledger line below",
        ),
    ] {
        Test::new(&["choose", note])
            .stderr(&format!(
                "error: “{note}” is not a note\n |\n = help: {hint}\n"
            ))
            .exit(2)
            .run();
    }
}
