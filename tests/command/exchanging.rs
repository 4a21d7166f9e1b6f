//! `export` and `adopt`: files, their names, and what is said.

use super::{ROUTINE, Test, names, written};

#[test]
fn a_routine_goes_out_and_comes_in() {
    let ran = Test::new(&[
        "export",
        "a.toml",
        "--to",
        "musicxml,midi",
        "--out",
        "to",
        "--tempo",
        "50%",
    ])
    .file("a.toml", ROUTINE)
    .stderr("")
    .run();
    let written = written(&ran.path("to"));
    assert_eq!(written.len(), 2, "{written:?}");
    let paths: Vec<&str> = ran.stdout.lines().collect();
    assert!(paths[0].ends_with(" key-0 together.musicxml"), "{paths:?}");
    assert!(paths[1].ends_with(" key-0 together.mid"), "{paths:?}");
    let first = paths[0].to_owned();
    let again = Test::within(ran.folder, &["adopt", &first, "--out", "back.toml"])
        .stdout("")
        .run();
    assert!(
        again.stderr.starts_with("back.toml holds "),
        "{}",
        again.stderr
    );
    assert!(
        again.stderr.contains("Everything was kept."),
        "{}",
        again.stderr
    );
    assert!(
        again.stderr.ends_with("Next: leadpipe check back.toml\n"),
        "{}",
        again.stderr
    );
    let back = again.read("back.toml");
    assert!(back.contains("tempo = "), "{back}");
    // What is there stays, until one insists.
    let refused = Test::within(again.folder, &["adopt", &first, "--out", "back.toml"])
        .stdout("")
        .stderr(
            "error: back.toml is there already and stays as it is\n |\n = help: choose another name with --out, or --force\n",
        )
        .exit(1)
        .run();
    let forced = Test::within(
        refused.folder,
        &["adopt", &first, "--out", "back.toml", "--force"],
    )
    .run();
    assert_eq!(forced.read("back.toml"), back);
}

#[test]
fn what_is_no_music_is_refused_and_nothing_is_written() {
    for (name, content, message) in [
        (
            "a.txt",
            "C4 D4 E4",
            "a.txt cannot be adopted: it is text, but neither MusicXML nor ABC",
        ),
        (
            "a.xml",
            "<html></html>",
            "a.xml cannot be adopted: it is a page or a drawing, but no score in MusicXML",
        ),
        (
            "a.mid",
            "MThd",
            "a.mid cannot be adopted: it is cut short, damaged or no Standard MIDI File",
        ),
        (
            "a.mxl",
            "PK\u{3}\u{4}",
            "a.mxl cannot be adopted: it is cut short or damaged, so it cannot be unpacked",
        ),
    ] {
        let ran = Test::new(&["adopt", name])
            .file(name, content)
            .stdout("")
            .exit(2)
            .run();
        assert!(
            ran.stderr.starts_with(&format!("error: {message}\n")),
            "{}",
            ran.stderr
        );
        assert_eq!(names(ran.folder.path()), [name]);
    }
}

#[test]
fn losses_are_told_line_by_line_before_all_else() {
    let score = "<score-partwise><part-list><score-part id=\"P1\"><part-name>Solo</part-name></score-part></part-list>\
        <part id=\"P1\"><measure number=\"1\"><attributes><divisions>1</divisions><transpose><chromatic>-2</chromatic>\
        </transpose></attributes><sound tempo=\"80\"/><note><grace/><pitch><step>D</step><octave>4</octave></pitch></note>\
        <note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration><lyric><text>la</text></lyric></note>\
        </measure></part></score-partwise>";
    Test::new(&["adopt", "solo.xml"])
        .file("solo.xml", score)
        .stdout("")
        .stderr(
            "solo.toml holds 1 line for trumpet in B-flat, yours to change.\n\
             Not kept, 2 things:\n\
             - line 1 “Bar 1”, bar 1: grace notes are left out\n\
             - line 1 “Bar 1”, bar 1: words under the notes are left out\n\
             note: it is a guess that C4 is easy: at least 85 % of the playing lies at or below C4\n\
             solo.toml: no problems found.\n\
             Next: leadpipe check solo.toml\n",
        )
        .run();
}

#[test]
fn the_pencil_goes_out_with_the_players_name() {
    let pencil = "format = 1\nplayer = \"Anna\"\n[[mark]]\nline = 1\ntempo = \"slower\"\n";
    let ran = Test::new(&["export", "a.toml", "--to", "musicxml", "--pencil", "p.toml"])
        .file("a.toml", ROUTINE)
        .file("p.toml", pencil)
        .run();
    assert!(ran.stdout.contains(" anna "), "{}", ran.stdout);
}

#[test]
fn the_checkers_findings_are_counted_and_a_command_shows_them() {
    let whole =
        "<note><pitch><step>C</step><octave>6</octave></pitch><duration>4</duration></note>";
    let score = format!(
        "<score-partwise><part-list><score-part id=\"P1\"/></part-list><part id=\"P1\"><measure number=\"1\">\
         <attributes><divisions>1</divisions></attributes>{}</measure></part></score-partwise>",
        whole.repeat(40)
    );
    let ran = Test::new(&["adopt", "high.xml"])
        .file("high.xml", &score)
        .stdout("")
        .run();
    assert!(ran.stderr.lines().count() < 20, "{}", ran.stderr);
    assert!(ran.stderr.contains("high.toml: "), "{}", ran.stderr);
    assert!(
        ran.stderr
            .ends_with("leadpipe check high.toml shows what they are.\n"),
        "{}",
        ran.stderr
    );
}

#[test]
fn a_file_of_music_is_printed_without_a_routine() {
    let tunes =
        "X:1\nT:Up\nM:4/4\nK:C\nC2 D2 E2 F2|G8|]\n\nX:2\nT:Down\nM:4/4\nK:C\nG2 F2 E2 D2|C8|]\n";
    let refused = Test::new(&["sheet", "tunes.abc"])
        .file("tunes.abc", tunes)
        .stdout("")
        .exit(2)
        .run();
    assert!(
        refused.stderr.starts_with(
            "error: tunes.abc cannot be printed: it holds several tunes: 1 Up; 2 Down\n"
        ),
        "{}",
        refused.stderr
    );
    let ran = Test::within(
        refused.folder,
        &[
            "sheet",
            "tunes.abc",
            "--part",
            "2",
            "--format",
            "svg",
            "--out",
            "to",
        ],
    )
    .run();
    assert!(
        ran.stderr.starts_with("Everything was kept.\n"),
        "{}",
        ran.stderr
    );
    assert!(ran.stderr.ends_with("1 page.\n"), "{}", ran.stderr);
    assert!(written(&ran.path("to"))[0].ends_with(".svg"));
    assert!(!ran.path("tunes.toml").exists());
    let other = Test::within(ran.folder, &["sheet", "second-steps", "--part", "2"])
        .stdout("")
        .exit(2)
        .run();
    assert!(
        other
            .stderr
            .starts_with("error: --part is for a file of music"),
        "{}",
        other.stderr
    );
}

const IN_KEY: &str = "format = 1\ntitle = \"Keys\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
    tempo = 72\nkey = \"C major\"\n[[line]]\nname = \"a\"\nnotes = \"C4:half E4:half | G4:whole\"\n";

#[test]
fn a_key_is_chosen_by_name() {
    for (key, half_steps, fifths) in [
        ("B-flat major", "key-down-2", "-2"),
        ("Bb", "key-down-2", "-2"),
        ("F#", "key-down-6", "6"),
        ("d major", "key-up-2", "2"),
        ("C", "key-0", "0"),
        ("-1", "key-down-1", "5"),
    ] {
        let arguments = [
            "export", "a.toml", "--to", "musicxml", "--out", "to", "--key", key,
        ];
        let ran = Test::new(&arguments).file("a.toml", IN_KEY).run();
        let path = ran.stdout.trim();
        assert!(
            path.ends_with(&format!("keys 072 {half_steps} together.musicxml")),
            "{key}: {path}"
        );
        let xml = std::fs::read_to_string(ran.path(path)).unwrap();
        assert!(xml.contains(&format!("<fifths>{fifths}</fifths>")), "{key}");
    }
}

#[test]
fn a_key_that_cannot_be_moved_to_is_said() {
    let arguments = ["export", "a.toml", "--to", "musicxml", "--key", "Bb"];
    let mut ran = Test::new(&arguments).file("a.toml", ROUTINE);
    ran.exit = 2;
    let said = ran.run().stderr;
    assert!(said.contains("does not say which key it is in"), "{said}");
    assert!(
        said.contains("key = \"C major\"") && said.contains("--key -2"),
        "{said}"
    );
    let arguments = [
        "export",
        "a.toml",
        "--to",
        "musicxml",
        "--key",
        "B-flat minor",
    ];
    let mut ran = Test::new(&arguments).file("a.toml", IN_KEY);
    ran.exit = 2;
    let said = ran.run().stderr;
    assert!(
        said.contains("“Keys” is in C major: moved, it stays in major"),
        "{said}"
    );
    assert!(said.contains("write --key \"B-flat major\""), "{said}");
    let arguments = ["export", "a.toml", "--to", "musicxml", "--key", "H"];
    let mut ran = Test::new(&arguments).file("a.toml", IN_KEY);
    ran.exit = 2;
    let said = ran.run().stderr;
    assert!(said.contains("or a name: \"B-flat major\", Bb"), "{said}");
}
