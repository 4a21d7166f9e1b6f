//! `leadpipe completions`: help for the Tab key.

use super::console::Console;
use super::{Arguments, Exit, Outcome};
use clap::{Args, CommandFactory};
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
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let mut script = Vec::new();
        clap_complete::generate(
            self.shell,
            &mut Arguments::command(),
            "leadpipe",
            &mut script,
        );
        console.data(&String::from_utf8_lossy(&script))?;
        Ok(Exit::Done)
    }
}
