//! `leadpipe sheet`: the routine on paper.

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::{self, LoadedEdition};
#[cfg(feature = "exchange")]
use super::music::{self, Wanted};
use super::output;
use super::source::SourceText;
use super::{Exit, Failure, Outcome, takes};
#[cfg(feature = "exchange")]
use crate::brass::INSTRUMENTS;
use crate::render::files::Replace;
use crate::routine::Routine;
use crate::sheet::{
    Paper, Sheet, SheetFingerings, SheetOptions, SheetPasses, SheetSize, TooLong, engrave_marked,
    engrave_within, letters, svg,
};
use crate::words::{Words, count, tell};
use clap::{Args, ValueEnum};
use std::ffi::OsString;
use std::path::PathBuf;

/// Print a routine as a sheet: every line with slurs, fingerings, breath marks and rests
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe sheet second-steps
  leadpipe sheet anna.toml --format pdf,png --paper letter
  leadpipe sheet anna.toml --fingerings all --passes all --out anna
  leadpipe sheet anna.toml --pages 2
  leadpipe sheet anna.toml --size large
  leadpipe sheet second-steps --pencil anna.pencil.toml
  leadpipe sheet tune.musicxml                 prints it without making a routine's file

The names of the files go to standard output. A picture and an SVG hold one page each.")]
pub struct SheetCommand {
    /// A routine's file, a built-in routine's name, - for standard input, or a file of music (MusicXML, MIDI, ABC)
    routine: OsString,

    /// Of a file of music: whose part, or which tune, its number or its name
    #[cfg(feature = "exchange")]
    #[arg(long, value_name = "PART")]
    part: Option<String>,

    /// Kinds of file to write: pdf, svg, png
    #[arg(
        long,
        value_name = "LIST",
        value_delimiter = ',',
        default_value = "pdf"
    )]
    format: Vec<SheetFormat>,

    /// Size of paper: a4 or letter
    #[arg(long, value_name = "SIZE", value_parser = paper, default_value = "a4")]
    paper: Paper,

    /// Notes that carry a fingering: unusual (sharps and flats, once each time through), all or none; one
    /// that is not the usual one always stands there [default: all for a routine of the first level, else
    /// unusual]
    #[arg(long, value_name = "WHICH", value_parser = fingerings)]
    fingerings: Option<SheetFingerings>,

    /// What of a long walk through half steps or tubes is written out: ends (the first, the last and those
    /// with a fingering that does not stand there yet; the notes that the others begin on are listed) or
    /// all [default: all for a routine of the first level, else ends]
    #[arg(long, value_name = "WHICH", value_parser = passes)]
    passes: Option<SheetPasses>,

    /// How large: normal (staves of 7 mm), or large (staves of 9 mm, and no text smaller than 14 points)
    #[arg(long, value_name = "SIZE", value_parser = size, default_value = "normal")]
    size: SheetSize,

    /// The most pages, 2 for both sides of one sheet of paper: lines stand nearer and staves are smaller,
    /// down to 6 mm
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..))]
    pages: Option<u16>,

    #[command(flatten)]
    carry: CarryOptions,

    /// A player's pencil to draw over it; what is printed stays as it is
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Leave marks out that do not fit, and draw the others
    #[arg(long, requires = "pencil")]
    keep_going: bool,

    #[command(flatten)]
    take: takes::OneTake,

    /// Folder to put the sheet in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,

    /// Replace files of these names that leadpipe did not write, or that were changed since
    #[arg(long)]
    force: bool,
}

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SheetFormat {
    /// All pages in one file, to print.
    Pdf,
    /// A drawing of each page.
    Svg,
    /// A picture of each page.
    Png,
}

pub(super) fn paper(text: &str) -> Result<Paper, Words> {
    match text.trim().to_lowercase().as_str() {
        "a4" => Ok(Paper::A4),
        "letter" => Ok(Paper::Letter),
        _ => Err(tell::papers_are()),
    }
}

fn fingerings(text: &str) -> Result<SheetFingerings, Words> {
    match text.trim() {
        "unusual" => Ok(SheetFingerings::Unusual),
        "all" => Ok(SheetFingerings::All),
        "none" => Ok(SheetFingerings::None),
        _ => Err(tell::fingerings_are_shown()),
    }
}

fn passes(text: &str) -> Result<SheetPasses, Words> {
    match text.trim() {
        "ends" => Ok(SheetPasses::Ends),
        "all" => Ok(SheetPasses::All),
        _ => Err(tell::passes_are()),
    }
}

fn size(text: &str) -> Result<SheetSize, Words> {
    match text.trim() {
        "normal" => Ok(SheetSize::Normal),
        "large" => Ok(SheetSize::Large),
        _ => Err(tell::sizes_are()),
    }
}

impl SheetCommand {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = self.source(console)?;
        let pencil = edition::find_pencil_option(self.pencil.as_ref())?;
        let Some(opened) = LoadedEdition::read(console, source, pencil, self.keep_going) else {
            return Ok(Exit::Errors);
        };
        let edition = &opened.edition;
        let score = edition.printed(&self.take.take(edition.teacher())?)?;
        for notice in &score.notices {
            console.say(takes::notice(notice));
        }
        let options = SheetOptions {
            paper: self.paper,
            fingerings: self.fingerings.unwrap_or(SheetFingerings::ByLevel),
            passes: self.passes.unwrap_or(SheetPasses::ByLevel),
            size: self.size,
        };
        let sheet = match self.pages {
            None => engrave_marked(&score, &options, edition.pencil()),
            Some(most) => engrave_within(&score, &options, edition.pencil(), most.into())
                .map_err(|TooLong { pages }| too_long(pages, self.size, options.passes))?,
        };
        look_at_letters(console, edition.teacher())?;
        let name = format!("{} sheet", opened.routine.stem(&edition.teacher().title));
        let mut files: Vec<(String, Vec<u8>)> = vec![];
        let mut done: Vec<SheetFormat> = vec![];
        for format in &self.format {
            if !done.contains(format) {
                done.push(*format);
                files.extend(drawn(&sheet, *format, &name)?);
            }
        }
        output::put_listed(console, &self.out, &files, Replace::forced(self.force))?;
        console.say(format!("{}.", count(sheet.pages.len(), "page", "pages")));
        Ok(opened.exit())
    }
}

impl SheetCommand {
    fn found(&self, console: &mut Console) -> Result<SourceText, Failure> {
        let source = SourceText::find(&self.routine)?
            .in_language(console.asked())
            .in_names(console.names());
        self.carry.source(console, source)
    }
}

#[cfg(feature = "exchange")]
impl SheetCommand {
    /// The routine's text; that of a file of music is made of it.
    fn source(&self, console: &mut Console) -> Result<SourceText, Failure> {
        let wanted = Wanted {
            part: self.part.as_deref(),
            instrument: self.carry.instrument.unwrap_or(&INSTRUMENTS[0]),
            concert: false,
            done: "be printed",
        };
        match music::source(console, &self.routine, &wanted)? {
            Some(source) => Ok(source
                .in_language(console.asked())
                .in_names(console.names())),
            None if self.part.is_some() => Err(Failure::usage(tell::part_is_of_music())),
            None => self.found(console),
        }
    }
}

#[cfg(not(feature = "exchange"))]
impl SheetCommand {
    fn source(&self, console: &mut Console) -> Result<SourceText, Failure> {
        self.found(console)
    }
}

/// Why a sheet does not fit its pages, and what would help.
fn too_long(pages: usize, size: SheetSize, passes: SheetPasses) -> Failure {
    let (staves, smaller) = match size {
        SheetSize::Normal => ("6 mm, the smallest that can be read from a stand", ""),
        SheetSize::Large => ("9 mm", "leave --size large out, "),
    };
    let fewer = match passes {
        SheetPasses::Ends => "",
        SheetPasses::ByLevel | SheetPasses::All => "write less out with --passes ends, ",
    };
    let needed = count(pages, "page", "pages");
    Failure::error(format!(
        "this routine needs {needed}, even with staves of {staves}"
    ))
    .hint(format!(
        "allow it {needed}, {smaller}{fewer}or print a routine with fewer lines"
    ))
}

/// Warns of letters that the sheet's font does not have.
///
/// # Errors
/// If there are letters among them that are written from right to left: the sheet would set them the wrong way round.
pub(super) fn look_at_letters(console: &mut Console, routine: &Routine) -> Result<(), Failure> {
    let lines = routine.lines.iter();
    let texts = lines.flat_map(|l| {
        let more = [&l.purpose, &l.say].into_iter().flatten();
        std::iter::once(&l.name).chain(more)
    });
    let mut missing: Vec<char> = vec![];
    for text in texts.chain([&routine.title]).chain(&routine.purpose) {
        // Its font may have them, and would still set them the wrong way round.
        if text.chars().any(runs_leftwards) {
            return Err(Failure::error(tell::runs_leftwards(text)).hint(tell::write_rightwards()));
        }
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
        console.warn(tell::font_lacks(&shown, more), Some(tell::font_has()));
    }
    Ok(())
}

/// True for letters of Hebrew, Arabic and the scripts beside them in Unicode, which run from right to left.
fn runs_leftwards(letter: char) -> bool {
    matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}' | '\u{10800}'..='\u{10fff}')
}

/// The files of a sheet in one format, with their names.
fn drawn(
    sheet: &Sheet,
    format: SheetFormat,
    name: &str,
) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let language = sheet.language.as_deref();
    match format {
        SheetFormat::Svg => Ok(pages(sheet, name, "svg")
            .map(|(name, page)| (name, svg::page_in(page, language).into_bytes()))
            .collect()),
        SheetFormat::Pdf => pdf(sheet, name),
        SheetFormat::Png => png(sheet, name),
    }
}

/// Each page with the name of its file, numbered if there are several.
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
