//! `leadpipe handout`: a folder for one pupil.

use super::console::Console;
use super::render::{Planned, Render, stop_on_ctrl_c};
use super::source::Source;
use super::text::count;
use super::{Exit, Failure, Outcome, formats, labels, takes};
use crate::handout::page::{self, PageFailure};
use crate::handout::{Page, Take as TakeOnPage};
use crate::music::Tuning;
use crate::render::list::{self, Entry};
use crate::render::record::Record;
use crate::render::take_name::Names;
use crate::render::{FileKind, RenderFailure};
use crate::routine::Guide;
use crate::score::{TakeTempo, unroll};
use crate::synth::Balance;
use clap::Args;
use std::ffi::OsString;
use std::path::PathBuf;

/// Make a folder for one pupil: tracks, and a page that plays them
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe handout first-steps --out anna
  leadpipe handout anna.toml --out anna --tempo 70%,85%,100%
  leadpipe handout anna.toml --out anna --guide together,off

The page is index.html in that folder: open it, or send it to phones with leadpipe share.")]
pub struct Handout {
    /// A routine's file, a built-in routine's name, or - for standard input
    routine: OsString,

    /// Folder to make
    #[arg(long, value_name = "DIR")]
    out: PathBuf,

    /// Clicks a minute (72) or parts of what is written (85%)
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::tempo,
        default_value = "100%", allow_hyphen_values = true)]
    tempo: Vec<TakeTempo>,

    /// Half steps to move lines of pitches by
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::key,
        default_value = "0", allow_hyphen_values = true)]
    key: Vec<i32>,

    /// What the guide tone does: together, echo, off
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::guide,
        default_value = "together")]
    guide: Vec<Guide>,

    /// The pupil's pencil to lay over the routine
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Leave marks out that do not fit, and apply the others
    #[arg(long, requires = "pencil")]
    keep_going: bool,

    /// Kind of file: mp3, flac or wav [default: mp3, where this leadpipe can write it]
    #[arg(long, value_name = "FORMAT", value_parser = formats::kind)]
    format: Option<FileKind>,
}

impl Handout {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let stop = stop_on_ctrl_c();
        let kind = self.format.unwrap_or_else(formats::for_phones);
        let source = Source::find(&self.routine)?;
        let mut render = Render::unsaid();
        render.routines = vec![self.routine];
        render.tempo = self.tempo;
        render.key = self.key;
        render.guide = self.guide;
        render.format = vec![kind];
        render.out = self.out;
        render.pencil = self.pencil;
        render.keep_going = self.keep_going;
        let pencil = render.pencil(std::slice::from_ref(&source))?;
        let planned = render.plan(
            console,
            &source,
            pencil.as_ref(),
            Tuning::ISO_16,
            &mut Names::default(),
        )?;
        let Some(mut planned) = planned else {
            console.complain("the routine was not rendered, and no page was made", None);
            return Ok(Exit::Errors);
        };
        // The order of practice.
        planned.takes.sort_by(|a, b| a.name.cmp(&b.name));
        let planned = [planned];
        let Some(end) = render.write(&planned, Balance::CALIBRATED, stop) else {
            return Ok(Exit::Done);
        };
        let exit = render.close(console, &end)?;
        if end.failure.is_some() {
            return Ok(exit);
        }
        let [planned] = &planned;
        lay_out(planned, kind, &render.out)?;
        let names: Vec<&str> = planned
            .takes
            .iter()
            .map(|take| take.name.as_str())
            .collect();
        let tracks = Record::tracks(&render.out);
        let others = tracks.iter().filter(|name| !names.contains(&name.as_str()));
        match others.count() {
            0 => {}
            n => console.say(&format!(
                "{} of earlier runs in this folder: not on the page.",
                count(n, "other track", "other tracks")
            )),
        }
        let page = render.out.join(page::NAME);
        console.say(&format!(
            "The page is {}: open it in a browser.",
            page.display()
        ));
        if cfg!(feature = "share") {
            console.say("leadpipe share --lan with this folder shows it to phones.");
        }
        Ok(match exit {
            Exit::Done if planned.unfit => Exit::Errors,
            exit => exit,
        })
    }
}

/// Puts the list and the page beside the tracks.
fn lay_out(planned: &Planned, kind: FileKind, folder: &std::path::Path) -> Result<(), Failure> {
    let failed = |failure: RenderFailure| {
        let said = Failure::error(failure.to_string());
        match failure.hint() {
            Some(hint) => said.hint(hint),
            None => said,
        }
    };
    let routine = &planned.routine;
    let mut entries = vec![];
    let mut on_page = vec![];
    for planned in &planned.takes {
        let (name, take) = (&planned.name, &planned.take);
        let mut entry = Entry::of(folder, name).expect("the track was rendered just now");
        // A folder may hold the same track in other kinds from an earlier run.
        entry.file = crate::render::Part::Mix.file_name(name, kind);
        on_page.push(TakeOnPage {
            title: labels::of(routine, None, take, 1, 1).take,
            file: entry.file.clone(),
            score: unroll(routine, take).expect("it was unrolled when it was planned"),
        });
        entries.push(entry);
    }
    list::write(folder, &entries).map_err(failed)?;
    let page = Page {
        routine,
        takes: on_page,
        list: list::NAME,
    };
    page.write(folder).map_err(|failure| match failure {
        PageFailure::Unwritten(failure) => failed(failure),
        PageFailure::NotOurs(path) => Failure::error(format!(
            "{} was not made by leadpipe, so it stays as it is",
            path.display()
        ))
        .hint("name a folder of its own with --out"),
    })
}
