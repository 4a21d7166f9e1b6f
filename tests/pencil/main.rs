//! Pencils: reading, laying over a routine, writing and erasing.

use leadpipe::pencil::{self, Laid, Pencil};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{Score, Take, unroll};
use std::fs;
use std::path::Path;

mod editing;
mod laying;
mod properties;
mod reading;

/// The names of the usual routine of each level.
fn usual() -> Vec<&'static str> {
    leadpipe::presets::usual()
        .map(|preset| preset.name)
        .collect()
}

fn preset(name: &str) -> Routine {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("presets/{name}.toml"));
    routine::read(&fs::read_to_string(path).unwrap()).unwrap()
}

/// A pencil with these marks, each the rows under a `[[mark]]`.
fn text(marks: &[&str]) -> String {
    let mut text = "format = 1\nplayer = \"Anna\"\n".to_owned();
    for mark in marks {
        text += &format!("\n[[mark]]\n{mark}\n");
    }
    text
}

fn read(text: &str) -> Pencil {
    let read = pencil::read(text);
    assert!(read.faults.is_empty(), "{text}\n{:#?}", read.faults);
    read.pencil.unwrap()
}

/// Marks laid over a routine, all of which fit.
fn laid(routine: &Routine, marks: &[&str]) -> Laid {
    let laid = pencil::lay(&read(&text(marks)), routine);
    assert!(laid.faults.is_empty(), "{marks:?}\n{:#?}", laid.faults);
    laid
}

fn score(routine: &Routine) -> Score<'_> {
    unroll(routine, &Take::default()).unwrap()
}

/// Two lines, easy to count.
const SHORT: &str = "\
format = 1
title = \"Short\"
instrument = \"trumpet in B-flat\"
comfortable_top = \"G4\"
tempo = 60
meter = \"4/4\"

[[line]]
name = \"Away\"
notes = \"p slur( G4:half F#4:half | G4:half ) tie:quarter rest:quarter\"
half_steps = [0, -1, -2]
between = \"2 bars\"
rest = \"20 s\"

[[line]]
name = \"On tubes\"
open = \"slur( C4:half G4:half | C4:whole )\"
tubes = [\"0\", \"2\", \"1\", \"1-2\"]
tempo = 90

[[line]]
name = \"Air\"
on = \"air\"
notes = \"in:whole out:whole\"

[[line]]
name = \"Home\"
notes = \"p slur( D4:half C4:half )\"
";

fn short() -> Routine {
    routine::read(SHORT).unwrap()
}
