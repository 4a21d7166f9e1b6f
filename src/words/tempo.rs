//! Tempos.

use std::fmt::Display;

/// "72 clicks a minute".
pub fn clicks_a_minute(tempo: impl Display) -> String {
    format!("{tempo} clicks a minute")
}
