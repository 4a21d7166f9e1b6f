//! Edits of a routine's text: each is a value, and gives the new text, what was replaced, and how to take it back.
//!
//! An edit changes only what it must: comments, order, blank lines and spacing stay. Faults in the notes do not matter to an
//! edit of entries or lines; a bar that is too long stays, and the reader tells it.
//!
//! ```
//! use leadpipe::edit::{Edit, Value, apply, undo};
//!
//! let text = "tempo = 72 # calm\n[[line]]\nname = \"Long tone\"\nnotes = \"G4:whole\"\n";
//! let edit = Edit::Set { line: None, key: "tempo".into(), value: Value::Whole(80) };
//! let edited = apply(text, &edit).unwrap();
//! assert!(edited.text.starts_with("tempo = 80 # calm\n"));
//! assert_eq!(undo(&edited.text, &edited.inverse), text);
//! ```

mod between;
mod entries;
mod lines;
mod marks;
mod model;
mod notes;
mod signs;
mod splices;
mod structure;

pub use marks::take_mark;
pub use model::{Distance, Edit, Edited, Selection, SignPlace, Splice, Value};

use crate::problem::Problem;
use structure::Structure;

/// Applies an edit to the text of a routine.
///
/// # Errors
/// If the edit cannot be made; the text then stays as it is.
pub fn apply(text: &str, edit: &Edit) -> Result<Edited, Problem> {
    let structure = Structure::of(text)?;
    let (splices, selection) = match edit {
        Edit::Set { line, key, value } => entries::set(&structure, *line, key, value)?,
        Edit::Remove { line, key } => entries::remove(&structure, *line, key)?,
        Edit::AddLine { .. }
        | Edit::RemoveLine { .. }
        | Edit::MoveLine { .. }
        | Edit::DuplicateLine { .. } => lines::change(&structure, edit)?,
        Edit::Dynamic { .. } | Edit::Breath { .. } | Edit::Bar { .. } => {
            between::change(&structure, edit)?
        }
        _ => signs::change(&structure, edit)?,
    };
    let splices = splices::in_order(splices);
    let (text, inverse) = splices::apply(text, &splices);
    // What cannot be read back is refused before anybody sees it.
    Structure::of(&text)?;
    if matches!(edit, Edit::Dynamic { .. } | Edit::Breath { .. }) {
        between::still_reads(structure.text, &text)?;
    }
    Ok(Edited {
        text,
        splices,
        inverse,
        selection,
    })
}

/// The signs of a line's notes, with their places in the text.
///
/// # Errors
/// If the text cannot be taken apart, or there is no such line, or it has no notes.
pub fn signs_in(text: &str, line: usize) -> Result<Vec<SignPlace>, Problem> {
    let structure = Structure::of(text)?;
    let notes = notes::Notes::of(&structure, line)?;
    let one = |at: usize| SignPlace {
        at,
        head: notes.head(at).to_owned(),
        place: notes.sign_place(at),
    };
    Ok((0..notes.signs.len()).map(one).collect())
}

/// Takes splices back, or makes them again.
pub fn undo(text: &str, splices: &[Splice]) -> String {
    splices::apply(text, splices).0
}
