//! The folder a pupil gets: a page that plays the tracks, and sharing it with phones.

mod base64;
pub mod class_report;
pub mod engine;
pub mod escape;
pub mod folder;
mod made;
pub mod owner;
pub mod page;
pub mod policy;
pub mod practice;
#[cfg(feature = "share")]
pub mod share;

pub use page::{HandoutPage, PageSheet, PageTake};
