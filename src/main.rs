//! Arguments in, message and exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(leadpipe::command::run(std::env::args_os()))
}
