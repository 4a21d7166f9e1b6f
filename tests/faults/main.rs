//! Nothing is lost when the system fails: every call that a command makes is made to fail, one after the other, and
//! commands are killed at random moments. `judge` says what must hold afterwards.
//!
//!     cargo test --test faults                            a fourth of a sample, fixed by rule, and 25 kills
//!     LEADPIPE_SAMPLE=1 cargo test --test faults          all of it, and 100 kills
//!     cargo test --test faults -- --ignored --nocapture   every failing call, and 1,000 kills
//!
//! The calls fail in a shim that is preloaded, for which Linux and a C compiler are needed. `LEADPIPE_PROGRAM` names
//! another build of the program; `LEADPIPE_SEED` the moments of the kills.

#![cfg(target_os = "linux")]

mod campaign;
mod fault;
mod folder;
mod judge;
mod kills;
mod pencils;
mod prepared;
mod process;
mod scenario;
mod threads;
