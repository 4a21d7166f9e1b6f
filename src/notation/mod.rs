//! Notation: what a printed sheet and an exported file have in common.
//!
//! [`written`] divides the passes of a line into bars of notes and rests, with the values of [`value`]. [`accidentals`]
//! decides which notes have a sharp, flat or natural, and [`beams`] which notes share a beam. Positions on paper are the
//! task of the sheet.

pub mod accidentals;
pub mod beams;
pub mod value;
pub mod written;
