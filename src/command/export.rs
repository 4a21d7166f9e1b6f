//! `leadpipe export`: the routine for other programs.

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::{self, LoadedEdition};
use super::output;
use super::source::SourceText;
use super::{Exit, Outcome, takes};
use crate::edition::name;
use crate::exchange::{midi, musicxml};
use crate::render::files::Replace;
use crate::score::Score;
use crate::words::Words;
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

    #[command(flatten)]
    carry: CarryOptions,

    /// With a player's marks
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Leave marks out that do not fit, and apply the others
    #[arg(long, requires = "pencil")]
    keep_going: bool,

    /// Fingerings in MusicXML: unusual (other than the usual ones, and the tube at its first note) or all
    #[arg(long, value_name = "WHICH", value_parser = fingerings, default_value = "unusual")]
    fingerings: musicxml::FingeredNotes,

    /// Folder to put the files in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,

    /// Replace files of these names that leadpipe did not write, or that were changed since
    #[arg(long)]
    force: bool,
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
    fn content(self, score: &Score<'_>, fingerings: musicxml::FingeredNotes) -> Vec<u8> {
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

fn fingerings(text: &str) -> Result<musicxml::FingeredNotes, Words> {
    match text.trim() {
        "unusual" => Ok(musicxml::FingeredNotes::Unusual),
        "all" => Ok(musicxml::FingeredNotes::All),
        _ => Err("fingerings are unusual or all".into()),
    }
}

impl Export {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = SourceText::find(&self.routine)?;
        let source = self.carry.source(console, source)?;
        let pencil = edition::find_pencil_option(self.pencil.as_ref())?;
        let Some(opened) = LoadedEdition::read(console, source, pencil, self.keep_going) else {
            return Ok(Exit::Errors);
        };
        let take = self.take.take(opened.edition.teacher())?;
        let score = opened.edition.score(&take)?;
        for notice in &score.notices {
            console.say(takes::notice(notice));
        }
        let routine = opened.edition.played();
        let base = take.tempo.base(routine).unwrap_or(routine.tempo);
        let name = name::of(&opened.stem(), base, &take);
        let mut files: Vec<(String, Vec<u8>)> = vec![];
        for to in &self.to {
            let file = format!("{name}.{}", to.ending());
            if files.iter().all(|(there, _)| *there != file) {
                files.push((file, to.content(&score, self.fingerings)));
            }
        }
        output::put_listed(console, &self.out, &files, Replace::forced(self.force))?;
        Ok(opened.exit())
    }
}
