//! Tempos.

use super::{Language, say};
use crate::music::Tempo;

/// "72 clicks a minute".
pub fn clicks_a_minute(language: Language, tempo: Tempo) -> String {
    say::clicks_a_minute(language, tempo)
}
