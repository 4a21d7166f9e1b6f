//! Files of music on the command line: read, and made a routine.

use super::Failure;
use super::console::Console;
use super::source::SourceText;
use super::text;
use crate::brass::Instrument;
use crate::exchange::file::{self, LARGEST};
use crate::exchange::{AdoptOptions, Adopted, adopt};
use crate::problem::Problem;
use crate::render::failure::system_words;
use crate::render::reading::{self, Unread};
use crate::words::count;
use std::ffi::OsStr;
use std::io::ErrorKind;
use std::path::Path;

/// How a file is to be taken.
pub(super) struct Wanted<'w> {
    pub part: Option<&'w str>,
    pub instrument: &'static Instrument,
    pub concert: bool,
    /// What cannot be done with a file that is refused: "be adopted".
    pub done: &'static str,
}

/// A file of music as a routine, and whether its kind of file holds less than music has.
pub(super) struct FromFile {
    pub adopted: Adopted,
    pub limited: bool,
}

/// Reads a file of music, and makes it a routine.
pub(super) fn routine(file: &OsStr, wanted: &Wanted<'_>) -> Result<FromFile, Failure> {
    let shown = file.to_string_lossy().into_owned();
    let bytes = bytes(file, &shown)?;
    let refused = |refusal: Problem| {
        let failure = Failure::usage(format!("{shown} cannot {}: {refusal}", wanted.done));
        match refusal.hint {
            Some(hint) => failure.hint(hint),
            None => failure,
        }
    };
    let piece = file::read(bytes, wanted.part).map_err(refused)?;
    let path = Path::new(file);
    let part = |name: Option<&OsStr>| name.unwrap_or_default().to_string_lossy().into_owned();
    let choice = AdoptOptions {
        instrument: wanted.instrument,
        concert: wanted.concert,
        title: part(path.file_stem()),
        source: part(path.file_name()),
    };
    let adopted = adopt(&piece, &choice).map_err(refused)?;
    Ok(FromFile {
        adopted,
        limited: piece.limits.is_some(),
    })
}

/// The text of a routine made of a file of music; `None` if the argument names no such file.
pub(super) fn source(
    console: &mut Console,
    argument: &OsStr,
    wanted: &Wanted<'_>,
) -> Result<Option<SourceText>, Failure> {
    let path = Path::new(argument);
    if !path.is_file() {
        return Ok(None);
    }
    // What cannot be read is told of as the routine that it may be.
    match reading::named(path, LARGEST) {
        Ok(bytes) if file::is_music(&bytes) => {}
        _ => return Ok(None),
    }
    let made = routine(argument, wanted)?;
    tell(console, &made);
    let shown = argument.to_string_lossy().into_owned();
    Ok(Some(SourceText {
        carried: None,
        language: None,
        names: None,
        name: shown.clone(),
        argument: shown,
        text: made.adopted.text,
    }))
}

/// Says what was not kept, and then what was assumed.
pub(super) fn tell(console: &mut Console, made: &FromFile) {
    let adopted = &made.adopted;
    match adopted.losses.len() {
        0 if !adopted.compared => {
            console.say("Nothing is known to be lost; it is too long to be compared note by note.");
        }
        0 if made.limited => console.say("Everything that is in it was kept."),
        0 => console.say("Everything was kept."),
        n => console.say(format!("Not kept, {}:", count::things(n))),
    }
    for loss in &adopted.losses {
        console.say(text::wrapped("- ", loss).trim_end());
    }
    for said in &adopted.said {
        console.say(format!("note: {said}"));
    }
}

fn bytes(file: &OsStr, shown: &str) -> Result<Vec<u8>, Failure> {
    let path = Path::new(file);
    if path.is_dir() {
        return Err(Failure::usage(format!(
            "{shown} is a folder, not a file of music"
        )));
    }
    reading::named(path, LARGEST).map_err(|why| match why {
        Unread::TooLarge => Failure::usage(format!(
            "{shown} is larger than {} MiB, which no warm-up needs",
            LARGEST >> 20
        )),
        Unread::System(error) if error.kind() == ErrorKind::NotFound => {
            Failure::usage(format!("there is no file called {shown}"))
                .hint("name the file that the notation program has exported, with its ending")
        }
        Unread::System(error) => {
            Failure::error(format!("{shown} cannot be read: {}", system_words(&error)))
        }
    })
}
