//! Rows, quotes and headings that are not understood.

use super::told;

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
