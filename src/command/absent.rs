//! Commands that this build does not include: they say so.

use super::{Failure, Outcome};
use clap::Args;
use std::ffi::OsString;

/// A command that was left out of this leadpipe
#[derive(Args, Debug)]
pub struct Absent {
    #[arg(trailing_var_arg = true, allow_hyphen_values = true, hide = true)]
    rest: Vec<OsString>,
}

impl Absent {
    /// Reports that the command is missing, and which feature provides it.
    pub fn run(self, what: &str, feature: &str) -> Outcome {
        let _ = self.rest;
        Err(
            Failure::usage(format!("this leadpipe was built without {what}"))
                .hint(format!("build it with --features {feature}")),
        )
    }
}
