//! The only place where this program writes files.
//!
//! A file is written under a temporary name beside its destination and renamed when it is complete, so nobody
//! ever sees half a file. There are three kinds:
//!
//! - **Output** can be made again: tracks, sheets, pages. It replaces only what leadpipe wrote and nobody has changed
//!   since ([`written`]). A small file is [`put`] at once, and only if its content changed, so that it keeps its
//!   time stamp; a large one is [`Growing`].
//! - **Texts of people**, which exist nowhere else: routines and pencils. They are [`kept`]: synced to the disk
//!   before they are renamed, and never written over a change that somebody else has made.
//! - **Records** in leadpipe's own folder: [`put_record`].
//!
//! What a killed run left is removed by the next run that writes into the folder.

pub mod folder;
pub mod growing;
mod hashed;
pub mod kept;
pub mod look;
pub mod own;
pub mod passing;
mod put;
mod replace;
mod turn;
pub mod written;

pub use folder::prepare;
pub use growing::Growing;
pub use look::Look;
pub use own::OWN;
pub use put::{Put, put, put_all, put_record};
pub use replace::Replace;
