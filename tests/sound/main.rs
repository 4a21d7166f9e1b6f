//! The sound of the voices, measured by code that shares nothing with the synthesis.

#[path = "../measure/mod.rs"]
mod measure;

mod balance;
mod bits;
mod by_hand;
mod company;
mod joins;
mod tone;
mod tuning;
