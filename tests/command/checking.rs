//! Finding and reading routines, and `check`.

use super::{ROUTINE, Test};

#[test]
fn a_routine_that_is_not_there_is_a_slip() {
    Test::new(&["check", "anna.toml"])
        .stdout("")
        .stderr(
            "\
error: there is no file called anna.toml
 |
 = help: leadpipe list shows the built-in routines; leadpipe new writes one to change
",
        )
        .exit(2)
        .run();
    for (file, argument, hint) in [
        (
            "anna.toml.txt",
            "anna.toml",
            "there is anna.toml.txt: take .txt off its name (the file manager may be hiding it)",
        ),
        ("anna.toml", "anna", "there is anna.toml"),
        (
            "other",
            "second-step",
            "the built-in routine is called second-steps",
        ),
        (
            "other",
            "Second Steps.toml",
            "the built-in routine is called second-steps",
        ),
    ] {
        Test::new(&["check", argument])
            .file(file, ROUTINE)
            .stderr(&format!(
                "error: there is no file called {argument}\n |\n = help: {hint}\n"
            ))
            .exit(2)
            .run();
    }
    Test::new(&["check", "folder"])
        .file("folder/file", "")
        .stderr(
            "\
error: folder is a folder, not a routine
 |
 = help: name the routine's file in it
",
        )
        .exit(2)
        .run();
}

#[test]
fn text_in_another_encoding_is_told_how_to_be_saved() {
    let sixteen = |swap: bool, mark: bool| -> Vec<u8> {
        let mark = if mark { "\u{feff}" } else { "" };
        let units = format!("{mark}{ROUTINE}");
        let units = units.encode_utf16();
        units
            .flat_map(|unit| {
                if swap {
                    unit.to_be_bytes()
                } else {
                    unit.to_le_bytes()
                }
            })
            .collect()
    };
    for (swap, mark) in [(false, true), (true, true), (false, false), (true, false)] {
        Test::new(&["check", "anna.toml"])
            .file("anna.toml", sixteen(swap, mark))
            .stdout("")
            .stderr(
                "\
error: anna.toml is saved as UTF-16, not as UTF-8
 |
 = help: in the text editor choose “save as”, and UTF-8 as the encoding
",
            )
            .exit(1)
            .run();
    }
    Test::new(&["check", "anna.toml"])
        .file("anna.toml", b"format = 1\ntitle = \"\xdcbung\"\n")
        .stderr(
            "\
error: anna.toml is not saved as UTF-8: line 2 holds a letter in another encoding
 |
 = help: in the text editor choose “save as”, and UTF-8 as the encoding
",
        )
        .exit(1)
        .run();
    Test::new(&["check", "anna.toml"])
        .file("anna.toml", vec![b'#'; (1 << 20) + 1])
        .stderr("error: anna.toml is larger than one mebibyte, which no routine needs\n")
        .exit(1)
        .run();
}

#[test]
fn what_is_no_plain_text_is_no_routine() {
    let picture = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x01\0\0\0\x01\0\x08\x02\0\0";
    let packed = b"PK\x03\x04\x14\0\x06\0[Content_Types].xml";
    let rich = b"{\\rtf1\\ansi format = 1\\par}\n";
    let zero = ROUTINE.replacen("Short", "Sh\0rt", 1);
    for bytes in [&picture[..], packed, rich, zero.as_bytes()] {
        Test::new(&["check", "anna.toml"])
            .file("anna.toml", bytes)
            .stdout("")
            .stderr(
                "\
error: anna.toml is not plain text, so it is no routine
 |
 = help: a routine is written with a text editor; a word processor can “save as” plain text, in UTF-8
",
            )
            .exit(1)
            .run();
    }
}

#[test]
fn a_file_without_a_routine_is_told_once() {
    for (text, place) in [
        ("", "1 |\n  | ^"),
        ("\n \n", "1 |\n  | ^"),
        ("# later\n", "1 | # later\n  | ^^^^^^^"),
    ] {
        Test::new(&["check", "a.toml"])
            .file("a.toml", text)
            .stdout("")
            .stderr(&format!(
                "\
error: there is no routine in this file
 --> a.toml:1:1
  |
{place}
  |
  = help: a routine begins with format = 1 and title = \"…\"; leadpipe new writes one to start from

a.toml: 1 fault.
"
            ))
            .exit(1)
            .run();
    }
}

/// A row of a megabyte is not shown a hundred times over, and every fault is still counted.
#[test]
fn of_an_endless_row_the_first_faults_are_shown() {
    let text = ROUTINE.replace("p slur( C4", &"X4:half ".repeat(50_000));
    let ran = Test::new(&["check", "a.toml"])
        .file("a.toml", text)
        .stdout("")
        .exit(1)
        .run();
    assert_eq!(ran.stderr.matches("X4:half is not understood").count(), 5);
    assert!(
        ran.stderr
            .ends_with("\n95 more in rows that are as long are not shown.\na.toml: 100 faults.\n"),
        "{}",
        ran.stderr
    );
}

#[test]
fn windows_line_ends_are_not_shown() {
    let text = ROUTINE.replace("E4:half", "E4:haf").replace('\n', "\r\n");
    Test::new(&["check", "a.toml"])
        .file("a.toml", text)
        .stdout("")
        .stderr(
            "\
error: haf is no note value
  --> a.toml:11:29
   |
11 | notes = \"p slur( C4:half E4:haf )\"
   |                             ^^^
   |
   = help: write E4:half

a.toml: 1 fault.
",
        )
        .exit(1)
        .run();
}

#[test]
fn a_file_that_is_too_long_to_play_says_how_to_shorten_it() {
    let steps = ["0"; 50].join(", ");
    let text = ROUTINE.replace(
        "name = \"Away\"",
        &format!("name = \"Away\"\ntimes = 100\nhalf_steps = [{steps}]"),
    );
    Test::new(&["check", "a.toml"])
        .file("a.toml", text)
        .stdout("")
        .stderr(
            "\
error: “Short” at 60 clicks a minute would last 5:33:21 or more, and a track can last four hours
 |
 = help: fewer times, half_steps or tubes make it shorter, and so do shorter rests
",
        )
        .exit(1)
        .run();
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_named() {
    use std::os::unix::fs::PermissionsExt;
    let test = Test::new(&["check", "a.toml"]).file("a.toml", ROUTINE);
    let path = test.folder.path().join("a.toml");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o000)).unwrap();
    // Who may do everything may read it, too.
    if std::fs::read(&path).is_ok() {
        return;
    }
    test.stdout("")
        .stderr(
            "\
error: a.toml may not be read by you
 |
 = help: ask whoever it belongs to, or copy it into a folder of your own
",
        )
        .exit(1)
        .run();
}

#[test]
fn byte_order_marks_and_other_line_ends_are_nothing_to_speak_of() {
    let plain = Test::new(&["check", "a.toml"])
        .file("a.toml", ROUTINE)
        .run();
    for line_end in ["\r\n", "\r"] {
        let text = format!("\u{feff}{}", ROUTINE.replace('\n', line_end));
        Test::new(&["check", "a.toml"])
            .file("a.toml", text)
            .stdout(&plain.stdout)
            .stderr(&plain.stderr)
            .run();
    }
}

#[test]
fn check_ends_with_figures_for_every_tempo() {
    Test::new(&["check", "a.toml", "--tempo", "100%,80%,30"])
        .file("a.toml", ROUTINE)
        .stdout(
            "\
Short, trumpet in B-flat, 2 lines
Clicks a minute  Length  Playing  Rest  Rest to playing  Lowest  Highest  Breaths
      60 (100%)    0:17     0:08  0:05        1.12 to 1  C4      E4             0
       48 (80%)    0:21     0:10  0:06        1.10 to 1  C4      E4             0
             30    0:33     0:16  0:09        1.06 to 1  C4      E4             0
",
        )
        .stderr(
            "\
Rest to playing leaves aside what is played after the last rest.
a.toml: no problems found.
",
        )
        .run();
}

#[test]
fn a_routine_is_read_from_standard_input() {
    let ran = Test::new(&["check", "-"]).stdin(ROUTINE).run();
    assert!(ran.stderr.contains("standard input"), "{}", ran.stderr);
    assert!(
        ran.stdout
            .starts_with("Short, trumpet in B-flat, 2 lines\n")
    );
}

#[test]
fn a_fault_is_underlined_in_the_teachers_own_file() {
    let text = ROUTINE.replace("( C4:half", "( C4:hlaf");
    let ran = Test::new(&["check", "a.toml"])
        .file("a.toml", &text)
        .stdout("")
        .exit(1)
        .run();
    assert!(ran.stderr.starts_with("error: "));
    let line = 1 + text.lines().position(|l| l.contains("hlaf")).unwrap();
    assert!(
        ran.stderr.contains(&format!(" --> a.toml:{line}:")),
        "{}",
        ran.stderr
    );
    assert!(ran.stderr.contains("^^^"), "{}", ran.stderr);
    assert!(ran.stderr.ends_with("a.toml: 1 fault.\n"), "{}", ran.stderr);
    assert!(
        !ran.stderr.contains('\u{1b}'),
        "no colour where there is no terminal"
    );
}

#[test]
fn check_writes_json() {
    let ran = Test::new(&["check", "a.toml", "--json", "--tempo", "100%,50"])
        .file("a.toml", ROUTINE)
        .stderr("")
        .run();
    let json: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(json["title"], "Short");
    assert_eq!(json["takes"].as_array().unwrap().len(), 2);
    assert_eq!(json["takes"][1]["clicks_a_minute"], 50.0);
    assert_eq!(json["takes"][0]["lines"][1]["name"], "Home");
    let ran = Test::new(&["check", "a.toml", "--json"])
        .file("a.toml", ROUTINE.replace("( C4:half", "( C4:hlaf"))
        .stderr("")
        .exit(1)
        .run();
    let json: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(json["faults"].as_array().unwrap().len(), 1);
    assert!(json["faults"][0]["line"].as_u64().unwrap() > 1);
}

#[test]
fn hostile_titles_reach_no_terminal() {
    let raw = ROUTINE.replace("( C4:half", "( C4:hlaf \u{202e}\u{1b}[2J");
    let escaped = ROUTINE.replace("Short", "\\u001b[2JShort\\u202e");
    for text in [raw, escaped] {
        let ran = Test::new(&["check", "a.toml"])
            .file("a.toml", text)
            .exit(1)
            .run();
        assert!(ran.stderr.starts_with("error: "));
        for c in ['\u{1b}', '\u{202e}'] {
            assert!(
                !ran.stdout.contains(c) && !ran.stderr.contains(c),
                "{}",
                ran.stderr
            );
        }
    }
}
