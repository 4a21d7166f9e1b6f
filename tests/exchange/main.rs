//! MusicXML and MIDI: what is written, what is read, what comes back, and what happens to files that are broken.

use leadpipe::brass::Instrument;
use leadpipe::exchange::{AdoptOptions, Adopted, ImportedPiece, adopt, musicxml};
use leadpipe::presets;
use leadpipe::problem::Problem;
use leadpipe::routine::{self, Routine};
use leadpipe::score::{Score, Take};

mod damage;
mod documents;
mod keys;
mod kinds;
mod limits;
mod midi;
mod packed;
mod reading;
mod round_trip;
mod silent;
mod tunes;
mod written;

/// The built-in routines: name and text.
fn built_in() -> impl Iterator<Item = (&'static str, &'static str)> {
    presets::ALL.iter().map(|preset| (preset.name, preset.text))
}

fn routine(text: &str) -> Routine {
    routine::read(text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"))
}

/// A routine of one line at 60 clicks a minute.
fn line(text: &str) -> Routine {
    routine(&format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G5\"\ntempo = 60\n\
         [[line]]\nname = \"L\"\n{text}\n"
    ))
}

fn unroll(routine: &Routine) -> Score<'_> {
    leadpipe::score::unroll(routine, &Take::default()).expect("it unrolls")
}

fn export(routine: &Routine) -> String {
    musicxml::write(&unroll(routine), musicxml::FingeredNotes::Unusual)
}

fn choice() -> AdoptOptions {
    AdoptOptions {
        instrument: Instrument::named("trumpet in B-flat").expect("it is known"),
        concert: false,
        title: "a file".to_owned(),
        source: "a file.musicxml".to_owned(),
    }
}

/// A piece becomes a routine for the instrument that it was written for.
fn adopted_for(piece: &ImportedPiece, instrument: &'static Instrument) -> Adopted {
    let options = AdoptOptions {
        instrument,
        ..choice()
    };
    adopt(piece, &options).unwrap_or_else(|refusal| panic!("{refusal:?}"))
}

fn adopted(piece: &ImportedPiece) -> Adopted {
    adopt(piece, &choice()).unwrap_or_else(|refusal| panic!("{refusal:?}"))
}

/// A score of one part in MusicXML becomes a routine's text.
fn adopt_xml(text: &str) -> Result<Adopted, Problem> {
    adopt(&musicxml::read(text, None)?, &choice())
}
