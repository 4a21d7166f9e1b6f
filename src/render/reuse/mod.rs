//! What does not have to be rendered again: which tracks are up to date, and where their lines can be copied
//! from.
//!
//! A [`fingerprint`] identifies the sound; the [`record`] beside the tracks describes what an earlier run
//! wrote; lines that several tracks of one run need are on the [`shelf`].

pub(super) mod earlier;
pub mod fingerprint;
pub mod kept;
pub mod origin;
pub mod record;
pub mod shelf;
