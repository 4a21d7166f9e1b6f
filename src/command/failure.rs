//! How a command can end.

use crate::edition::Unplayable;
use crate::problem::Problem;
use crate::render::RenderFailure;
use crate::words::Words;
use std::io;

/// How the program exits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// Success; there may have been warnings.
    Done,
    /// Errors in a routine, or a file that could not be written.
    Errors,
    /// Wrong usage: an option, a name or a missing file.
    WrongUsage,
    /// Stopped with Ctrl-C.
    Stopped,
}

impl Exit {
    /// The exit code: 0, 1, 2 or 130.
    pub fn code(self) -> u8 {
        match self {
            Exit::Done => 0,
            Exit::Errors => 1,
            Exit::WrongUsage => 2,
            Exit::Stopped => 130,
        }
    }
}

/// The outcome of a command.
pub type Outcome = Result<Exit, Failure>;

/// Why a command failed.
#[derive(Debug)]
pub enum Failure {
    /// A problem that can be put into words.
    Refused {
        /// How the program exits.
        exit: Exit,
        /// What is wrong, and what would be right.
        problem: Box<Problem>,
    },
    /// Standard output could not be written.
    Output(io::Error),
}

impl Failure {
    /// Wrong usage.
    pub fn usage(message: impl Into<Words>) -> Self {
        Self::new(Exit::WrongUsage, message)
    }

    /// An error that is not one of usage.
    pub fn error(message: impl Into<Words>) -> Self {
        Self::new(Exit::Errors, message)
    }

    /// A problem, and how the program exits because of it.
    pub fn of(exit: Exit, problem: Problem) -> Self {
        Self::Refused {
            exit,
            problem: Box::new(problem),
        }
    }

    fn new(exit: Exit, message: impl Into<Words>) -> Self {
        Self::of(exit, Problem::error(message))
    }

    /// Adds a hint that says what would be right.
    pub fn hint(self, text: impl Into<Words>) -> Self {
        match self {
            Self::Refused { exit, problem } => Self::of(exit, problem.hint(text)),
            other @ Self::Output(_) => other,
        }
    }

    /// How the program exits.
    pub fn exit(&self) -> Exit {
        match self {
            Self::Refused { exit, .. } => *exit,
            // The reader closed the pipe on purpose.
            Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe => Exit::Done,
            Self::Output(_) => Exit::Errors,
        }
    }
}

impl From<io::Error> for Failure {
    /// For standard output only: errors of other files have messages of their own.
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<Problem> for Failure {
    /// An error that is not one of usage.
    fn from(problem: Problem) -> Self {
        Self::of(Exit::Errors, problem)
    }
}

impl From<RenderFailure> for Failure {
    fn from(failure: RenderFailure) -> Self {
        Problem::from(failure).into()
    }
}

impl From<Unplayable> for Failure {
    /// A problem of the routine as written is an error in the routine, not in the options.
    fn from(unplayable: Unplayable) -> Self {
        let exit = if unplayable.is_as_written() {
            Exit::Errors
        } else {
            Exit::WrongUsage
        };
        Self::of(exit, unplayable.problem)
    }
}
