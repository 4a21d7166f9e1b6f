//! `leadpipe chart`: the routine's shape, pitch against time.

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::read_routine;
use super::source::SourceText;
use super::{Exit, Outcome, takes};
use crate::edition::unrolled;
use crate::render::files::{self, Replace};
use crate::routine::Guide;
use crate::score::Take;
use crate::sheet::{Page, shape, svg};
use clap::Args;
use std::ffi::OsString;
use std::path::PathBuf;

/// Width and height of the drawing, in points.
const SIZE: (f64, f64) = (760.0, 230.0);

/// Draw a routine's shape: pitch against time, rests, breaths, playing and rest of every line
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe chart second-steps
  leadpipe chart anna.toml --tempo 80% --out anna

The drawing is an SVG; its name goes to standard output.")]
pub struct Chart {
    /// A routine's file, a built-in routine's name, or - for standard input
    routine: OsString,

    #[command(flatten)]
    carry: CarryOptions,

    #[command(flatten)]
    take: takes::OneTake,

    /// Guide mode: together, echo or off
    #[arg(long, value_name = "MODE", value_parser = takes::guide, default_value = "together")]
    guide: Guide,

    /// Folder to put the drawing in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,

    /// Replace a file of this name that leadpipe did not write, or that was changed since
    #[arg(long)]
    force: bool,
}

impl Chart {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = SourceText::find(&self.routine)?
            .in_language(console.asked())
            .in_names(console.names());
        let source = self.carry.source(console, source)?;
        let Some(routine) = read_routine(console, &source) else {
            return Ok(Exit::Errors);
        };
        let take = Take {
            guide: self.guide,
            ..self.take.take(&routine)?
        };
        let score = unrolled(&routine, &take)?;
        for notice in &score.notices {
            console.say(takes::notice(notice));
        }
        let page = outlined(shape::page(&score, SIZE.0, SIZE.1));
        let drawing = svg::page_in(&page, routine.language.as_deref());
        let name = format!("{} chart.svg", source.stem(&routine.title));
        files::prepare(&self.out)?;
        let replace = Replace::forced(self.force);
        files::put(&self.out, &name, drawing.as_bytes(), replace)?;
        let path = self.out.join(&name);
        console.data(&format!("{}\n", path.display()))?;
        Ok(Exit::Done)
    }
}

/// The drawing with its letters as outlines, so that it looks the same everywhere.
#[cfg(feature = "png")]
fn outlined(page: Page) -> Page {
    crate::print::outlined::Outliner::default().page(&page)
}

/// The drawing as it is: this leadpipe was built without outlines of letters.
#[cfg(not(feature = "png"))]
fn outlined(page: Page) -> Page {
    page
}
