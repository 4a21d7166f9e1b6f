//! wip
use super::Phrase;
/// wip
pub fn parse() -> Phrase {
    Phrase::default()
}
