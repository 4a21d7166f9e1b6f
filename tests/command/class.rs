//! `class`: a folder for every player.

use super::{ROUTINE, Ran, Test, names};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

const LIST: &str = "\
format = 1
title = \"Tuesday\"
tempo = [\"100%\"]

[[player]]
name = \"Ada\"
routine = \"a.toml\"
tempo = [\"100%\", 48]
comfortable_top = \"C5\"

[[player]]
name = \"Bo\"
routine = \"a.toml\"
pencil = \"bo.toml\"
age = \"8-10\"

[[player]]
name = \"Cem\"
routine = \"a.toml\"
guide = [\"together\", \"off\"]
comfortable_top = \"C4\"
";

const PENCIL: &str =
    "format = 1\n\n[[mark]]\nline = 2\ntimes = 2\n\n[[mark]]\nwords = \"Take it *easy*.\"\n";

fn class(arguments: &[&str]) -> Test {
    let all: Vec<&str> = ["class", "lists/tuesday.toml", "--out", "to"]
        .into_iter()
        .chain(arguments.iter().copied())
        .collect();
    Test::new(&all)
        .file("lists/tuesday.toml", LIST)
        .file("lists/a.toml", ROUTINE)
        .file("lists/bo.toml", PENCIL)
}

fn again(ran: Ran, arguments: &[&str]) -> Test {
    let all: Vec<&str> = ["class", "lists/tuesday.toml", "--out", "to"]
        .into_iter()
        .chain(arguments.iter().copied())
        .collect();
    Test::within(ran.folder, &all)
}

/// Every file under a folder but records of times, by its path.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for name in names(folder) {
        let path = folder.join(&name);
        if path.is_dir() && name != ".leadpipe" {
            let inside = files(&path).into_iter();
            found.extend(inside.map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else if path.is_file() {
            found.insert(name, fs::read(path).unwrap());
        }
    }
    found
}

#[test]
fn every_player_gets_a_folder_and_shared_sound_is_rendered_once() {
    let ran = class(&[])
        .stdout(
            "\
Player  Routine  Marks  Tracks  Length  Lines rendered
Ada     Short        0  2 of 2    0:17          4 of 4  2 new
Bo      Short        2  1 of 1    0:25          1 of 2  1 new
Cem     Short        0  2 of 2    0:17          2 of 4  2 new
",
        )
        .run();
    let made: Vec<String> = files(&ran.path("to")).into_keys().collect();
    assert_eq!(
        made,
        [
            "ada/practice.md",
            "ada/short ada 048 key-0 together.wav",
            "ada/short ada 060 key-0 together.wav",
            "bo/practice.md",
            "bo/short bo 060 key-0 together.wav",
            "cem/practice.md",
            "cem/short cem 060 key-0 off.wav",
            "cem/short cem 060 key-0 together.wav",
        ]
    );
    assert!(
        ran.stderr.contains(
            "5 tracks of 3 players: 7 of 10 lines rendered, the others shared or there already.\n"
        ),
        "{}",
        ran.stderr
    );
    for suggestion in [
        "A suggestion: Ada plays up to C5 with ease, and “Short” asks for G4: might try the next level, such as \
         third-steps.\n",
        "A suggestion: Cem plays up to C4 with ease, and “Short” asks for G4: it is set above what is comfortable; \
         first-steps would suit.\n",
    ] {
        assert!(ran.stderr.contains(suggestion), "{}", ran.stderr);
    }
    let tracks = files(&ran.path("to"));
    assert!(
        tracks["ada/short ada 060 key-0 together.wav"]
            == tracks["cem/short cem 060 key-0 together.wav"],
        "one sound, whoever it is for"
    );
    // The same as rendered alone.
    let alone = Test::within(
        ran.folder,
        &[
            "render",
            "lists/a.toml",
            "--pencil",
            "lists/bo.toml",
            "--out",
            "alone",
        ],
    )
    .run();
    let bos = fs::read(alone.path("alone/short bo 060 key-0 together.wav")).unwrap();
    assert!(bos == tracks["bo/short bo 060 key-0 together.wav"]);

    let page = alone.read("to/bo/practice.md");
    for part in [
        "# Bo: Short\n",
        "| short bo 060 key-0 together.wav | 60 | as written | plays along | 0:25 |",
        "| 2 | Home | 60 | 2 |",
        "- The whole routine: “Take it \\*easy\\*.”\n- 2 Home: twice\n",
        "- at 60 clicks a minute: 0:25, of it ",
        "Stop at once if anything hurts",
    ] {
        assert!(page.contains(part), "{part}\n{page}");
    }
}

#[test]
fn a_second_run_does_only_what_changed() {
    let ran = class(&[]).run();
    let before = files(&ran.path("to"));
    let times = |ran: &Ran| {
        let names = files(&ran.path("to")).into_keys();
        names
            .map(|name| {
                fs::metadata(ran.path("to").join(name))
                    .unwrap()
                    .modified()
                    .unwrap()
            })
            .collect::<Vec<_>>()
    };
    let written = times(&ran);
    let ran = again(ran, &[]).run();
    assert!(
        ran.stderr
            .contains("5 tracks of 3 players: 0 of 10 lines rendered"),
        "{}",
        ran.stderr
    );
    assert_eq!(times(&ran), written, "nothing is written again");
    fs::write(
        ran.path("lists/bo.toml"),
        PENCIL.replace("times = 2", "times = 3"),
    )
    .unwrap();
    let ran = again(ran, &[]).run();
    assert!(
        ran.stderr
            .contains("5 tracks of 3 players: 1 of 10 lines rendered"),
        "{}",
        ran.stderr
    );
    let after = files(&ran.path("to"));
    let changed: Vec<&String> = after
        .keys()
        .filter(|name| before[*name] != after[*name])
        .collect();
    assert_eq!(
        changed,
        ["bo/practice.md", "bo/short bo 060 key-0 together.wav"]
    );
}

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
            .contains("error: Ada cannot be given this routine\n"),
        "{}",
        ran.stderr
    );
    assert!(
        ran.stderr.contains("\nBo: Short with 2 marks, 1 track: "),
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

#[test]
fn parts_make_up_the_whole_and_never_write_one_file() {
    let whole = class(&[]).run();
    let whole = files(&whole.path("to"));
    let mut all = BTreeMap::new();
    for part in ["1/2", "2/2"] {
        let ran = class(&["--shard", part]).run();
        for (name, bytes) in files(&ran.path("to")) {
            assert!(all.insert(name, bytes).is_none(), "two parts wrote it");
        }
    }
    assert!(all == whole);
    class(&["--shard", "3/2"])
        .exit(2)
        .stderr("error: --shard cannot be “3/2”\n |\n = help: a part of a class is written 2/5: the second of five\n")
        .run();
}

/// Killed again and again at any moment: whatever is there under its name is whole, and in the end all of it is.
#[cfg(unix)]
#[test]
fn a_killed_class_leaves_whole_files_and_the_next_run_completes_it() {
    use std::process::{Command, Stdio};
    use std::time::Duration;
    let list = LIST
        .replace("48]", "48, 52, 56, 64]")
        .replace("[\"100%\"]\n", "[\"100%\", 40, 44]\n");
    let long = ROUTINE.replace("name = \"Home\"", "name = \"Home\"\ntimes = 40");
    let ran = class(&[])
        .file("lists/tuesday.toml", &list)
        .file("lists/a.toml", &long)
        .run();
    let whole = files(&ran.path("to"));
    fs::rename(ran.path("to"), ran.path("whole")).unwrap();
    let mut random = 0x2545_f491_4f6c_dd1d_u64;
    for _ in 0..10 {
        let mut child = Command::new(env!("CARGO_BIN_EXE_leadpipe"))
            .args([
                "class",
                "lists/tuesday.toml",
                "--out",
                "to",
                "--threads",
                "2",
            ])
            .current_dir(ran.folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        random = random
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        std::thread::sleep(Duration::from_millis(5 + (random >> 33) % 120));
        child.kill().unwrap();
        child.wait().unwrap();
        for (name, bytes) in files(&ran.path("to")) {
            let passing = name.contains(".leadpipe-");
            assert!(passing || whole[&name] == bytes, "{name} is not whole");
        }
    }
    let ran = again(ran, &[]).run();
    assert!(files(&ran.path("to")) == whole);
}
