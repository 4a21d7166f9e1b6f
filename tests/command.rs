//! The command line: exact words, exit codes, and what is left behind.

use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Four short lines that the checker has nothing to say against.
const ROUTINE: &str = include_str!("command/short.toml");

/// One run of the program in a folder of its own.
struct Test {
    folder: TempDir,
    arguments: Vec<String>,
    stdin: Vec<u8>,
    stdout: Option<String>,
    stderr: Option<String>,
    exit: i32,
}

impl Test {
    fn new(arguments: &[&str]) -> Self {
        Self::within(tempfile::tempdir().unwrap(), arguments)
    }

    /// The same in a folder of an earlier run.
    fn within(folder: TempDir, arguments: &[&str]) -> Self {
        Self {
            folder,
            arguments: arguments.iter().map(|a| (*a).to_owned()).collect(),
            stdin: vec![],
            stdout: None,
            stderr: None,
            exit: 0,
        }
    }

    fn file(self, name: &str, content: impl AsRef<[u8]>) -> Self {
        let path = self.folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
        self
    }

    fn stdin(mut self, content: impl Into<Vec<u8>>) -> Self {
        self.stdin = content.into();
        self
    }

    fn stdout(mut self, text: &str) -> Self {
        self.stdout = Some(text.to_owned());
        self
    }

    fn stderr(mut self, text: &str) -> Self {
        self.stderr = Some(text.to_owned());
        self
    }

    fn exit(mut self, code: i32) -> Self {
        self.exit = code;
        self
    }

    /// Runs it and holds what came out against what was expected.
    fn run(self) -> Ran {
        let output = command(self.folder.path())
            .args(&self.arguments)
            .write_stdin(self.stdin)
            .output()
            .unwrap();
        let stdout = String::from_utf8(output.stdout).unwrap();
        let stderr = String::from_utf8(output.stderr).unwrap();
        if let Some(expected) = &self.stdout {
            assert_eq!(&stdout, expected, "stdout; stderr was:\n{stderr}");
        }
        if let Some(expected) = &self.stderr {
            assert_eq!(&stderr, expected, "stderr");
        }
        assert_eq!(output.status.code(), Some(self.exit), "{stdout}\n{stderr}");
        Ran {
            folder: self.folder,
            stdout,
            stderr,
        }
    }
}

/// What came of a run.
struct Ran {
    folder: TempDir,
    stdout: String,
    stderr: String,
}

impl Ran {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }
}

fn command(folder: &Path) -> assert_cmd::Command {
    let mut command = assert_cmd::Command::new(env!("CARGO_BIN_EXE_leadpipe"));
    command
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE");
    command
}

/// Names in a folder, sorted; none if there is no such folder.
fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return vec![];
    };
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn alone_it_says_what_it_is_for_and_three_commands() {
    let ran = Test::new(&[]).stderr("").run();
    assert!(ran.stdout.starts_with("leadpipe makes play-along tracks"));
    let commands = ran.stdout.lines().filter(|l| l.starts_with("  leadpipe "));
    assert_eq!(commands.count(), 3);
}

#[test]
fn every_command_has_help_with_examples() {
    for name in ["check", "choose", "list", "new", "render", "completions"] {
        let ran = Test::new(&[name, "--help"]).stderr("").run();
        assert!(
            ran.stdout
                .contains(&format!("Examples:\n  leadpipe {name}")),
            "{name}"
        );
    }
    Test::new(&["--version"])
        .stdout(concat!("leadpipe ", env!("CARGO_PKG_VERSION"), "\n"))
        .stderr("")
        .run();
}

#[test]
fn wrong_usage_exits_with_two() {
    for arguments in [
        &["rneder"][..],
        &["check"],
        &["check", "second-steps", "--tempo", "0.85"],
        &["check", "second-steps", "--tempo", "61,2"],
        &["check", "second-steps", "--key", "F"],
        &["check", "second-steps", "--age", "12"],
        &["render", "--guide", "loud"],
        &["render", "--rate", "96000"],
        &["render", "--bits", "8"],
        &["render", "--signs", "maybe"],
        &["render", "--threads", "0"],
        &["render", "--no-such-option"],
        &["choose"],
        &["completions", "abacus"],
    ] {
        let ran = Test::new(arguments).stdout("").exit(2).run();
        assert!(ran.stderr.starts_with("error: "), "{}", ran.stderr);
        assert_eq!(names(ran.folder.path()), [""; 0]);
    }
}

#[test]
fn a_value_that_cannot_be_is_explained() {
    let ran = Test::new(&["render", "--tempo", "0.85"]).exit(2).run();
    assert!(
        ran.stderr.starts_with(
            "error: invalid value '0.85' for '--tempo <LIST>': tempos go from 20 to 300 clicks a \
             minute; a part of what is written ends in %: 85%\n"
        ),
        "{}",
        ran.stderr
    );
}

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
fn a_byte_order_mark_and_windows_line_ends_are_nothing_to_speak_of() {
    let plain = Test::new(&["check", "a.toml"])
        .file("a.toml", ROUTINE)
        .run();
    let text = format!("\u{feff}{}", ROUTINE.replace('\n', "\r\n"));
    Test::new(&["check", "a.toml"])
        .file("a.toml", text)
        .stdout(&plain.stdout)
        .stderr(&plain.stderr)
        .run();
}

#[test]
fn check_ends_with_figures_for_every_tempo() {
    Test::new(&["check", "a.toml", "--tempo", "100%,80%,30"])
        .file("a.toml", ROUTINE)
        .stdout(
            "\
Short, trumpet in B-flat, 2 lines
Clicks a minute  Length  Playing  Rest  Rest to playing  Lowest  Highest  Breaths
      60 (100%)    0:17     0:08  0:05        0.56 to 1  C4      E4             0
       48 (80%)    0:21     0:10  0:06        0.55 to 1  C4      E4             0
             30    0:33     0:16  0:09        0.53 to 1  C4      E4             0
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
        .stderr("error: none/anna.toml cannot be written: there is no such folder\n")
        .exit(1)
        .run();
    Test::new(&["new", ""]).exit(2).run();
}

#[test]
fn completions_name_the_commands() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let ran = Test::new(&["completions", shell]).stderr("").run();
        assert!(ran.stdout.contains("completions") && ran.stdout.contains("tempo"));
    }
}

#[test]
fn tracks_are_listed_on_standard_output_and_named_for_practice() {
    let ran = Test::new(&[
        "render", "a.toml", "--tempo", "100%,80%", "--key", "0,-1", "--out", "to",
    ])
    .file("a.toml", ROUTINE)
    .stdout(&with_separators(
        "\
Track                                 Length    Size
to/short 060 key-0 together.wav         0:17  1.5 MB  new
to/short 060 key-down-1 together.wav    0:17  1.5 MB  new
to/short 048 key-0 together.wav         0:21  1.9 MB  new
to/short 048 key-down-1 together.wav    0:21  1.9 MB  new
",
    ))
    .run();
    assert!(
        ran.stderr.ends_with("4 tracks rendered.\n"),
        "{}",
        ran.stderr
    );
    let again = Test::within(ran.folder, &["render", "a.toml", "--out", "to"])
        .stdout(&with_separators(
            "\
Track                            Length    Size
to/short 060 key-0 together.wav    0:17  1.5 MB  unchanged
",
        ))
        .run();
    assert!(
        again.stderr.ends_with("1 track unchanged.\n"),
        "{}",
        again.stderr
    );
    let changed = ROUTINE.replace("D4:half", "E4:half");
    let again = Test::within(
        again.folder,
        &["render", "a.toml", "--tempo", "100%,80%,60", "--out", "to"],
    )
    .file("a.toml", changed)
    .run();
    assert!(
        again
            .stderr
            .ends_with("2 tracks rendered again: 2 of 4 lines.\n"),
        "{}",
        again.stderr
    );
    assert_eq!(
        names(&again.path("to")),
        [
            ".leadpipe",
            "short 048 key-0 together.wav",
            "short 048 key-down-1 together.wav",
            "short 060 key-0 together.wav",
            "short 060 key-down-1 together.wav",
        ]
    );
}

/// Paths as this system writes them.
fn with_separators(text: &str) -> String {
    text.replace("to/", &format!("to{}", std::path::MAIN_SEPARATOR))
}

#[test]
fn routines_of_one_title_do_not_overwrite_each_other() {
    let ran = Test::new(&["render", "a.toml", "b.toml", "-", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file(
            "b.toml",
            ROUTINE.replace("Short", "SHÖRT").replace('Ö', "O"),
        )
        .stdin(ROUTINE)
        .run();
    assert_eq!(
        names(&ran.path("to")),
        [
            ".leadpipe",
            "short 060 key-0 together.wav",
            "short-2 060 key-0 together.wav",
            "short-3 060 key-0 together.wav",
        ]
    );
}

#[test]
fn a_routine_with_errors_is_refused_and_the_others_are_rendered() {
    let ran = Test::new(&["render", "bad.toml", "good.toml", "--out", "to"])
        .file("bad.toml", ROUTINE.replace("( C4:half", "( C4:hlaf"))
        .file("good.toml", ROUTINE)
        .exit(1)
        .run();
    assert!(ran.stderr.contains(" --> bad.toml:"), "{}", ran.stderr);
    assert!(
        ran.stderr
            .ends_with("1 track rendered.\nerror: 1 routine was not rendered\n"),
        "{}",
        ran.stderr
    );
    assert_eq!(
        names(&ran.path("to")),
        [".leadpipe", "short 060 key-0 together.wav"]
    );
    let ran = Test::new(&["render", "good.toml", "none.toml", "--out", "to"])
        .file("good.toml", ROUTINE)
        .exit(2)
        .run();
    assert_eq!(
        names(&ran.path("to")),
        [""; 0],
        "a slip stops before anything is rendered"
    );
}

#[test]
fn a_take_that_cannot_be_is_refused_before_anything_is_rendered() {
    let ran = Test::new(&["render", "a.toml", "--tempo", "100%,20%", "--out", "to"])
        .file("a.toml", ROUTINE)
        .stdout("")
        .exit(2)
        .run();
    assert!(
        ran.stderr.contains("would come to 12 clicks a minute"),
        "{}",
        ran.stderr
    );
    assert_eq!(names(&ran.path("to")), [""; 0]);
    Test::new(&["check", "a.toml", "--key", "24"])
        .file("a.toml", ROUTINE)
        .exit(2)
        .run();
}

#[test]
fn what_stands_in_the_way_of_tracks_is_named() {
    let ran = Test::new(&["render", "a.toml", "--out", "file"])
        .file("a.toml", ROUTINE)
        .file("file", "mine")
        .stdout("")
        .exit(1)
        .run();
    assert!(
        ran.stderr.ends_with(
            "\
error: file is a file, so no tracks can be put into it
 |
 = help: name another folder with --out
"
        ),
        "{}",
        ran.stderr
    );
    assert_eq!(ran.read("file"), "mine");
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::io::Read;
    use std::process::{Child, Command, Stdio};
    use std::time::{Duration, Instant};

    /// A routine whose tracks take a while.
    fn long() -> String {
        ROUTINE.replace("tempo = 60", "tempo = 20").replace(
            "name = \"Home\"",
            "name = \"Home\"\ntimes = 100\nbetween = \"60 s\"",
        )
    }

    fn shell(folder: &Path, script: &str) -> std::process::Output {
        Command::new("sh")
            .args(["-c", script])
            .current_dir(folder)
            .env("LEADPIPE", env!("CARGO_BIN_EXE_leadpipe"))
            .output()
            .unwrap()
    }

    /// Starts a render of four long tracks and waits until one has begun to grow.
    fn start(folder: &Path) -> Child {
        fs::write(folder.join("long.toml"), long()).unwrap();
        let child = Command::new(env!("CARGO_BIN_EXE_leadpipe"))
            .args(["render", "long.toml", "--out", "to", "--force"])
            .args(["--key", "0,-1,-2,-3", "--threads", "2"])
            .current_dir(folder)
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let begun = Instant::now();
        while !parts(folder).iter().any(|bytes| *bytes > 1 << 20) {
            assert!(begun.elapsed() < Duration::from_secs(20), "nothing grows");
            std::thread::sleep(Duration::from_millis(2));
        }
        child
    }

    /// Lengths of unfinished files.
    fn parts(folder: &Path) -> Vec<u64> {
        let to = folder.join("to");
        names(&to)
            .iter()
            .filter(|name| name.ends_with(".part"))
            .filter_map(|name| fs::metadata(to.join(name)).ok())
            .map(|metadata| metadata.len())
            .collect()
    }

    /// Every track there is whole.
    fn assert_whole(folder: &Path) {
        for name in names(&folder.join("to")) {
            if name.ends_with(".wav") {
                let bytes = fs::read(folder.join("to").join(&name)).unwrap();
                let riff = u32::from_le_bytes(bytes[4..8].try_into().unwrap());
                assert_eq!(riff as usize + 8, bytes.len(), "{name}");
            }
        }
    }

    #[test]
    fn ctrl_c_ends_it_within_a_second_and_leaves_nothing_unfinished() {
        let folder = tempfile::tempdir().unwrap();
        let mut child = start(folder.path());
        let pressed = Instant::now();
        let id = child.id().to_string();
        assert!(
            Command::new("kill")
                .args(["-INT", &id])
                .status()
                .unwrap()
                .success()
        );
        let status = child.wait().unwrap();
        assert!(pressed.elapsed() < Duration::from_secs(1));
        assert_eq!(status.code(), Some(130));
        let mut said = String::new();
        child.stderr.unwrap().read_to_string(&mut said).unwrap();
        assert!(
            said.ends_with("Stopped; unfinished tracks were taken away.\n"),
            "{said}"
        );
        assert_eq!(parts(folder.path()), [0; 0]);
        assert_whole(folder.path());
    }

    #[test]
    fn a_killed_render_leaves_no_broken_track_and_the_next_clears_up() {
        let folder = tempfile::tempdir().unwrap();
        let mut child = start(folder.path());
        child.kill().unwrap();
        child.wait().unwrap();
        assert!(!parts(folder.path()).is_empty());
        assert_whole(folder.path());
        let ran = Test::within(folder, &["render", "a.toml", "--out", "to"])
            .file("a.toml", ROUTINE)
            .run();
        assert!(ran.stderr.contains("Cleared away "), "{}", ran.stderr);
        assert_eq!(parts(ran.folder.path()), [0; 0]);
    }

    #[test]
    fn another_runs_live_files_are_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let mut child = start(folder.path());
        let ran = Test::within(folder, &["render", "a.toml", "--out", "to"])
            .file("a.toml", ROUTINE)
            .run();
        assert!(!ran.stderr.contains("Cleared"), "{}", ran.stderr);
        assert!(child.try_wait().unwrap().is_some() || !parts(ran.folder.path()).is_empty());
        child.kill().unwrap();
        child.wait().unwrap();
    }

    /// As on a full disk: a write fails midway.
    #[test]
    fn a_file_that_cannot_grow_harms_nothing() {
        let ran = Test::new(&["render", "a.toml", "--out", "to"])
            .file("a.toml", ROUTINE)
            .run();
        let track = ran.path("to/short 060 key-0 together.wav");
        let before = fs::read(&track).unwrap();
        let script = "trap '' XFSZ; ulimit -f 1000; \"$LEADPIPE\" render a.toml --force --out to";
        let output = shell(ran.folder.path(), script);
        assert_eq!(output.status.code(), Some(1));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(
            said.ends_with(
                "error: to/short 060 key-0 together.wav could not be written: it is larger than a \
                 file may be here\n"
            ),
            "{said}"
        );
        assert!(fs::read(&track).unwrap() == before);
        assert_eq!(parts(ran.folder.path()), [0; 0]);
        // The record still holds: nothing is rendered again.
        let again = Test::within(ran.folder, &["render", "a.toml", "--out", "to"]).run();
        assert!(
            again.stderr.ends_with("1 track unchanged.\n"),
            "{}",
            again.stderr
        );
    }

    #[test]
    fn a_folder_that_may_not_be_written_to_is_named() {
        use std::os::unix::fs::PermissionsExt;
        let test = Test::new(&["render", "a.toml", "--out", "to"])
            .file("a.toml", ROUTINE)
            .file("to/mine", "mine");
        let to = test.folder.path().join("to");
        fs::set_permissions(&to, fs::Permissions::from_mode(0o555)).unwrap();
        // Who may do everything may write here, too.
        if fs::write(to.join("probe"), "").is_ok() {
            return;
        }
        let ran = test.stdout("").exit(1).run();
        assert!(
            ran.stderr.contains(
                "could not be written: this folder may not be written to\n |\n = help: name a \
                 folder of your own with --out\n"
            ),
            "{}",
            ran.stderr
        );
        assert_eq!(names(&to), ["mine"]);
        fs::set_permissions(&to, fs::Permissions::from_mode(0o755)).unwrap();
    }

    #[test]
    fn a_reader_that_has_seen_enough_is_no_error() {
        let folder = tempfile::tempdir().unwrap();
        let script = "{ \"$LEADPIPE\" completions zsh; echo exit $? >&2; } | head -n 1 >/dev/null";
        let said = String::from_utf8(shell(folder.path(), script).stderr).unwrap();
        assert_eq!(said, "exit 0\n");
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn output_that_cannot_be_written_is_an_error() {
        let folder = tempfile::tempdir().unwrap();
        let output = shell(folder.path(), "\"$LEADPIPE\" choose G4 >/dev/full");
        assert_eq!(output.status.code(), Some(1));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(
            said.starts_with("error: the output could not be written: "),
            "{said}"
        );
    }

    #[test]
    fn colour_is_shown_only_where_it_is_wanted() {
        let text = ROUTINE.replace("( C4:half", "( C4:hlaf");
        let coloured = |variable: &[(&str, &str)]| {
            let folder = tempfile::tempdir().unwrap();
            fs::write(folder.path().join("a.toml"), &text).unwrap();
            let mut command = command(folder.path());
            let variables = variable.iter().copied();
            let output = command.args(["check", "a.toml"]).envs(variables).output();
            output.unwrap().stderr.contains(&0x1b)
        };
        assert!(!coloured(&[]));
        assert!(coloured(&[("CLICOLOR_FORCE", "1")]));
        assert!(!coloured(&[("NO_COLOR", "1")]));
    }
}
