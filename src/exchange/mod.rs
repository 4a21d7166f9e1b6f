//! To and from other people's programs, through open standards: MusicXML 4.0 (W3C) and Standard MIDI Files 1.0.
//!
//! [`musicxml::write()`] and [`midi::write()`] take a [`Score`](crate::score::Score) to the content of a file.
//! [`musicxml::read()`] and [`midi::read()`] take the content of a file to a [`Piece`], music as it stands in bars;
//! [`adopt()`] takes a piece to the text of a routine and tells what could not be kept. No files are opened
//! here: text and bytes go in and come out.

pub mod adopt;
pub mod midi;
pub mod musicxml;
pub mod piece;

pub use adopt::{Adopted, Choice, adopt};
pub use piece::Piece;
