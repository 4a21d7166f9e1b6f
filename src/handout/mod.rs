//! The folder a pupil gets: a page that plays the tracks, and sharing it with phones.

pub mod escape;
pub mod page;
mod policy;

pub use page::{Page, Take};
