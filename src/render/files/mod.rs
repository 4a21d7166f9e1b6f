//! The one place where this program writes files.
//!
//! A file is written beside its place under a passing name, and gets its own once it is whole: nobody ever sees half
//! of one. A small file is [`put`] there at once, and left alone where it stands there already, so that it keeps its
//! time; a large one is [`Growing`]. What a killed run left is cleared away when the next one [`prepare`]s the folder.

pub mod folder;
pub mod growing;
mod hashed;
pub mod look;
pub mod passing;
mod put;

pub use folder::prepare;
pub use growing::Growing;
pub use look::Look;
pub use put::{Put, put, put_over, write};
