//! The folder a pupil gets: a page that plays the tracks, and sharing it with phones.

pub(crate) mod base64;
#[cfg(feature = "cli")]
pub mod class_report;
pub mod engine;
pub mod escape;
#[cfg(feature = "cli")]
pub mod folder;
#[cfg(feature = "cli")]
mod made;
#[cfg(feature = "cli")]
pub mod owner;
pub mod page;
pub mod policy;
#[cfg(feature = "cli")]
pub mod practice;
#[cfg(feature = "share")]
pub mod share;

pub use page::{HandoutPage, PageSheet, PageTake};
