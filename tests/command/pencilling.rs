//! `pencil`, and `--pencil` of `render` and `check`.

use super::{ROUTINE, Test, names};
use std::fs;

#[test]
fn marks_are_written_erased_and_read_out() {
    let ran = Test::new(&[
        "pencil", "a.toml", "p.toml", "1", "slower", "--player", "Anna",
    ])
    .file("a.toml", ROUTINE)
    .stdout("")
    .stderr("1 Away: slower (85 % of the tempo).\n")
    .run();
    let first = ran.read("p.toml");
    assert_eq!(
        first,
        "# Pencil marks over a routine, which itself stays as it is.\nformat = 1\nplayer = \"Anna\"\n\n\
         [[mark]]\nline = \"Away\"\ntempo = \"slower\"\n"
    );
    let breath = ["pencil", "a.toml", "p.toml", "away", "breath", "after", "1"];
    let ran = Test::within(ran.folder, &breath)
        .stderr("1 Away: breathe after note 1.\n")
        .run();
    let ran = Test::within(
        ran.folder,
        &[
            "pencil",
            "a.toml",
            "p.toml",
            "all",
            "softer",
            "--date",
            "2026-11-25",
        ],
    )
    .run();
    let ran = Test::within(ran.folder, &["pencil", "a.toml", "p.toml", "--show"])
        .stderr("")
        .stdout(
            "\
Anna: “Short”

The whole routine
  a step softer (since 2026-11-25)

1 Away
  slower (85 % of the tempo)
  breathe after note 1
",
        )
        .run();
    let ran = Test::within(
        ran.folder,
        &["pencil", "a.toml", "p.toml", "all", "softer", "--erase"],
    )
    .stderr("The whole routine: taken back: a step softer.\n")
    .run();
    let erase: Vec<&str> = breath.into_iter().chain(["--erase"]).collect();
    let ran = Test::within(ran.folder, &erase).run();
    assert_eq!(ran.read("p.toml"), first);
    assert_eq!(ran.read("a.toml"), ROUTINE, "the routine stays as it is");
    assert_eq!(names(ran.folder.path()), ["a.toml", "p.toml"]);
}

#[test]
fn what_cannot_be_marked_is_told_and_the_file_stays() {
    let pencil = "format = 1\r\n# mine\r\n\r\n[[mark]]\r\nline = 1\r\ntempo = \"slower\"\r\n";
    for (arguments, exit, message, hint) in [
        (
            &["1", "fastr"][..],
            2,
            "“fastr” is not a mark",
            "did you mean faster?",
        ),
        (
            &["1"],
            2,
            "there is no mark to make",
            "marks are slower, faster, ",
        ),
        (
            &[],
            2,
            "it is not said which line to mark",
            "name it by its number or its name",
        ),
        (
            &["9", "slower"],
            2,
            "there is no line 9 in “Short”",
            "it has 2 lines",
        ),
        (
            &["Awya", "slower"],
            2,
            "there is no line called “Awya” in “Short”",
            "did you mean “Away”?",
        ),
        (
            &["1", "slower"],
            1,
            "1 Away is marked already: slower (85 % of the tempo)",
            "where more is meant write how much",
        ),
        (
            &["1", "leave", "out"],
            1,
            "1 Away is marked already: slower (85 % of the tempo)",
            "take that back first: both cannot be",
        ),
        (
            &["1-3", "times", "2"],
            2,
            "there is no line 3 in “Short”",
            "it has 2 lines",
        ),
        (
            &["2-1", "times", "2"],
            2,
            "2-1 names no lines",
            "the smaller number comes first: 1-2",
        ),
        (
            &["2", "rest", "longer"],
            1,
            "“Home” comes last, and there is no rest after it",
            "mark the rest after the line before",
        ),
        (
            &["1", "breath", "after", "7"],
            1,
            "“Away”: there is no note 7: the line has 2 notes",
            "notes are counted from 1",
        ),
        (
            &["1", "times", "200"],
            2,
            "times is a whole number from 1 to 100",
            "for instance",
        ),
        (
            &["2", "slower", "--erase"],
            1,
            "2 Home does not have this mark: slower (85 % of the tempo)",
            "it has no marks",
        ),
        (
            &["1", "faster", "--erase"],
            1,
            "1 Away does not have this mark: faster (115 % of the tempo)",
            "it is marked: slower",
        ),
        (
            &["1", "slower", "--date", "yesterday"],
            2,
            "--date cannot be “yesterday”",
            "a day is written",
        ),
    ] {
        let all: Vec<&str> = ["pencil", "a.toml", "p.toml"]
            .into_iter()
            .chain(arguments.iter().copied())
            .collect();
        let ran = Test::new(&all)
            .file("a.toml", ROUTINE)
            .file("p.toml", pencil)
            .stdout("")
            .exit(exit)
            .run();
        let start = format!("error: {message}\n |\n = help: {hint}");
        assert!(
            ran.stderr.starts_with(&start),
            "{arguments:?}: {}",
            ran.stderr
        );
        assert_eq!(ran.read("p.toml"), pencil, "{arguments:?}");
    }
}

/// Of two marks of one kind the newer counts, and it is said which one it takes the place of.
#[test]
fn a_mark_of_the_same_kind_is_replaced() {
    let pencil = "format = 1\n# mine\n\n[[mark]]\nline = 1\ntempo = \"slower\"\ntimes = 3\n";
    let ran = Test::new(&["pencil", "a.toml", "p.toml", "1", "faster"])
        .file("a.toml", ROUTINE)
        .file("p.toml", pencil)
        .stderr("1 Away: faster (115 % of the tempo), in place of slower (85 % of the tempo).\n")
        .run();
    assert_eq!(
        ran.read("p.toml"),
        "format = 1\n# mine\n\n[[mark]]\nline = 1\ntimes = 3\n\n[[mark]]\nline = \"Away\"\ntempo = \"faster\"\n"
    );
    // A breath is no other breath's rival.
    let ran = Test::within(
        ran.folder,
        &["pencil", "a.toml", "p.toml", "1", "breath", "after", "1"],
    )
    .stderr("1 Away: breathe after note 1.\n")
    .run();
    assert!(ran.read("p.toml").contains("tempo = \"faster\""));
}

#[test]
fn several_lines_are_marked_at_once_or_none_of_them() {
    for named in ["1,2", "1-2", "1, 2", "1–2"] {
        let ran = Test::new(&["pencil", "a.toml", "p.toml", named, "slower"])
            .file("a.toml", ROUTINE)
            .stderr("1 Away: slower (85 % of the tempo).\n2 Home: slower (85 % of the tempo).\n")
            .run();
        let text = ran.read("p.toml");
        assert_eq!(text.matches("[[mark]]").count(), 2, "{named}: {text}");
        let arguments = ["pencil", "a.toml", "p.toml", named, "slower", "--erase"];
        let ran = Test::within(ran.folder, &arguments).run();
        assert!(!ran.read("p.toml").contains("[[mark]]"), "{named}");
        // The last line has no rest after it: then the first is not marked either.
        let before = ran.read("p.toml");
        let arguments = ["pencil", "a.toml", "p.toml", named, "rest", "longer"];
        let ran = Test::within(ran.folder, &arguments).exit(1).run();
        assert_eq!(ran.read("p.toml"), before, "{named}");
    }
}

/// What is said of a mark that is being made fits a mark that is being made.
#[test]
fn nobody_is_told_to_take_back_what_was_never_marked() {
    let routine = ROUTINE.to_owned()
        + "\n[[line]]\nname = \"Breathe\"\non = \"air\"\nnotes = \"in:whole out:whole\"\n";
    for mark in [
        &["3", "bend"][..],
        &["3", "softer"],
        &["3", "slurred"],
        &["3", "drone", "off"],
        &["3", "half", "steps", "0,-1"],
        &["3", "rest", "longer"],
        &["3", "breath", "after", "1"],
        &["1", "stop", "after", "0"],
        &["all", "bend", "9"],
    ] {
        let arguments: Vec<&str> = ["pencil", "a.toml", "p.toml"]
            .into_iter()
            .chain(mark.iter().copied())
            .collect();
        let ran = Test::new(&arguments).file("a.toml", &routine).exit(1).run();
        assert!(ran.stderr.contains(" = help: "), "{mark:?}: {}", ran.stderr);
        assert!(!ran.stderr.contains("back"), "{mark:?}: {}", ran.stderr);
        assert_eq!(names(ran.folder.path()), ["a.toml"], "{mark:?}");
    }
}

/// Whatever a slip of the fingers says, marks never go into a routine.
#[test]
fn a_routine_is_never_marked_itself() {
    for (file, exit, message) in [
        (
            "a.toml",
            2,
            "a.toml is the routine itself, and stays as it is",
        ),
        ("b.toml", 1, "title is not known here"),
        ("second-steps", 2, "second-steps is a built-in routine"),
    ] {
        let ran = Test::new(&["pencil", "a.toml", file, "1", "slower"])
            .file("a.toml", ROUTINE)
            .file("b.toml", ROUTINE)
            .stdout("")
            .exit(exit)
            .run();
        assert!(
            ran.stderr.starts_with(&format!("error: {message}\n")),
            "{}",
            ran.stderr
        );
        assert_eq!(names(ran.folder.path()), ["a.toml", "b.toml"]);
        assert!(ran.read("a.toml") == ROUTINE && ran.read("b.toml") == ROUTINE);
    }
}

/// A file of another system, with rows of two characters' ends and a mark before it.
#[test]
fn a_mark_taken_back_leaves_every_byte_as_it_was() {
    let text = "\u{feff}format = 1\r\n# mine\r\n\r\n[[mark]]\r\nline = 2\r\ntimes = 3 # three";
    let ran = Test::new(&["pencil", "a.toml", "p.toml", "1", "rest", "longer"])
        .file("a.toml", ROUTINE)
        .file("p.toml", text)
        .run();
    assert!(ran.read("p.toml").starts_with(text));
    let ran = Test::within(
        ran.folder,
        &[
            "pencil", "a.toml", "p.toml", "1", "rest", "longer", "--erase",
        ],
    )
    .run();
    assert_eq!(ran.read("p.toml"), text);
}

#[cfg(unix)]
#[test]
fn links_and_permissions_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let test = Test::new(&["pencil", "a.toml", "link.toml", "1", "slower"])
        .file("a.toml", ROUTINE)
        .file("p.toml", "format = 1\n");
    let path = |name: &str| test.folder.path().join(name);
    symlink("p.toml", path("link.toml")).unwrap();
    fs::set_permissions(path("p.toml"), fs::Permissions::from_mode(0o640)).unwrap();
    let ran = test.run();
    assert!(ran.path("link.toml").is_symlink());
    assert!(ran.read("p.toml").contains("slower"));
    let mode = fs::metadata(ran.path("p.toml"))
        .unwrap()
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o640);
}

pub(super) const PENCIL: &str =
    "format = 1\nplayer = \"Anna\"\n\n[[mark]]\nline = 2\nloudness = \"softer\"\n";

#[test]
fn tracks_say_whose_they_are_and_copy_what_nobody_marked() {
    let ran = Test::new(&["render", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file("p.toml", PENCIL)
        .run();
    let ran = Test::within(
        ran.folder,
        &["render", "a.toml", "--pencil", "p.toml", "--out", "to"],
    )
    .run();
    assert!(
        ran.stdout.contains("short anna 060 key-0 together.wav"),
        "{}",
        ran.stdout
    );
    // Alone, and with the teacher's track to copy from: the same bytes.
    let track = "short anna 060 key-0 together.wav";
    let copied = fs::read(ran.path("to").join(track)).unwrap();
    let ran = Test::within(
        ran.folder,
        &["render", "a.toml", "--pencil", "p.toml", "--out", "alone"],
    )
    .run();
    assert!(fs::read(ran.path("alone").join(track)).unwrap() == copied);
    let plain = fs::read(ran.path("to/short 060 key-0 together.wav")).unwrap();
    assert!(plain != copied && plain.len() == copied.len());
    // One line of two is changed: of the other not a sample is.
    let differs = plain.iter().zip(&copied).position(|(a, b)| a != b).unwrap();
    assert!(differs > plain.len() / 3, "{differs} of {}", plain.len());
    // Without a nickname the file says whose it is.
    let ran = Test::within(
        ran.folder,
        &[
            "render",
            "a.toml",
            "--pencil",
            "Bo's.pencil.toml",
            "--out",
            "bo",
        ],
    )
    .file(
        "Bo's.pencil.toml",
        PENCIL.replace("player = \"Anna\"\n", ""),
    )
    .run();
    assert!(
        ran.stdout.contains("short bos 060 key-0 together.wav"),
        "{}",
        ran.stdout
    );
}

#[test]
fn a_pencil_that_cuts_rest_is_told_so_at_its_place() {
    let routine = ROUTINE.replace("name = \"Away\"", "name = \"Away\"\ntimes = 3");
    let pencil = "format = 1\n\n[[mark]]\nline = 1\nbetween = \"none\"\n\n[[mark]]\nline = 1\nrest = \"8 s\"\n";
    let ran = Test::new(&["check", "a.toml", "--pencil", "p.toml"])
        .file("a.toml", &routine)
        .file("p.toml", pencil)
        .run();
    for (row, column, value) in [(5, 11, "between = \"none\""), (9, 8, "rest = \"8 s\"")] {
        let told = format!(
            "warning: with this mark “Away” rests for less time than it plays\n --> p.toml:{row}:{column}\n  |\n\
             {row} | {value}\n"
        );
        assert!(ran.stderr.contains(&told), "{told}\n{}", ran.stderr);
    }
    assert!(
        ran.stderr.contains("a.toml with 2 marks of p.toml: "),
        "{}",
        ran.stderr
    );
    // The teacher's own version has nothing against it.
    Test::within(ran.folder, &["check", "a.toml"])
        .stderr(
            "Rest to playing leaves aside what is played after the last rest.\na.toml: no problems found.\n",
        )
        .run();
}

#[test]
fn a_check_in_json_holds_the_pencil() {
    let ran = Test::new(&["check", "a.toml", "--pencil", "p.toml", "--json"])
        .file("a.toml", ROUTINE)
        .file("p.toml", PENCIL)
        .stderr("")
        .run();
    let value: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(value["pencil"]["player"], "Anna");
    assert_eq!(value["pencil"]["marks"], 1);
    assert_eq!(value["pencil"]["faults"], serde_json::json!([]));
}
