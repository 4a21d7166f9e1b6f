//! A player's pencil as it is named on the command line, laid over a routine.

use super::console::Console;
use super::source::Source;
use super::{Failure, show};
use crate::check::{self, Finding, Options, Report};
use crate::pencil::{self, Laid, Pencil};
use crate::routine::Routine;
use crate::score::{Take, unroll};
use crate::words::count;
use std::ffi::OsStr;
use std::path::Path;

/// A pencil, laid over a routine.
pub struct Pencilled {
    /// Its file.
    pub source: Source,
    /// What it says, as far as it is understood.
    pub pencil: Pencil,
    /// The player's version of the routine.
    pub laid: Laid,
    /// True if every mark was understood and fits.
    pub sound: bool,
    /// Its player's nickname, or what its file is called.
    pub whose: String,
}

/// The file of a pencil.
///
/// # Errors
/// Where there is none, or it is no text.
pub fn find(argument: &OsStr) -> Result<Source, Failure> {
    let shown = argument.to_string_lossy();
    let path = Path::new(argument);
    if path.is_dir() {
        return Err(Failure::usage(format!("{shown} is a folder, not a pencil"))
            .hint("name the pencil's file in it"));
    }
    if shown != "-" && !path.exists() {
        return Err(
            Failure::usage(format!("there is no file called {shown}")).hint(format!(
                "leadpipe pencil ROUTINE {shown} LINE slower writes one with its first mark"
            )),
        );
    }
    Source::find(argument)
}

/// Lays the pencil in `source` over `routine`. What is wrong with it is shown; then there is none, unless the rest
/// is to be applied.
pub fn lay(
    console: &mut Console,
    source: Source,
    routine: &Routine,
    keep_going: bool,
) -> Option<Pencilled> {
    let read = pencil::read(&source.text);
    let laid = read.pencil.as_ref().map(|p| pencil::lay(p, routine));
    let mut faults = read.faults;
    faults.extend(laid.iter().flat_map(|laid| laid.faults.iter().cloned()));
    faults.sort_by_key(|f| (f.span.start, f.span.end));
    show::faults(console, &source, &faults);
    let sound = faults.is_empty();
    if !sound && !keep_going {
        let hint = laid
            .is_some()
            .then_some("--keep-going applies the other marks and leaves these out");
        let faults = count(faults.len(), "mark does", "marks do");
        console.complain(&format!("{}: {faults} not fit", source.name), hint);
        return None;
    }
    // Of a file that is not understood no mark is applied, whatever is asked for.
    let (pencil, laid) = (read.pencil?, laid?);
    let whose = whose(&pencil, &source);
    Some(Pencilled {
        source,
        pencil,
        laid,
        sound,
        whose,
    })
}

/// Whose pencil it is, in the player's own words where there are any.
fn whose(pencil: &Pencil, source: &Source) -> String {
    let stem = || {
        let path = Path::new(&source.argument);
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let name = name.strip_suffix(".toml").unwrap_or(&name);
        name.strip_suffix(".pencil").unwrap_or(name).to_owned()
    };
    pencil.player.clone().unwrap_or_else(stem)
}

impl Pencilled {
    /// What its marks take away of the rest, at a take of which `report` tells.
    pub fn cut_rest(&self, teacher: &Routine, take: &Take, report: &Report) -> Vec<Finding> {
        if !self.pencil.marks.iter().any(|m| m.change.may_cut_rest()) {
            return Vec::new();
        }
        let plain = unroll(teacher, take).ok();
        let plain = plain.map(|score| check::check(&score, &Options::default()));
        check::pencilled::check(&self.pencil, &self.laid, report, plain.as_ref())
    }
}
