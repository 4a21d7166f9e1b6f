//! The sound of the voices, measured by code that shares nothing with the synthesis.

#[path = "../measure/mod.rs"]
mod measure;

mod articulation;
mod balance;
mod beats;
mod bits;
mod by_hand;
mod company;
mod families;
mod heard_through;
mod joins;
mod life;
mod starts;
mod tone;
mod tuning;
