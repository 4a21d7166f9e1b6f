//! `--language`: the language of the words that a pupil reads.

use crate::words::{Language, list};
use clap::Args;

/// The language that is asked for.
#[derive(Args, Clone, Copy, Debug, Default)]
pub struct LanguageOption {
    /// Language of the words for the player: en, de or fr [default: that of the routine, or English]
    #[arg(long = "language", value_name = "LANGUAGE", value_parser = language)]
    pub asked: Option<Language>,
}

/// Reads the tag of a language.
fn language(tag: &str) -> Result<Language, String> {
    Language::of(tag.trim()).ok_or_else(|| {
        let all = Language::ALL.map(|language| format!("{} ({})", language.name(), language.tag()));
        format!("leadpipe speaks {}", list::and(&all))
    })
}
