//! Tracks made the way a teacher makes them, text to WAV files, and measured by code that shares nothing
//! with what made them. What is expected is worked out here from the written meaning of the format.

#![allow(
    clippy::disallowed_methods,
    reason = "measuring needs no equal bits, and shares no code with what it measures"
)]

#[path = "../measure/mod.rs"]
mod measure;

mod beats;
mod built_in;
mod changed_line;
mod compass;
mod loudness;
mod rendered;
mod silence;
