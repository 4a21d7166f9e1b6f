//! Pencils with marks that do not fit: what is told, and what is not done.

use super::pencilling::PENCIL;
use super::{ROUTINE, Test, names};

const MISFIT: &str = "format = 1\nplayer = \"Anna\"\n\n[[mark]]\nline = 1\ntimes = 2\n\n\
    [[mark]]\nline = 2\nrest = \"longer\"\n\n[[mark]]\nline = 9\nwords = \"never printed\"\n";

#[test]
fn a_mark_that_does_not_fit_keeps_the_routine_from_being_rendered() {
    let pencil = format!("{PENCIL}\n[[mark]]\nline = 3\ntimes = 2\n");
    let told = "\
error: there is no line 3 in “Short”
 --> p.toml:9:8
  |
9 | line = 3
  |        ^
  |
  = help: it has 2 lines; name the line by its name

";
    let ran = Test::new(&["render", "a.toml", "--pencil", "p.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file("p.toml", &pencil)
        .stdout("")
        .stderr(&format!(
            "{told}error: p.toml: 1 mark does not fit\n |\n = help: --keep-going applies the other marks and \
             leaves these out\nerror: 1 routine was not rendered\n"
        ))
        .exit(1)
        .run();
    assert_eq!(names(&ran.path("to")), [""; 0]);
    let ran = Test::within(
        ran.folder,
        &[
            "render",
            "a.toml",
            "--pencil",
            "p.toml",
            "--out",
            "to",
            "--keep-going",
        ],
    )
    .exit(1)
    .run();
    assert_eq!(ran.stderr, format!("{told}1 track rendered.\n"));
}

#[test]
fn a_file_that_is_no_pencil_applies_no_mark_whatever_is_asked() {
    Test::new(&["check", "a.toml", "--pencil", "p.toml", "--keep-going"])
        .file("a.toml", ROUTINE)
        .file("p.toml", PENCIL.replace("line = 2", "line 2"))
        .stdout("")
        .stderr(
            "\
error: this row is not understood
 --> p.toml:5:1
  |
5 | line 2
  | ^^^^^^
  |
  = help: an equals sign parts a name from its value: line = 2

",
        )
        .exit(1)
        .run();
    Test::new(&["check", "a.toml", "--pencil", "nowhere.toml"])
        .file("a.toml", ROUTINE)
        .stderr(
            "error: there is no file called nowhere.toml\n |\n = help: leadpipe pencil ROUTINE nowhere.toml LINE \
             slower writes one with its first mark\n",
        )
        .exit(2)
        .run();
}

/// Marks that were left out are not printed, told or counted as if they were applied.
#[test]
fn marks_that_were_left_out_are_not_told_as_applied() {
    let with = ["--pencil", "p.toml", "--keep-going"];
    let run = |command: &[&str]| {
        let arguments: Vec<&str> = command.iter().chain(&with).copied().collect();
        Test::new(&arguments)
            .file("a.toml", ROUTINE)
            .file("p.toml", MISFIT)
            .exit(1)
            .run()
    };
    let ran = run(&["check", "a.toml"]);
    assert!(
        ran.stderr.contains("a.toml with 1 mark of p.toml: "),
        "{}",
        ran.stderr
    );
    let ran = run(&["check", "a.toml", "--json"]);
    assert!(ran.stdout.contains("\"marks\": 1,"), "{}", ran.stdout);

    let ran = run(&["sheet", "a.toml", "--format", "svg", "--out", "to"]);
    let kept = "format = 1\nplayer = \"Anna\"\n\n[[mark]]\nline = 1\ntimes = 2\n";
    let alone = Test::new(&[
        "sheet", "a.toml", "--format", "svg", "--out", "to", "--pencil", "p.toml",
    ])
    .file("a.toml", ROUTINE)
    .file("p.toml", kept)
    .run();
    assert_eq!(
        ran.read("to/short sheet.svg"),
        alone.read("to/short sheet.svg")
    );
    if cfg!(feature = "exchange") {
        run(&["export", "a.toml", "--to", "midi", "--out", "to"]);
    }
}
