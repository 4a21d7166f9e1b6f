//! Notes with a slip.

use super::told;

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
