//! Messages of our own for errors of the command line's parser.

use super::Failure;
use crate::words::{Words, tell};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::error::Error;

/// The message for an error of the command line; `None` for help and version, which come the same way, and for errors
/// without a message here.
pub fn failure(error: &clap::Error) -> Option<Failure> {
    let invalid = strings(error, ContextKind::InvalidArg);
    let name = invalid.first().map(|shown| option_name(shown));
    let value = strings(error, ContextKind::InvalidValue).pop();
    match error.kind() {
        ErrorKind::InvalidSubcommand => {
            let typed = strings(error, ContextKind::InvalidSubcommand).pop()?;
            let failure = Failure::usage(tell::no_command(&typed));
            let meant = strings(error, ContextKind::SuggestedSubcommand).pop();
            Some(match meant {
                Some(meant) => failure.hint(tell::did_you_mean(&meant)),
                None => failure.hint(tell::help_shows_commands()),
            })
        }
        ErrorKind::UnknownArgument => {
            let typed = name?;
            let meant = strings(error, ContextKind::SuggestedArg).pop();
            let failure = Failure::usage(if typed.starts_with('-') {
                tell::no_option(&typed)
            } else {
                tell::one_too_many(&typed)
            });
            Some(match meant {
                Some(meant) => failure.hint(tell::did_you_mean(option_name(&meant))),
                None => failure.hint(tell::help_shows(command(error))),
            })
        }
        ErrorKind::MissingRequiredArgument => {
            let missing = name?;
            let missing = missing.trim_matches(['<', '>', '.']).to_lowercase();
            let usage = usage(error)?;
            Some(Failure::usage(tell::is_missing(&missing)).hint(tell::write_usage(&usage)))
        }
        ErrorKind::InvalidValue | ErrorKind::ValueValidation => {
            let (name, value) = (name?, value.unwrap_or_default());
            let name = name.trim_matches(['<', '>']).to_lowercase();
            let failure = Failure::usage(if value.is_empty() {
                tell::says_nothing(&name)
            } else {
                tell::option_cannot_be(&name, &value)
            });
            let values = strings(error, ContextKind::ValidValue);
            Some(match error.source() {
                Some(reason) => match reason.downcast_ref::<Words>() {
                    Some(words) => failure.hint(words),
                    None => failure.hint(reason.to_string()),
                },
                None if !values.is_empty() => failure.hint(tell::it_can_be(values.join(", "))),
                None => failure.hint(tell::right_after_option()),
            })
        }
        _ => None,
    }
}

/// The texts of a context.
fn strings(error: &clap::Error, kind: ContextKind) -> Vec<String> {
    match error.get(kind) {
        Some(ContextValue::String(text)) => vec![text.clone()],
        Some(ContextValue::Strings(texts)) => texts.clone(),
        _ => vec![],
    }
}

/// `--tempo` of `--tempo <LIST>`.
fn option_name(shown: &str) -> String {
    shown.split(' ').next().unwrap_or(shown).to_owned()
}

/// `leadpipe check <ROUTINE>`
fn usage(error: &clap::Error) -> Option<String> {
    match error.get(ContextKind::Usage) {
        Some(ContextValue::StyledStr(text)) => {
            let text = text.to_string();
            let usage = text.strip_prefix("Usage: ").unwrap_or(&text);
            Some(usage.trim().to_owned())
        }
        _ => None,
    }
}

/// `leadpipe check`
fn command(error: &clap::Error) -> String {
    let usage = usage(error).unwrap_or_default();
    let words = usage.split(' ').skip(1);
    let named = words.take_while(|word| !word.starts_with(['[', '<', '-']));
    std::iter::once("leadpipe")
        .chain(named)
        .collect::<Vec<_>>()
        .join(" ")
}
