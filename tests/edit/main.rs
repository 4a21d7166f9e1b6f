//! Edits of a routine's text: what each changes, what it leaves, and that all of them can be taken back.

mod any_edits;
mod between;
mod marks;
mod shown;

use leadpipe::edit::{Edit, Edited, apply, undo};

/// A routine with comments and odd spacing.
const ODD: &str = r#"# For Tuesday
format = 1
title   =   "Odd"   # a working title
instrument = "trumpet in B-flat"
comfortable_top = "G4"

tempo = 72
key = "F major"


# --- warm ---
[[line]]
name = "Long tone"
notes   = "G4:half   F4 |  slur( G4:quarter A4 Bb4 )  rest:quarter"   # calm
rest = "2 bars" # breathe

[[line]]
   name = 'Neighbour'
   notes = """
G4:quarter [0] (accent) A4 G4:half
  | G4:whole"""

# the end
"#;

/// The edit of a text, taken back to see that every byte returns.
fn edited(text: &str, edit: &Edit) -> Edited {
    let edited = apply(text, edit).unwrap_or_else(|problem| panic!("{edit:?}: {problem}"));
    assert_eq!(undo(text, &edited.splices), edited.text, "{edit:?}");
    assert_eq!(undo(&edited.text, &edited.inverse), text, "{edit:?}");
    edited
}
