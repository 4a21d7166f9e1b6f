//! What need not be done again: how it is known that a track is as it should be, and where lines of it are already.
//!
//! A [`fingerprint`] says what sounds, the [`record`] beside the tracks what an earlier run made of it; lines that
//! several tracks of one run need lie on the [`shelf`].

pub(super) mod earlier;
pub mod fingerprint;
pub mod kept;
pub mod origin;
pub mod record;
pub mod shelf;
