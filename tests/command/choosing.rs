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
    // Pedal tones are not for a trumpet.
    let mut built_in: Vec<&str> = leadpipe::presets::ALL
        .iter()
        .map(|preset| preset.name)
        .filter(|name| *name != "pedal-tones")
        .collect();
    built_in.sort_unstable();
    let mut sorted = names.clone();
    sorted.sort_unstable();
    assert_eq!(sorted, built_in);
    // By level, then by length.
    let order: Vec<(u64, f64)> = json
        .as_array()
        .unwrap()
        .iter()
        .map(|e| (e["level"].as_u64().unwrap(), e["seconds"].as_f64().unwrap()))
        .collect();
    assert!(order.is_sorted(), "{order:?}");
    let table = Test::new(&["list"]).run().stdout;
    assert_eq!(table.lines().count(), built_in.len() + 1);
    for (line, name) in table.lines().skip(1).zip(names) {
        let mut cells = line.split_whitespace();
        assert!(cells.next().unwrap().parse::<u8>().is_ok());
        assert_eq!(cells.next(), Some(name));
    }
}

#[test]
fn list_keeps_to_a_level_a_skill_or_an_age() {
    let names = |arguments: &[&str]| -> Vec<String> {
        let all = [&["list"], arguments].concat();
        let table = Test::new(&all).run().stdout;
        let rows = table.lines().skip(1);
        rows.map(|row| row.split_whitespace().nth(1).unwrap().to_owned())
            .collect()
    };
    let double = names(&["--skill", "double tonguing"]);
    assert!(
        double.contains(&"double-and-triple".to_owned()),
        "{double:?}"
    );
    assert!(!double.contains(&"second-steps".to_owned()), "{double:?}");
    assert_eq!(
        names(&["--level", "2", "--age", "8-10"]),
        ["second-steps-young"]
    );
    let ran = Test::new(&["list", "--skill", "juggling"]).exit(2).run();
    assert!(
        ran.stderr.contains("the skills are breathing, buzzing, "),
        "{}",
        ran.stderr
    );
    Test::new(&["list", "--level", "5", "--age", "8-10"])
        .stdout("")
        .stderr("No built-in routine is all of that; leave one of the options out.\n")
        .run();
}

#[test]
fn who_is_stuck_on_one_note_gets_a_way_to_a_second_one() {
    let ran = Test::new(&["choose", "--lowest", "G4", "--highest", "G4"]).run();
    for said in [
        "1.  G4 sounds on 1-3 too, and D4 lies near",
        "Then slur them",
        "Then shorten the tube, valve by valve",
        "[[line]]\nname = \"A second note\"\n",
        "Stop at once for pain",
    ] {
        assert!(ran.stdout.contains(said), "{said}: {}", ran.stdout);
    }
    let ran = Test::new(&["choose", "--lowest", "G4", "--highest", "C4"])
        .exit(2)
        .run();
    assert!(ran.stderr.contains("G4 lies above C4"), "{}", ran.stderr);
    let ran = Test::new(&["choose", "c5", "--age", "8-10"]).run();
    assert!(
        ran.stdout.contains("Start with  third-steps-young\n"),
        "{}",
        ran.stdout
    );
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
