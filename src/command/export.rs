//! `leadpipe export`: the routine for other programs.

use super::console::Console;
use super::sheet::{failure, read};
use super::source::Source;
use super::{Exit, Outcome, pencilled, takes};
use crate::exchange::{midi, musicxml};
use crate::render::{files, take_name};
use crate::score::{Score, unroll};
use clap::{Args, ValueEnum};
use std::ffi::OsString;
use std::path::PathBuf;

/// Write a routine for notation programs (MusicXML) or sequencers (MIDI)
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe export second-steps --to musicxml
  leadpipe export anna.toml --to musicxml,midi --tempo 85% --out anna
  leadpipe export second-steps --to midi --pencil anna.pencil.toml

The names of the files go to standard output.")]
pub struct Export {
    /// A routine's file, a built-in routine's name, or - for standard input
    routine: OsString,

    /// Kinds of file to write: musicxml, midi
    #[arg(long, value_name = "LIST", value_delimiter = ',', required = true)]
    to: Vec<To>,

    #[command(flatten)]
    take: takes::OneTake,

    /// With a player's marks
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Fingerings in MusicXML: unusual (other than the usual ones, and the tube at its first note) or all
    #[arg(long, value_name = "WHICH", value_parser = fingerings, default_value = "unusual")]
    fingerings: musicxml::Fingerings,

    /// Folder to put the files in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,
}

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum To {
    /// MusicXML 4.0.
    Musicxml,
    /// Standard MIDI File 1.0.
    Midi,
}

impl To {
    fn content(self, score: &Score<'_>, fingerings: musicxml::Fingerings) -> Vec<u8> {
        match self {
            To::Musicxml => musicxml::write(score, fingerings).into_bytes(),
            To::Midi => midi::write(score),
        }
    }

    fn ending(self) -> &'static str {
        match self {
            To::Musicxml => "musicxml",
            To::Midi => "mid",
        }
    }
}

fn fingerings(text: &str) -> Result<musicxml::Fingerings, String> {
    match text.trim() {
        "unusual" => Ok(musicxml::Fingerings::Unusual),
        "all" => Ok(musicxml::Fingerings::All),
        _ => Err("fingerings are unusual or all".to_owned()),
    }
}

impl Export {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = Source::find(&self.routine)?;
        let Some(mut routine) = read(console, &source) else {
            return Ok(Exit::Errors);
        };
        let mut whose = String::new();
        if let Some(argument) = &self.pencil {
            let source = pencilled::find(argument)?;
            let Some(pencilled) = pencilled::lay(console, source, &routine, false) else {
                return Ok(Exit::Errors);
            };
            whose = format!(" {}", take_name::slug(&pencilled.whose));
            routine = pencilled.laid.routine;
        }
        let take = self.take.take();
        let score =
            unroll(&routine, &take).map_err(|fault| takes::refusal(&fault, &take, &routine))?;
        for notice in &score.notices {
            console.say(&takes::notice(notice));
        }
        let title = take_name::slug(&routine.title);
        let base = take.tempo.base(&routine).unwrap_or(routine.tempo);
        let name = take_name::of(&format!("{title}{whose}"), base, &take);
        let mut written = vec![];
        files::prepare(&self.out).map_err(failure)?;
        for to in &self.to {
            let file = format!("{name}.{}", to.ending());
            if written.iter().any(|(name, _)| *name == file) {
                continue;
            }
            let content = to.content(&score, self.fingerings);
            files::put(&self.out, &file, &content).map_err(failure)?;
            let path = self.out.join(&file);
            written.push((file, path));
        }
        let list: String = written
            .iter()
            .map(|(_, path)| format!("{}\n", path.display()))
            .collect();
        console.data(&list)?;
        Ok(Exit::Done)
    }
}
