//! `class`: a list, a routine or a pencil with faults; who is left out, and how that is told.

use super::class::{LIST, PENCIL, class};
use super::{ROUTINE, Test, names};

#[test]
fn nothing_begins_while_anything_is_broken_unless_asked() {
    let broken = ROUTINE.replace("C4:half", "C4:hlaf");
    let list = LIST.replace(
        "name = \"Ada\"\nroutine = \"a.toml\"",
        "name = \"Ada\"\nroutine = \"broken.toml\"",
    );
    let test = |arguments: &[&str]| {
        class(arguments)
            .file("lists/tuesday.toml", &list)
            .file("lists/broken.toml", &broken)
            .exit(1)
    };
    let ran = test(&[]).stdout("").run();
    assert!(
        ran.stderr.contains("--> lists/broken.toml:11:"),
        "{}",
        ran.stderr
    );
    assert!(
        ran.stderr
            .contains("error: Ada gets no tracks: faults in the routine\n"),
        "{}",
        ran.stderr
    );
    assert!(
        ran.stderr.contains("\n2 players: no problems found.\n"),
        "one report: {}",
        ran.stderr
    );
    assert!(
        ran.stderr.ends_with(
            "error: nothing was rendered, because not everything in this class is as it should be\n |\n = help: \
             --keep-going renders the others\n"
        ),
        "{}",
        ran.stderr
    );
    assert_eq!(names(&ran.path("to")), [""; 0]);
    let ran = test(&["--keep-going"]).run();
    assert_eq!(names(&ran.path("to")), ["bo", "cem"]);
    // Said again at the end, for what was said of it is far above by then.
    assert!(
        ran.stderr
            .ends_with("error: left out: no tracks for Ada (faults in the routine)\n"),
        "{}",
        ran.stderr
    );
    let pencil = PENCIL.replace("line = 2", "line = 9");
    let ran = class(&["--keep-going"])
        .file("lists/bo.toml", pencil)
        .exit(1)
        .run();
    assert!(
        ran.stderr.ends_with("error: left out: marks of Bo\n"),
        "{}",
        ran.stderr
    );
    assert_eq!(names(&ran.path("to")), ["ada", "bo", "cem"]);
}

/// A player whose entry is not understood is named like everybody else who is left out: in the table, in the last words,
/// with the reason; and what is wrong with the player's files is shown at once.
#[test]
fn a_player_whose_entry_is_not_understood_is_named() {
    let list = LIST.replace("age = \"8-10\"", "age = \"12\"");
    let ran = class(&["--keep-going"])
        .file("lists/tuesday.toml", &list)
        .file("lists/bo.toml", PENCIL.replace("line = 2", "line = 9"))
        .exit(1)
        .run();
    for told in [
        "error: age cannot be \"12\"\n",
        "error: there is no line 9 in “Short”\n --> lists/bo.toml:",
        "error: Bo gets no tracks: not understood in the class list\n",
    ] {
        assert!(ran.stderr.contains(told), "{told}{}", ran.stderr);
    }
    let end = "error: left out: no tracks for Bo (not understood in the class list); what is not understood in the list\n";
    assert!(ran.stderr.ends_with(end), "{}", ran.stderr);
    let row = ran.stdout.lines().find(|row| row.starts_with("Bo "));
    let row = row.unwrap_or_else(|| panic!("{}", ran.stdout));
    assert!(
        row.ends_with("left out: not understood in the class list"),
        "{row}"
    );
    assert_eq!(names(&ran.path("to")), ["ada", "cem"]);
    // Without a name the place in the list stands for it.
    let list = LIST.replace("name = \"Bo\"\n", "");
    let ran = class(&["--keep-going"])
        .file("lists/tuesday.toml", &list)
        .exit(1)
        .run();
    assert!(ran.stdout.contains("\nplayer 2 "), "{}", ran.stdout);
    assert!(
        ran.stderr
            .contains("no tracks for player 2 (not understood in the class list)"),
        "{}",
        ran.stderr
    );
}

#[test]
fn what_is_wrong_in_a_list_is_told_at_its_place() {
    for (from, to, message, hint) in [
        (
            "routine = \"a.toml\"\nguide",
            "routine = \"b.toml\"\nguide",
            "there is no file called lists/b.toml",
            "leadpipe list shows",
        ),
        (
            "pencil = \"bo.toml\"",
            "pencil = \"no.toml\"",
            "there is no file called lists/no.toml",
            "leadpipe pencil",
        ),
        (
            "name = \"Cem\"",
            "name = \"bo\"",
            "two players are called bo",
            "tell them apart with a nickname",
        ),
        (
            "age = \"8-10\"",
            "age = \"9\"",
            "age cannot be \"9\"",
            "it can be \"8-10\"",
        ),
        (
            "guide = [\"together\", \"off\"]",
            "guide = [\"silent\"]",
            "this is no guide mode",
            "it can be \"together\"",
        ),
        ("48]", "4800]", "this is no tempo", "write clicks a minute"),
        (
            "pencil =",
            "pensil =",
            "pensil is not known here",
            "did you mean pencil?",
        ),
        (
            "name = \"Ada\"\n",
            "",
            "this player has no name",
            "a nickname is enough",
        ),
        (
            "[[player]]\nname = \"Bo\"",
            "[[plyer]]\nname = \"Bo\"",
            "plyer is not known here",
            "did you mean player?",
        ),
        (
            "tempo = [\"100%\"]",
            "tempo = []",
            "tempo holds from 1 to 20 entries",
            "for instance tempo = ",
        ),
    ] {
        let list = LIST.replacen(from, to, 1);
        assert_ne!(list, LIST);
        let ran = class(&[])
            .file("lists/tuesday.toml", list)
            .exit(1)
            .stdout("")
            .run();
        let told = format!("error: {message}\n");
        assert!(ran.stderr.contains(&told), "{told}{}", ran.stderr);
        assert!(
            ran.stderr.contains(&format!("= help: {hint}")),
            "{hint}\n{}",
            ran.stderr
        );
        assert!(
            ran.stderr.contains("--> lists/tuesday.toml:"),
            "{}",
            ran.stderr
        );
    }
    Test::new(&["class", "none.toml"])
        .stderr("error: there is no file called none.toml\n |\n = help: a class list is a text file of yours; README.md shows one\n")
        .exit(2)
        .run();
}
