//! Files with slips in them: every word of what is said, and where it points.
//!
//! Each case is the short routine with one piece of it replaced.

use super::{ROUTINE, Test};

/// `check` of the short routine with `to` in place of the first `from` says exactly this, and the file
/// stays as it is.
fn told(from: &str, to: &str, stderr: &str) {
    assert!(ROUTINE.contains(from), "{from}");
    let text = ROUTINE.replacen(from, to, 1);
    let ran = Test::new(&["check", "a.toml"])
        .file("a.toml", &text)
        .stdout("")
        .stderr(stderr)
        .exit(1)
        .run();
    assert_eq!(ran.read("a.toml"), text);
}

#[test]
fn rows_that_are_not_understood_are_told_in_plain_words() {
    told(
        "tempo = 60",
        "tempo: 60",
        r#"error: this row is not understood
 --> a.toml:6:1
  |
6 | tempo: 60
  | ^^^^^^^^^
  |
  = help: an equals sign parts a name from its value: tempo = 60

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo 60",
        r#"error: this row is not understood
 --> a.toml:6:1
  |
6 | tempo 60
  | ^^^^^^^^
  |
  = help: an equals sign parts a name from its value: tempo = 60

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo =",
        r#"error: tempo has no value
 --> a.toml:6:1
  |
6 | tempo =
  | ^^^^^^^
  |
  = help: write it after the equals sign: tempo = 72

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = 60,5",
        r#"error: a number has a point, not a comma
 --> a.toml:6:9
  |
6 | tempo = 60,5
  |         ^^^^
  |
  = help: write tempo = 60.5

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = 60 meter = \"3/4\"",
        r#"error: there is more in this row than a name and its value
 --> a.toml:6:1
  |
6 | tempo = 60 meter = "3/4"
  | ^^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: write the next name in a row of its own; a remark starts with #

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "speed is sixty",
        r#"error: this row is not understood
 --> a.toml:6:1
  |
6 | speed is sixty
  | ^^^^^^^^^^^^^^
  |
  = help: every row is a name, an equals sign and a value: tempo = 72; a remark starts with #

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = 60\u{200b}",
        &r#"error: a character that cannot be seen stands here
 --> a.toml:6:11
  |
6 | tempo = 60<nothing>
  |           ^
  |
  = help: delete it, and type anew what is around it

a.toml: 1 fault.
"#
        .replace("<nothing>", "\u{200b}"),
    );
    told(
        "tempo = 60",
        "tempo = 60\ntempo = 61",
        r#"error: tempo is written twice
 --> a.toml:7:1
  |
7 | tempo = 61
  | ^^^^^
  |
  = help: keep one; under each [[line]] every name may stand once

a.toml: 1 fault.
"#,
    );
    told(
        "meter = \"4/4\"",
        "meter = 4/4",
        r#"error: words stand in straight quotes
 --> a.toml:7:9
  |
7 | meter = 4/4
  |         ^^^
  |
  = help: write meter = "4/4"

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = Short",
        r#"error: words stand in straight quotes
 --> a.toml:3:9
  |
3 | title = Short
  |         ^^^^^
  |
  = help: write title = "Short"

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = Short\"",
        r#"error: words stand in straight quotes
 --> a.toml:3:9
  |
3 | title = Short"
  |         ^^^^^^
  |
  = help: write title = "Short"

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = \"Short",
        r#"error: this text is not closed where it should be
 --> a.toml:3:1
  |
3 | title = "Short
  | ^^^^^^^^^^^^^^
  |
  = help: it starts and ends with one straight quote, in one row: "…"

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = “Short”",
        r#"error: curly quotes
 --> a.toml:3:9
  |
3 | title = “Short”
  |         ^^^^^^^
  |
  = help: write straight ones: "Short"

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = \"C:\\Users\\Anna\"",
        r#"error: a backslash means something else here
 --> a.toml:3:12
  |
3 | title = "C:\Users\Anna"
  |            ^
  |
  = help: write it twice, \\, or write a slash: /

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "title = \"Sh\u{1}ort\"",
        r#"error: a character that cannot be seen stands here
 --> a.toml:3:12
  |
3 | title = "Sh␁ort"
  |            ^
  |
  = help: delete it, and type anew what is around it

a.toml: 1 fault.
"#,
    );
    told(
        "comfortable_top",
        "comfortable top",
        r#"error: a name is one word
 --> a.toml:5:1
  |
5 | comfortable top = "G4"
  | ^^^^^^^^^^^^^^^
  |
  = help: write comfortable_top = "G4"

a.toml: 1 fault.
"#,
    );
    told(
        "meter = \"4/4\"\n\n[[line]]",
        "meter = \"4/4\"\n\n[[line]",
        r#"error: this row is not understood
 --> a.toml:9:1
  |
9 | [[line]
  | ^^^^^^^
  |
  = help: a line is opened by [[line]] in a row of its own

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\nhalf_steps = [0, –1]",
        r#"error: this minus is a longer dash
  --> a.toml:11:14
   |
11 | half_steps = [0, –1]
   |              ^^^^^^^
   |
   = help: write the plain hyphen: half_steps = [0, -1]

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\nhalf_steps = [0, -1",
        r#"error: this list is not closed
  --> a.toml:11:1
   |
11 | half_steps = [0, -1
   | ^^^^^^^^^^^^^^^^^^^
   |
   = help: it ends with a square bracket: half_steps = [0, -1, -2]

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\nhalf_steps = 0, -1",
        r#"error: a list stands in square brackets
  --> a.toml:11:14
   |
11 | half_steps = 0, -1
   |              ^^^^^
   |
   = help: write half_steps = [0, -1]

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        &format!(
            "name = \"Away\"\nhalf_steps = {}{}",
            "[".repeat(200),
            "]".repeat(200)
        ),
        r#"error: brackets or points inside one another, deeper than any routine goes
  --> a.toml:11:1
   |
11 | half_steps = [[[[[[[[[[[[[[[[[[...]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]
   | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^...^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
   |
   = help: a list is one pair of brackets: half_steps = [0, -1, -2]

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\n<b>half_steps</b> = [0]",
        r#"error: this row is not understood
  --> a.toml:11:1
   |
11 | <b>half_steps</b> = [0]
   | ^^^^^^^^^^^^^^^^^^^^^^^
   |
   = help: every row is a name, an equals sign and a value: tempo = 72; a remark starts with #

a.toml: 1 fault.
"#,
    );
}

#[test]
fn names_and_values_with_a_slip_are_told_in_plain_words() {
    told(
        "tempo = 60",
        "tenpo = 60",
        r#"error: tenpo is not known here
 --> a.toml:6:1
  |
6 | tenpo = 60
  | ^^^^^
  |
  = help: did you mean tempo?

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = \"fast\"",
        r#"error: tempo is a number of clicks a minute, from 20 to 300
 --> a.toml:6:9
  |
6 | tempo = "fast"
  |         ^^^^^^
  |
  = help: for instance tempo = 72, without quotes

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = 19.999",
        r#"error: tempo is a number of clicks a minute, from 20 to 300
 --> a.toml:6:9
  |
6 | tempo = 19.999
  |         ^^^^^^
  |
  = help: for instance tempo = 72, without quotes

a.toml: 1 fault.
"#,
    );
    told(
        "tempo = 60",
        "tempo = 60.1234",
        r#"error: tempo has more than three decimals
 --> a.toml:6:9
  |
6 | tempo = 60.1234
  |         ^^^^^^^
  |
  = help: no metronome is that fine; round it

a.toml: 1 fault.
"#,
    );
    told(
        "title = \"Short\"",
        "Title = \"Short\"",
        r#"error: Title is not known here
 --> a.toml:3:1
  |
3 | Title = "Short"
  | ^^^^^
  |
  = help: did you mean title?

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\neach = \"4\"",
        r#"error: 4 is no note value
  --> a.toml:11:8
   |
11 | each = "4"
   |        ^^^
   |
   = help: write each = "quarter"

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\narticulation = [\"slured\", 3]",
        r#"error: articulation cannot be "slured"
  --> a.toml:11:17
   |
11 | articulation = ["slured", 3]
   |                 ^^^^^^^^
   |
   = help: did you mean "slurred"?

error: articulation cannot be "3"
  --> a.toml:11:27
   |
11 | articulation = ["slured", 3]
   |                           ^
   |
   = help: it can be "as written", "slurred" or "tongued"

a.toml: 2 faults.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\ntitle = \"Away\"",
        r#"error: title is not known here
  --> a.toml:11:1
   |
11 | title = "Away"
   | ^^^^^
   |
   = help: title belongs to the head of the file, above the first [[line]]

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\nline = 1",
        r#"error: line is not known here
  --> a.toml:11:1
   |
11 | line = 1
   | ^^^^
   |
   = help: known are name, purpose, say, on, notes, open, each, tubes, half_steps, times, between, tempo, meter, key, rest, count_in, click, guide, drone, tonic and articulation

a.toml: 1 fault.
"#,
    );
    told(
        "name = \"Away\"",
        "name = \"Away\"\ntubes = [\"2-1\"]",
        r#"error: tubes move a line that is written as on the open horn
  --> a.toml:11:1
   |
11 | tubes = ["2-1"]
   | ^^^^^
   |
   = help: write its notes as open = "…", with notes of the open horn

error: 2-1 is no tube
  --> a.toml:11:10
   |
11 | tubes = ["2-1"]
   |          ^^^^^
   |
   = help: write "1-2", in quotes

a.toml: 2 faults.
"#,
    );
    told(
        "\"trumpet in B-flat\"",
        "\"tuba\"",
        r#"error: tuba is no instrument leadpipe knows
 --> a.toml:4:14
  |
4 | instrument = "tuba"
  |              ^^^^^^
  |
  = help: it knows trumpet in B-flat, trumpet in C, cornet and flugelhorn

a.toml: 1 fault.
"#,
    );
}

#[test]
fn notes_with_a_slip_are_told_in_plain_words() {
    told(
        "C4:half E4:half",
        "C:half E4:half",
        r#"error: C does not say in which octave
  --> a.toml:11:18
   |
11 | notes = "p slur( C:half E4:half )"
   |                  ^^^^^^
   |
   = help: write C4 (first ledger line below), C5 (third-space C) or C6 (second ledger line above)

a.toml: 1 fault.
"#,
    );
    told(
        "p slur( C4",
        "P slur( C4",
        r#"error: P is not understood
  --> a.toml:11:10
   |
11 | notes = "P slur( C4:half E4:half )"
   |          ^
   |
   = help: write p

a.toml: 1 fault.
"#,
    );
    told(
        "p slur( C4",
        "sfz slur( C4",
        r#"error: sfz is not understood
  --> a.toml:11:10
   |
11 | notes = "sfz slur( C4:half E4:half )"
   |          ^^^
   |
   = help: an accent is written after its note: G4:half (accent)

a.toml: 1 fault.
"#,
    );
    told(
        "C4:half E4:half",
        "C4:half\u{200b} E4:half",
        &r#"error: a character that cannot be seen stands here
  --> a.toml:11:18
   |
11 | notes = "p slur( C4:half<nothing> E4:half )"
   |                  ^^^^^^^
   |
   = help: delete the word and type it anew: C4:half

a.toml: 1 fault.
"#
        .replace("<nothing>", "\u{200b}"),
    );
    told(
        "C4:half E4:half",
        "C4:half (tenuto) E4:half (marcato)",
        r#"error: (tenuto) is no mark for a note
  --> a.toml:11:26
   |
11 | notes = "p slur( C4:half (tenuto) E4:half (marcato) )"
   |                          ^^^^^^^^
   |
   = help: held to the full and tongued softly is (legato)

error: (marcato) is no mark for a note
  --> a.toml:11:43
   |
11 | notes = "p slur( C4:half (tenuto) E4:half (marcato) )"
   |                                           ^^^^^^^^^
   |
   = help: did you mean (accent)?

a.toml: 2 faults.
"#,
    );
    told(
        "\"p slur( C4:half E4:half )\"",
        "\"p slur{ C4:half E4:half }\"",
        r#"error: slur{ is not understood
  --> a.toml:11:12
   |
11 | notes = "p slur{ C4:half E4:half }"
   |            ^^^^^
   |
   = help: its bracket stands right after it: slur( … )

error: } is not understood
  --> a.toml:11:34
   |
11 | notes = "p slur{ C4:half E4:half }"
   |                                  ^
   |
   = help: a note is its pitch and its length: G4:half

a.toml: 2 faults.
"#,
    );
    told(
        "\"p slur( C4:half E4:half )\"",
        "\"p C4:whole || E4:whole\"",
        r#"error: bar 2 is empty
  --> a.toml:11:22
   |
11 | notes = "p C4:whole || E4:whole"
   |                      ^
   |
   = help: one | parts two bars; a silent bar of 4/4 is written with rests

a.toml: 1 fault.
"#,
    );
    told(
        "\"p slur( C4:half E4:half )\"",
        "\"p C4:whole :|\"",
        r#"error: : is not understood
  --> a.toml:11:21
   |
11 | notes = "p C4:whole :|"
   |                     ^
   |
   = help: a bar line is a single |; a repeat is times = 2 on the line

a.toml: 1 fault.
"#,
    );
}
