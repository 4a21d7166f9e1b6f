//! Prints the native report; an argument moves the take by so many half steps.

use std::process::ExitCode;

fn main() -> ExitCode {
    match std::env::args().nth(1).map_or(Ok(0), |a| a.parse()) {
        Ok(key) => {
            print!("{}", leadpipe_bits::report(key));
            ExitCode::SUCCESS
        }
        Err(_) => {
            eprintln!("error: the argument is a number of half steps");
            ExitCode::from(2)
        }
    }
}
