//! `leadpipe handout`: a folder for one pupil.

use super::console::Console;
use super::laying_out::{self, HandedOut};
use super::render::{Render, stop_on_ctrl_c};
use super::source::Source;
use super::{Exit, Outcome, formats, sheet, takes};
use crate::handout::page;
use crate::music::Tuning;
use crate::render::FileKind;
use crate::render::take_name::{self, Names};
use crate::routine::Guide;
use crate::score::TakeTempo;
use crate::sheet::Paper;
use crate::synth::Balance;
use crate::words::count;
use clap::Args;
use std::ffi::OsString;
use std::path::PathBuf;

/// Make a folder for one pupil: tracks, the sheet to print, and a page that plays them
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe handout first-steps --out anna
  leadpipe handout anna.toml --out anna --tempo 70%,85%,100%
  leadpipe handout anna.toml --out anna --guide together,off --paper letter

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

    /// Size of paper of the sheet: a4 or letter
    #[arg(long, value_name = "SIZE", value_parser = sheet::paper, default_value = "a4")]
    paper: Paper,
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
        planned
            .takes
            .sort_by(|a, b| take_name::order(&a.name, &b.name));
        let planned = [planned];
        let Some(end) = render.write(&planned, Balance::CALIBRATED, stop) else {
            return Ok(Exit::Done);
        };
        let exit = render.close(console, &end)?;
        if end.failure.is_some() {
            return Ok(exit);
        }
        let [planned] = &planned;
        let handed_out = HandedOut {
            folder: &render.out,
            routine: &planned.routine,
            teacher: &planned.teacher,
            text: &source.text,
            pencil: planned.pencil.as_ref(),
            pencil_text: pencil.as_ref().map(|source| source.text.as_str()),
            whose: planned.whose.as_deref(),
            takes: planned
                .takes
                .iter()
                .map(|t| (t.name.as_str(), &t.take))
                .collect(),
            kind,
            paper: self.paper,
        };
        sheet::warn_of_letters(console, &planned.teacher);
        let sheets = handed_out.lay_out()?;
        match laying_out::others(&render.out, planned.takes.iter().map(|t| t.name.as_str())) {
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
        match &sheets[..] {
            [] => {
                console.say("This leadpipe was built without PDF, so there is no sheet to print.")
            }
            [one] => console.say(&format!("The sheet to print is {}.", one.display())),
            several => console.say(&format!(
                "Sheets to print, one for each key: {}.",
                several
                    .iter()
                    .map(|path| path.display().to_string())
                    .collect::<Vec<_>>()
                    .join(", ")
            )),
        }
        if cfg!(feature = "share") {
            console.say("leadpipe share --lan with this folder shows it to phones.");
        }
        Ok(match exit {
            Exit::Done if planned.unfit => Exit::Errors,
            exit => exit,
        })
    }
}
