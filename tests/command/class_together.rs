//! `class` with a group whose players play together.

use super::{ROUTINE, Test, written};
use std::fs;

const LIST: &str = "\
format = 1

[[group]]
name = \"Brass & friends\"
routine = \"a.toml\"
together = true
tempo = [\"100%\", \"80%\"]

[[player]]
name = \"Ada\"
group = \"brass & friends\"

[[player]]
name = \"Bo\"
group = \"Brass & friends\"
instrument = \"horn in F\"

[[player]]
name = \"Cem\"
group = \"Brass & friends\"
instrument = \"trombone\"

[[player]]
name = \"Dia\"
routine = \"a.toml\"
";

const TUBES: &str = "\n[[line]]\nname = \"Tubes\"\nopen = \"C4:whole\"\ntubes = [\"0\", \"2\"]\n";

fn class(list: &str) -> Test {
    Test::new(&["class", "list.toml", "--out", "to", "--format", "wav"])
        .file("list.toml", list)
        .file("a.toml", format!("{ROUTINE}{TUBES}"))
}

#[test]
fn a_group_gets_tracks_of_all_and_without_each_part() {
    let ran = class(LIST).run();
    ran.says("line 3 “Tubes” is played in turn: first the trumpet in B-flat and the trombone, then the horn in F");
    ran.says("Brass & friends plays together: 8 tracks of all and without each part");
    let room = ran.path("to/brass-and-friends");
    let names = written(&room);
    let tracks: Vec<&String> = names.iter().filter(|n| n.ends_with(".wav")).collect();
    assert_eq!(tracks.len(), 8, "{names:?}");
    let of = |folder: &str, part: &str, tempo: &str| {
        let folder = ran.path(&format!("to/{folder}"));
        let name = written(&folder)
            .into_iter()
            .find(|n| n.contains(part) && n.contains(tempo) && n.ends_with(".wav"));
        let name = name.unwrap_or_else(|| panic!("{part} at {tempo} in {}", folder.display()));
        let reader = hound::WavReader::open(folder.join(name)).unwrap();
        reader.duration()
    };
    // One clock: every player's track and every track of the room has the same frames.
    for tempo in [" 060 ", " 048 "] {
        let all = of("brass-and-friends", " all ", tempo);
        for (folder, part) in [
            ("brass-and-friends", "without-trumpet-in-b-flat"),
            ("brass-and-friends", "without-horn-in-f"),
            ("brass-and-friends", "without-trombone"),
            ("ada", "ada"),
            ("bo", "horn-in-f"),
            ("cem", "trombone"),
        ] {
            assert_eq!(of(folder, part, tempo), all, "{folder} {part}");
        }
    }
    // Whoever is in no group has a clock of their own.
    assert_ne!(of("dia", "dia", " 060 "), of("ada", "ada", " 060 "));
    for (file, built) in [
        ("score.pdf", cfg!(feature = "pdf")),
        ("score.musicxml", cfg!(feature = "exchange")),
    ] {
        assert_eq!(names.contains(&file.to_owned()), built, "{names:?}");
    }
}

#[test]
fn a_second_run_renders_nothing_and_knows_the_folders() {
    let ran = class(LIST).run();
    let room = ran.path("to/brass-and-friends");
    let track = written(&room).into_iter().find(|n| n.ends_with(".wav"));
    let track = room.join(track.unwrap());
    let before = fs::metadata(&track).unwrap().modified().unwrap();
    let arguments = ["class", "list.toml", "--out", "to", "--format", "wav"];
    let again = Test::within(ran.folder, &arguments).run();
    assert!(
        !again.stderr.contains("not in this list"),
        "{}",
        again.stderr
    );
    assert_eq!(fs::metadata(&track).unwrap().modified().unwrap(), before);
}

#[test]
fn what_is_the_same_for_all_is_not_a_players_own() {
    for (row, words) in [
        ("pencil = \"p.toml\"", "pencil is the same for all"),
        ("routine = \"a.toml\"", "routine is the same for all"),
        ("tempo = 60", "tempo is the same for all"),
        ("carry = \"concert\"", "carry is the same for all"),
    ] {
        let list = LIST.replace("name = \"Ada\"\n", &format!("name = \"Ada\"\n{row}\n"));
        class(&list).exit(1).run().says(words);
    }
}

#[test]
fn slips_about_groups_are_told() {
    for (from, to, words) in [
        (
            "group = \"brass & friends\"",
            "group = \"Bras\"",
            "the groups of this list are Brass & friends",
        ),
        (
            "together = true",
            "together = \"yes\"",
            "write together = true",
        ),
        (
            "together = true",
            "together = true\npencil = \"p.toml\"",
            "to a player",
        ),
        (
            "routine = \"a.toml\"\ntogether",
            "together",
            "this player has no routine",
        ),
        (
            "[[player]]\nname = \"Ada\"",
            "[[group]]\nname = \"BRASS & friends\"\n\n[[player]]\nname = \"Ada\"",
            "two groups are called",
        ),
    ] {
        let list = LIST.replacen(from, to, 1);
        assert_ne!(list, LIST, "{from}");
        class(&list).exit(1).run().says(words);
    }
}

#[test]
fn a_group_that_does_not_play_together_shares_what_it_says() {
    let list = LIST.replace("together = true\n", "");
    let ran = class(&list).run();
    assert!(!ran.path("to/brass-and-friends").exists());
    for (player, tracks) in [("ada", 2), ("cem", 2), ("dia", 1)] {
        let names = written(&ran.path(&format!("to/{player}")));
        let found = names.iter().filter(|n| n.ends_with(".wav")).count();
        assert_eq!(found, tracks, "{player}: {names:?}");
    }
}
