//! `sheet` and `chart`: files, their names, and what is refused.

use super::{ROUTINE, Test, written};

#[test]
fn a_sheet_is_a_pdf_unless_something_else_is_asked_for() {
    let ran = Test::new(&["sheet", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .stdout(&separated("to/short sheet.pdf\n"))
        .stderr("1 page.\n")
        .run();
    assert!(
        std::fs::read(ran.path("to/short sheet.pdf"))
            .unwrap()
            .starts_with(b"%PDF-")
    );
    let again = Test::within(
        ran.folder,
        &[
            "sheet",
            "a.toml",
            "--format",
            "svg,png,svg",
            "--paper",
            "letter",
            "--out",
            "to",
        ],
    )
    .stdout(&separated("to/short sheet.svg\nto/short sheet.png\n"))
    .run();
    assert!(
        again
            .read("to/short sheet.svg")
            .contains("viewBox=\"0 0 612 792\"")
    );
    assert_eq!(
        written(&again.path("to")),
        ["short sheet.pdf", "short sheet.png", "short sheet.svg"]
    );
}

#[test]
fn pages_are_numbered_where_there_are_several() {
    let ran = Test::new(&[
        "sheet",
        "second-steps",
        "--format",
        "svg",
        "--passes",
        "all",
    ])
    .run();
    let pages: Vec<&str> = ran.stdout.lines().collect();
    assert!(pages.len() > 1);
    assert!(pages[0].ends_with("second-steps sheet 1.svg"), "{pages:?}");
    assert_eq!(written(&ran.path("output")).len(), pages.len());
}

#[test]
fn the_key_and_the_tempo_are_the_takes() {
    let line = "format = 1\ntitle = \"K\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 60\n\
                [[line]]\nname = \"L\"\nnotes = \"C4:whole\"\n";
    let ran = Test::new(&[
        "sheet", "k.toml", "--format", "svg", "--key", "-2", "--tempo", "50%",
    ])
    .file("k.toml", line)
    .run();
    let drawn = ran.read("output/k sheet.svg");
    assert!(
        drawn.contains("accidentalFlat"),
        "C4 two half steps down is B flat"
    );
    assert!(drawn.contains(">= 30</text>") && drawn.contains("2 half steps down"));
}

#[test]
fn a_pencil_is_drawn_over_it() {
    let pencil = "format = 1\n[[mark]]\nline = 1\ntempo = \"slower\"\n";
    let arguments = ["sheet", "a.toml", "--format", "svg", "--pencil", "p.toml"];
    let ran = Test::new(&arguments)
        .file("a.toml", ROUTINE)
        .file("p.toml", pencil)
        .run();
    let drawn = ran.read("output/short sheet.svg");
    assert!(drawn.contains("class=\"pencil\"") && drawn.contains("slower"));
    // The teacher's tempo is printed, not the player's.
    assert!(drawn.contains(">= 60</text>") && !drawn.contains(">= 51</text>"));
    let ran = Test::new(&arguments).file("a.toml", ROUTINE).exit(2).run();
    assert!(
        ran.stderr
            .starts_with("error: there is no file called p.toml"),
        "{}",
        ran.stderr
    );
    let ran = Test::new(&arguments)
        .file("a.toml", ROUTINE)
        .file("p.toml", pencil.replace("line = 1", "line = 9"))
        .exit(1)
        .run();
    assert!(ran.stderr.contains("there is no line 9"), "{}", ran.stderr);
}

#[test]
fn letters_the_font_has_not_are_told() {
    let text = ROUTINE.replacen("Short", "練習", 1);
    assert_ne!(text, ROUTINE);
    let ran = Test::new(&["sheet", "a.toml"]).file("a.toml", text).run();
    assert!(
        ran.stderr
            .starts_with("warning: the sheet's font has no 練習: empty boxes stand for them\n"),
        "{}",
        ran.stderr
    );
}

#[test]
fn a_chart_is_an_svg() {
    let ran = Test::new(&["chart", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .stdout(&separated("to/short chart.svg\n"))
        .stderr("")
        .run();
    let drawn = ran.read("to/short chart.svg");
    assert!(drawn.starts_with("<svg "));
    // Letters are outlines: they look the same where our fonts are not installed.
    assert!(!drawn.contains("<text") && drawn.contains("<path class=\"text\""));
}

#[test]
fn the_language_of_a_routine_is_in_its_drawings() {
    let text = ROUTINE.replacen("format = 1\n", "format = 1\nlanguage = \"de\"\n", 1);
    let ran = Test::new(&["sheet", "a.toml", "--format", "svg"])
        .file("a.toml", text)
        .run();
    assert!(ran.read("output/short sheet.svg").contains(" lang=\"de\""));
    let text = ROUTINE.replacen("format = 1\n", "format = 1\nlanguage = \"my own\"\n", 1);
    let ran = Test::new(&["sheet", "a.toml"])
        .file("a.toml", text)
        .exit(1)
        .run();
    assert!(
        ran.stderr.contains("my own does not name a language"),
        "{}",
        ran.stderr
    );
}

#[test]
fn a_number_of_pages_is_kept_or_refused() {
    let ran = Test::new(&["sheet", "third-steps", "--pages", "2"]).run();
    assert_eq!(ran.stderr, "2 pages.\n");
    let ran = Test::new(&["sheet", "third-steps", "--pages", "1"])
        .exit(1)
        .run();
    assert_eq!(
        ran.stderr,
        "error: this routine needs 2 pages, even with staves of 6 mm, the smallest that can be read from a stand\n \
         |\n = help: allow it 2 pages, write less out with --passes ends, or print a routine with fewer lines\n"
    );
    let ran = Test::new(&["sheet", "second-steps", "--size", "large"]).run();
    assert!(ran.stderr.ends_with("pages.\n"));
}

#[test]
fn what_cannot_be_done_is_said() {
    let refused = |arguments: &[&str], exit: i32, words: &str| {
        let ran = Test::new(arguments)
            .file("a.toml", ROUTINE)
            .file("file", "")
            .exit(exit)
            .run();
        assert!(ran.stderr.starts_with(words), "{}", ran.stderr);
        assert_eq!(ran.stdout, "");
    };
    refused(
        &["sheet", "a.toml", "--paper", "a5"],
        2,
        "error: --paper cannot be “a5”",
    );
    refused(
        &["sheet", "a.toml", "--format", "docx"],
        2,
        "error: --format cannot be “docx”",
    );
    refused(
        &["sheet", "a.toml", "--fingerings", "some"],
        2,
        "error: --fingerings cannot be “some”",
    );
    refused(
        &["sheet", "a.toml", "--passes", "few"],
        2,
        "error: --passes cannot be “few”",
    );
    refused(
        &["sheet", "a.toml", "--size", "huge"],
        2,
        "error: --size cannot be “huge”",
    );
    refused(
        &["sheet", "a.toml", "--pages", "0"],
        2,
        "error: --pages cannot be “0”",
    );
    refused(
        &["sheet", "b.toml"],
        2,
        "error: there is no file called b.toml",
    );
    refused(&["sheet"], 2, "error: a routine is missing");
    refused(
        &["sheet", "a.toml", "--out", "file"],
        1,
        "error: file is a file, so nothing can be put into it",
    );
    refused(
        &["chart", "a.toml", "--out", "file/more"],
        1,
        "error: file is a file",
    );
}

#[test]
fn a_faulty_routine_has_no_sheet() {
    let ran = Test::new(&["sheet", "a.toml"])
        .file("a.toml", ROUTINE.replace("D4:half", "H4:half"))
        .exit(1)
        .run();
    assert!(ran.stderr.contains("H4"), "{}", ran.stderr);
    assert!(written(&ran.path("output")).is_empty());
}

#[test]
fn a_folder_in_the_way_leaves_nothing_half_done() {
    let ran = Test::new(&["sheet", "a.toml"])
        .file("a.toml", ROUTINE)
        .file("output/short sheet.pdf/inside", "")
        .exit(1)
        .run();
    assert!(
        ran.stderr.contains("there is a folder called"),
        "{}",
        ran.stderr
    );
    assert_eq!(written(&ran.path("output")), ["short sheet.pdf"]);
}

fn separated(text: &str) -> String {
    text.replace('/', std::path::MAIN_SEPARATOR_STR)
}
