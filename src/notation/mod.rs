//! How music is written down: what a printed sheet and an exported file have in common.
//!
//! [`written`] cuts the passes of a line into bars of notes and rests, in the values that [`value`] knows.
//! [`accidentals`] says which notes carry a sharp, flat or natural, [`beams`] which share a beam. Where any of
//! it stands on paper is not known here.

pub mod accidentals;
pub mod beams;
pub mod value;
pub mod written;
