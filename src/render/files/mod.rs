//! The only place where this program writes files.
//!
//! A file is written under a temporary name beside its destination and renamed when it is complete, so nobody
//! ever sees half a file. A small file is [`put`] at once, and only if its content changed, so that it keeps
//! its time stamp; a large one is [`Growing`]. What a killed run left is removed when the next run [`prepare`]s
//! the folder.

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
