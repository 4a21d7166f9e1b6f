//! Names and values with a slip.

use super::told;

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
   = help: known are name, purpose, say, on, notes, open, each, tubes, half_steps, times, between, tempo, meter, key, rest, count_in, click, guide, drone, tonic, articulation and legato

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
        "\"kazoo\"",
        r#"error: kazoo is no instrument leadpipe knows
 --> a.toml:4:14
  |
4 | instrument = "kazoo"
  |              ^^^^^^^
  |
  = help: leadpipe list --instruments names those it knows: trumpets, cornets, horns, trombones, euphoniums, tubas

a.toml: 1 fault.
"#,
    );
}
