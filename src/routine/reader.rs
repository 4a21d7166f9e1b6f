//! Reads a routine file.
use super::{Fault, Routine};

/// Reads the text of a routine file: the routine, or every fault in it, in order of place.
pub fn read(_text: &str) -> Result<Routine, Vec<Fault>> {
    Err(vec![])
}
