//! `leadpipe completions`: help for the Tab key.

use super::console::Console;
use super::{Exit, Outcome};
use clap::Args;
use clap_complete::Shell;

/// Print a script that completes commands and options in a shell
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe completions bash > ~/.local/share/bash-completion/completions/leadpipe
  leadpipe completions fish > ~/.config/fish/completions/leadpipe.fish")]
pub struct Completions {
    /// The shell
    shell: Shell,
}

impl Completions {
    /// Runs the command, with the whole program's commands and options.
    pub fn run(self, console: &mut Console, program: &mut clap::Command) -> Outcome {
        let mut script = Vec::new();
        clap_complete::generate(self.shell, program, "leadpipe", &mut script);
        console.data(&String::from_utf8_lossy(&script))?;
        Ok(Exit::Done)
    }
}
