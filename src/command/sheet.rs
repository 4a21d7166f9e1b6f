//! `leadpipe sheet`: the routine on paper.

use super::console::Console;
use super::source::Source;
use super::{Exit, Failure, Outcome, pencilled, show, takes};
use crate::print::files;
use crate::render::{RenderFailure, batch, take_name};
use crate::routine::Routine;
use crate::score::unroll;
use crate::sheet::{
    Fingerings, Options, Paper, Passes, Sheet, engrave, engrave_pencilled, letters, svg,
};
use crate::words::count;
use clap::{Args, ValueEnum};
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// Print a routine as a sheet: every line with slurs, fingerings, breath marks and rests
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe sheet second-steps
  leadpipe sheet anna.toml --format pdf,png --paper letter
  leadpipe sheet anna.toml --fingerings all --passes all --out anna
  leadpipe sheet second-steps --pencil anna.pencil.toml

The names of the files go to standard output. A picture and an SVG hold one page each.")]
pub struct SheetCommand {
    /// A routine's file, a built-in routine's name, or - for standard input
    routine: OsString,

    /// Kinds of file to write: pdf, svg, png
    #[arg(
        long,
        value_name = "LIST",
        value_delimiter = ',',
        default_value = "pdf"
    )]
    format: Vec<Format>,

    /// Size of paper: a4 or letter
    #[arg(long, value_name = "SIZE", value_parser = paper, default_value = "a4")]
    paper: Paper,

    /// Notes that carry a fingering: unusual (sharps and flats, once each time through), all or none; one
    /// that is not the usual one always stands there [default: all for a routine of the first level, else
    /// unusual]
    #[arg(long, value_name = "WHICH", value_parser = fingerings)]
    fingerings: Option<Fingerings>,

    /// What of a long walk through half steps or tubes is written out: ends (the first and the last, with
    /// words for those between) or all
    #[arg(long, value_name = "WHICH", value_parser = passes, default_value = "ends")]
    passes: Passes,

    /// A player's pencil to draw over it; what is printed stays as it is
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    #[command(flatten)]
    take: takes::OneTake,

    /// Folder to put the sheet in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,
}

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// All pages in one file, to print.
    Pdf,
    /// A drawing of each page.
    Svg,
    /// A picture of each page.
    Png,
}

pub(super) fn paper(text: &str) -> Result<Paper, String> {
    match text.trim().to_lowercase().as_str() {
        "a4" => Ok(Paper::A4),
        "letter" => Ok(Paper::Letter),
        _ => Err("the paper is a4 or letter".to_owned()),
    }
}

fn fingerings(text: &str) -> Result<Fingerings, String> {
    match text.trim() {
        "unusual" => Ok(Fingerings::Unusual),
        "all" => Ok(Fingerings::All),
        "none" => Ok(Fingerings::None),
        _ => Err("fingerings are unusual, all or none".to_owned()),
    }
}

fn passes(text: &str) -> Result<Passes, String> {
    match text.trim() {
        "ends" => Ok(Passes::Ends),
        "all" => Ok(Passes::All),
        _ => Err("passes are ends or all".to_owned()),
    }
}

impl SheetCommand {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = Source::find(&self.routine)?;
        let Some(routine) = read(console, &source) else {
            return Ok(Exit::Errors);
        };
        let pencil = match &self.pencil {
            None => None,
            Some(argument) => {
                let source = pencilled::find(argument)?;
                match pencilled::lay(console, source, &routine, false) {
                    Some(pencilled) => Some(pencilled.pencil),
                    None => return Ok(Exit::Errors),
                }
            }
        };
        let take = self.take.take();
        let score =
            unroll(&routine, &take).map_err(|fault| takes::refusal(&fault, &take, &routine))?;
        for notice in &score.notices {
            console.say(&takes::notice(notice));
        }
        let options = Options {
            paper: self.paper,
            fingerings: self.fingerings.unwrap_or(Fingerings::ByLevel),
            passes: self.passes,
        };
        let sheet = match &pencil {
            Some(pencil) => engrave_pencilled(&score, &options, pencil),
            None => engrave(&score, &options),
        };
        warn_of_letters(console, &routine);
        let name = format!("{} sheet", take_name::slug(&routine.title));
        let mut written = vec![];
        let mut files: Vec<(String, Vec<u8>)> = vec![];
        let mut done: Vec<Format> = vec![];
        for format in &self.format {
            if !done.contains(format) {
                done.push(*format);
                files.extend(drawn(&sheet, *format, &name)?);
            }
        }
        batch::prepare(&self.out).map_err(failure)?;
        for (name, content) in files {
            let path = files::put(&self.out, &name, &content).map_err(failure)?;
            written.push(path);
        }
        let list: String = written
            .iter()
            .map(|p| format!("{}\n", p.display()))
            .collect();
        console.data(&list)?;
        console.say(&format!("{}.", count(sheet.pages.len(), "page", "pages")));
        Ok(Exit::Done)
    }
}

/// The routine of a source; its faults are shown.
pub(super) fn read(console: &mut Console, source: &Source) -> Option<Routine> {
    match source.read() {
        Ok(routine) => Some(routine),
        Err(faults) => {
            show::faults(console, source, &faults);
            let faults = count(faults.len(), "fault", "faults");
            console.say(&format!("{}: {faults}.", source.name));
            None
        }
    }
}

/// Says which letters the sheet's font has not.
pub(super) fn warn_of_letters(console: &mut Console, routine: &Routine) {
    let lines = routine.lines.iter();
    let texts = lines.flat_map(|l| {
        let more = [&l.purpose, &l.say].into_iter().flatten();
        std::iter::once(&l.name).chain(more)
    });
    let mut missing: Vec<char> = vec![];
    for text in texts.chain([&routine.title]).chain(&routine.purpose) {
        for letter in letters::unknown(text) {
            if !missing.contains(&letter) {
                missing.push(letter);
            }
        }
    }
    if !missing.is_empty() {
        const MOST: usize = 10;
        let shown: String = missing.iter().take(MOST).collect();
        let more = if missing.len() > MOST {
            " and others"
        } else {
            ""
        };
        console.warn(
            &format!("the sheet's font has no {shown}{more}: empty boxes stand for them"),
            Some("it has Latin, Greek and Cyrillic letters"),
        );
    }
}

/// The files of a sheet in one format, with their names.
fn drawn(sheet: &Sheet, format: Format, name: &str) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    match format {
        Format::Svg => Ok(pages(sheet, name, "svg")
            .map(|(name, page)| (name, svg::page(page).into_bytes()))
            .collect()),
        Format::Pdf => pdf(sheet, name),
        Format::Png => png(sheet, name),
    }
}

/// Each page with the name of its file: numbered where there are several.
fn pages<'s>(
    sheet: &'s Sheet,
    name: &str,
    ending: &str,
) -> impl Iterator<Item = (String, &'s crate::sheet::Page)> {
    let one = sheet.pages.len() == 1;
    sheet.pages.iter().enumerate().map(move |(index, page)| {
        let name = if one {
            format!("{name}.{ending}")
        } else {
            format!("{name} {}.{ending}", index + 1)
        };
        (name, page)
    })
}

#[cfg(feature = "pdf")]
fn pdf(sheet: &Sheet, name: &str) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let content = crate::print::pdf::pdf(sheet)
        .map_err(|why| Failure::error(format!("the sheet could not be made a PDF: {why}")))?;
    Ok(vec![(format!("{name}.pdf"), content)])
}

#[cfg(not(feature = "pdf"))]
fn pdf(_: &Sheet, _: &str) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    Err(Failure::usage("this leadpipe was built without PDF").hint("write --format svg"))
}

#[cfg(feature = "png")]
fn png(sheet: &Sheet, name: &str) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let painter = crate::print::png::Painter::default();
    let drawn = pages(sheet, name, "png").map(|(name, page)| {
        let picture = painter.png(page).map_err(|why| {
            Failure::error(format!("the sheet could not be made a picture: {why}"))
        })?;
        Ok((name, picture))
    });
    drawn.collect()
}

#[cfg(not(feature = "png"))]
fn png(_: &Sheet, _: &str) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    Err(Failure::usage("this leadpipe was built without pictures").hint("write --format svg"))
}

/// Why a file could not be put where it was to go.
pub(super) fn failure(why: RenderFailure) -> Failure {
    let hint = why.hint();
    let said = match &why {
        RenderFailure::NotAFolder(path) => in_the_way(path),
        other => other.to_string(),
    };
    let failure = Failure::error(said);
    match hint {
        Some(hint) => failure.hint(hint),
        None => failure,
    }
}

fn in_the_way(path: &Path) -> String {
    format!(
        "{} is a file, so nothing can be put into it",
        path.display()
    )
}
