//! `class`: a handout for every player.

use super::handing_out::KIND;
use super::{ROUTINE, Ran, Test, names};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

pub(super) const LIST: &str = "\
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

pub(super) const PENCIL: &str =
    "format = 1\n\n[[mark]]\nline = 2\ntimes = 2\n\n[[mark]]\nwords = \"Take it *easy*.\"\n";

pub(super) fn class(arguments: &[&str]) -> Test {
    let all: Vec<&str> = ["class", "lists/tuesday.toml", "--out", "to"]
        .into_iter()
        .chain(arguments.iter().copied())
        .collect();
    Test::new(&all)
        .file("lists/tuesday.toml", LIST)
        .file("lists/a.toml", ROUTINE)
        .file("lists/bo.toml", PENCIL)
}

pub(super) fn again(ran: Ran, arguments: &[&str]) -> Test {
    let all: Vec<&str> = ["class", "lists/tuesday.toml", "--out", "to"]
        .into_iter()
        .chain(arguments.iter().copied())
        .collect();
    Test::within(ran.folder, &all)
}

/// Every file under a folder but records of times, by its path.
pub(super) fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
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

/// The sound of a file: what comes after its labels.
fn sound<'b>(name: &str, bytes: &'b [u8]) -> &'b [u8] {
    if name.ends_with(".mp3") {
        // ID3 2.3, 3.1: ten bytes, the last four of them the length of what follows, seven bits each.
        let length = bytes[6..10]
            .iter()
            .fold(0, |n, byte| n << 7 | usize::from(*byte));
        return &bytes[10 + length..];
    }
    if name.ends_with(".flac") {
        // RFC 9639, 8: blocks of metadata, the last one marked, each with a length of 24 bits.
        let mut at = 4;
        loop {
            let length = bytes[at + 1..at + 4]
                .iter()
                .fold(0, |n, byte| n << 8 | usize::from(*byte));
            let last = bytes[at] & 0x80 != 0;
            at += 4 + length;
            if last {
                return &bytes[at..];
            }
        }
    }
    bytes
}

#[test]
fn every_player_gets_a_handout_and_shared_sound_is_rendered_and_packed_once() {
    for (format, kind) in [(&[][..], KIND), (&["--format", "wav"], "wav")] {
        let ran = class(format)
            .stdout(
                "\
Player  Routine  Marks  Tracks  Length
Ada     Short                2    0:17  2 new
Bo      Short        2       1    0:25  1 new
Cem     Short                2    0:17  2 new
",
            )
            .run();
        let tracks = files(&ran.path("to"));
        let beside = |name: &&String| {
            let name = name.split('/').nth(1).unwrap();
            super::handing_out::beside(&["practice.md"]).contains(&name.to_owned())
        };
        let made: Vec<String> = tracks.keys().filter(|n| !beside(n)).cloned().collect();
        // Without the records, which hold no files of the player's.
        let each = super::handing_out::beside(&["practice.md"]).len() - 1;
        assert_eq!(tracks.len() - made.len(), 3 * each);
        let name = |name: &str| format!("{name}.{kind}");
        assert_eq!(
            made,
            [
                name("ada/short ada 048 key-0 together"),
                name("ada/short ada 060 key-0 together"),
                name("bo/short bo 060 key-0 together"),
                name("cem/short cem 060 key-0 off"),
                name("cem/short cem 060 key-0 together"),
            ]
        );
        assert!(
            ran.stderr.contains("\n5 tracks of 3 players: 5 new.\n"),
            "{}",
            ran.stderr
        );
        assert!(
            ran.stderr.starts_with("3 players: no problems found.\n"),
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
        let [adas, cems] = [
            "ada/short ada 060 key-0 together",
            "cem/short cem 060 key-0 together",
        ]
        .map(name);
        let [adas, cems] = [&tracks[&adas], &tracks[&cems]];
        let ending = name("");
        assert!(
            sound(&ending, adas) == sound(&ending, cems),
            "one sound, whoever it is for"
        );
        assert_eq!(adas == cems, kind == "wav", "labels are each one's own");
        // The same as rendered alone.
        let arguments = ["render", "lists/a.toml", "--pencil", "lists/bo.toml"];
        let more = ["--format", kind, "--out", "alone"];
        let alone = Test::within(ran.folder, &[arguments, more].concat()).run();
        let bos = fs::read(
            alone
                .path("alone")
                .join(name("short bo 060 key-0 together")),
        )
        .unwrap();
        let there = &tracks[&name("bo/short bo 060 key-0 together")];
        assert!(sound(&ending, &bos) == sound(&ending, there));

        let page = alone.read("to/bo/practice.md");
        for part in [
            "# Bo: Short\n",
            &format!(
                "| short bo 060 key-0 together.{kind} | 60 | as written | plays along | 0:25 |"
            ),
            "| 2 | Home | 60 | 2 |",
            "- The whole routine: “Take it \\*easy\\*.”\n- 2 Home: twice\n",
            "- at 60 clicks a minute: 0:25, of it ",
            "Stop at once if anything hurts",
        ] {
            assert!(page.contains(part), "{part}\n{page}");
        }
        let list = alone.read("to/ada/practice.m3u8");
        assert_eq!(
            list,
            format!(
                "#EXTM3U\n#EXTINF:21,Short, Ada, 48 clicks a minute\nshort ada 048 key-0 together.{kind}\n\
                 #EXTINF:17,Short, Ada, 60 clicks a minute\nshort ada 060 key-0 together.{kind}\n"
            )
        );
    }
}

/// A player's folder is what `handout` makes for the same pencil, but for the names that `handout` takes from it.
#[test]
fn a_handout_of_a_class_is_a_handout() {
    let pencil = format!("player = \"Bo\"\n{PENCIL}");
    let ran = class(&[]).file("lists/bo.toml", &pencil).run();
    let arguments = [
        "handout",
        "lists/a.toml",
        "--pencil",
        "lists/bo's.toml",
        "--out",
        "alone",
    ];
    let alone = Test::within(ran.folder, &arguments)
        .file("lists/bo's.toml", pencil)
        .run();
    let (mut class, alone) = (files(&alone.path("to/bo")), files(&alone.path("alone")));
    assert!(class.remove("practice.md").is_some());
    assert_eq!(
        class.keys().collect::<Vec<_>>(),
        alone.keys().collect::<Vec<_>>()
    );
    assert!(class == alone);
    let page = String::from_utf8(class["index.html"].clone()).unwrap();
    assert!(
        page.contains("<title>Bo: Short</title>") && page.contains("<h1>Bo: Short</h1>"),
        "{page}"
    );
    assert!(page.contains("<h3>2. Home</h3>"), "{page}");
}

/// What a teacher types as a nickname is shown on the page and never obeyed.
#[test]
fn a_nickname_never_becomes_part_of_the_page() {
    let list = LIST.replace("\"Bo\"", "\"<b>Bo</b> & \\\"co\\\"\"");
    let ran = class(&[]).file("lists/tuesday.toml", list).run();
    let page = ran.read("to/b-bo-b-and-co/index.html");
    let shown = "&lt;b&gt;Bo&lt;/b&gt; &amp; &quot;co&quot;: Short";
    assert!(page.contains(&format!("<h1>{shown}</h1>")), "{page}");
    assert!(!page.contains("<b>"), "{page}");
}

#[test]
fn formats_stems_and_rate_are_those_asked_for() {
    let kinds = match (cfg!(feature = "flac"), cfg!(feature = "mp3")) {
        (true, true) => "flac,mp3",
        (true, false) => "flac",
        (false, true) => "mp3",
        (false, false) => "wav",
    };
    let first = kinds.split(',').next().unwrap();
    let ran = class(&["--format", kinds, "--stems", "--rate", "48000", "--verbose"]).run();
    let bos = names(&ran.path("to/bo"));
    for kind in kinds.split(',') {
        for part in ["", " guide", " drone", " click"] {
            let name = format!("short bo 060 key-0 together{part}.{kind}");
            assert!(bos.contains(&name), "{name}: {bos:?}");
        }
    }
    let played = format!("src=\"short%20bo%20060%20key-0%20together.{first}\"");
    assert!(ran.read("to/bo/index.html").contains(&played));
    if kinds == "flac,mp3" {
        // Four of five tracks, each in eight files.
        assert!(
            ran.stderr
                .contains("7 of 10 lines rendered, 32 of 40 files packed"),
            "{}",
            ran.stderr
        );
        let file = fs::read(ran.path("to/bo/short bo 060 key-0 together.flac")).unwrap();
        // RFC 9639, 8.2: the rate is the 20 bits after ten bytes of the first block's body.
        let rate = u32::from_be_bytes(file[18..22].try_into().unwrap()) >> 12;
        assert_eq!(rate, 48_000);
    }
}

#[test]
fn a_second_run_does_only_what_changed() {
    for (format, kind) in [
        (&["--verbose"][..], KIND),
        (&["--verbose", "--format", "wav"], "wav"),
    ] {
        let ran = class(format).run();
        let before = files(&ran.path("to"));
        let times = |ran: &Ran| {
            let names = files(&ran.path("to")).into_keys();
            let time = |name| {
                let metadata = fs::metadata(ran.path("to").join(name)).unwrap();
                metadata.modified().unwrap()
            };
            names.map(time).collect::<Vec<_>>()
        };
        let written = times(&ran);
        let ran = again(ran, format).run();
        let packed = |what: &str| match kind {
            "wav" => String::new(),
            _ => format!(", {what} of 5 files packed"),
        };
        let said = |lines: &str, files: &str| {
            format!(
                "5 tracks of 3 players: {lines} of 10 lines rendered{}",
                packed(files)
            )
        };
        assert!(ran.stderr.contains(&said("0", "0")), "{}", ran.stderr);
        assert_eq!(times(&ran), written, "nothing is written again");
        let pencil = PENCIL.replace("times = 2", "times = 3");
        fs::write(ran.path("lists/bo.toml"), pencil).unwrap();
        let ran = again(ran, format).run();
        // Of a file that holds the frames as they are the other line is copied.
        let lines = if kind == "wav" { "1" } else { "2" };
        assert!(ran.stderr.contains(&said(lines, "1")), "{}", ran.stderr);
        let after = files(&ran.path("to"));
        let changed: Vec<&String> = after
            .keys()
            .filter(|name| before[*name] != after[*name])
            .collect();
        let track = format!("bo/short bo 060 key-0 together.{kind}");
        let mut expected = vec![
            "bo/index.html",
            "bo/leadpipe-worker.js",
            "bo/practice.m3u8",
            "bo/practice.md",
        ];
        // The pencil is drawn over it.
        if cfg!(feature = "pdf") {
            expected.push("bo/sheet.pdf");
        }
        expected.push(&track);
        assert_eq!(changed, expected);
        // Somebody who comes later gets what others have.
        let list = format!("{LIST}\n[[player]]\nname = \"Dee\"\nroutine = \"a.toml\"\n");
        fs::write(ran.path("lists/tuesday.toml"), list).unwrap();
        let ran = again(ran, format).run();
        let packed = packed("0").replace("5 files", "6 files");
        let said = format!("6 tracks of 4 players: 0 of 12 lines rendered{packed}");
        assert!(ran.stderr.contains(&said), "{}", ran.stderr);
    }
}

/// Nothing of somebody's is taken away unasked, and nothing is passed over in silence.
#[test]
fn what_is_no_longer_asked_for_is_told_of_and_left_off_the_pages() {
    let ran = class(&[]).run();
    let list = LIST
        .replace("tempo = [\"100%\", 48]", "tempo = [\"100%\"]")
        .replace("guide = [\"together\", \"off\"]", "tempo = [50, 55]")
        .replace("name = \"Bo\"", "name = \"Dee\"");
    fs::write(ran.path("lists/tuesday.toml"), list).unwrap();
    let ran = again(ran, &[]).run();
    assert!(
        ran.stderr.contains(
            "3 tracks of earlier runs, not asked for now and not on the pages: Ada 1, Cem 2. They stay until you take \
             them away.\nIn to 1 is a folder of players who are not in this list: bo.\n"
        ),
        "{}",
        ran.stderr
    );
    assert_eq!(ran.read("to/ada/practice.m3u8").lines().count(), 3);
    assert_eq!(ran.read("to/cem/index.html").matches("<audio ").count(), 2);
    let beside = super::handing_out::beside(&["practice.md"]).len();
    assert_eq!(names(&ran.path("to/cem")).len(), beside + 4, "four tracks");
    assert!(ran.path("to/bo/index.html").exists());
}

#[test]
fn a_page_of_somebody_elses_keeps_nobody_else_from_theirs() {
    let ran = class(&[])
        .file("to/bo/index.html", "<h1>mine</h1>")
        .exit(1)
        .run();
    ran.says("was not written by leadpipe, so it stays as it is");
    assert_eq!(ran.read("to/bo/index.html"), "<h1>mine</h1>");
    for player in ["ada", "cem"] {
        assert!(
            ran.read(&format!("to/{player}/index.html"))
                .contains("<audio ")
        );
    }
    assert!(
        ran.stdout.contains("\nBo "),
        "the table is there: {}",
        ran.stdout
    );
}

#[test]
fn parts_make_up_the_whole_and_never_write_one_file() {
    let all_kinds = if cfg!(all(feature = "flac", feature = "mp3")) {
        "mp3,flac,wav"
    } else {
        "wav"
    };
    for format in [&[][..], &["--format", all_kinds]] {
        let whole = class(format).run();
        let whole = files(&whole.path("to"));
        let mut all = BTreeMap::new();
        for part in ["1/2", "2/2"] {
            let ran = class(&[&["--shard", part], format].concat()).run();
            for (name, bytes) in files(&ran.path("to")) {
                assert!(all.insert(name, bytes).is_none(), "two parts wrote it");
            }
        }
        assert!(all.keys().eq(whole.keys()));
        assert!(all == whole);
    }
    class(&["--shard", "3/2"])
        .exit(2)
        .stderr("error: --shard cannot be “3/2”\n |\n = help: a part of a class is written 2/5: the second of five\n")
        .run();
}
