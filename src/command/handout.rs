//! `leadpipe handout`: a folder for one pupil.

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::{self, LoadedEdition};
use super::render::stop_on_ctrl_c;
use super::source::SourceText;
use super::{Exit, Failure, Outcome, formats, rendered, sheet, takes};
use crate::edition::name::Names;
use crate::edition::{Plan, Wanted};
use crate::handout::folder::{self, HandedOut};
use crate::handout::page;
use crate::render::files::Replace;
use crate::render::{Bits, FileKind, RenderSettings};
use crate::routine::{Guide, Routine};
use crate::score::{Take, TakeKey, TakeTempo};
use crate::sheet::Paper;
use crate::timeline::compile;
use crate::words::{count, tell};
use clap::Args;
use std::ffi::OsString;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;

/// Sample rate of a handout's tracks.
const RATE: u32 = 44_100;

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

    /// Keys to move lines of pitches to: half steps (-2), or names ("B-flat major", Bb) where the
    /// routine says its own
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::key,
        default_value = "0", allow_hyphen_values = true)]
    key: Vec<TakeKey>,

    /// What the guide tone does: together, echo, off
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::guide,
        default_value = "together")]
    guide: Vec<Guide>,

    #[command(flatten)]
    carry: CarryOptions,

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

    /// Render every track anew, and replace files that leadpipe did not write or that were changed since
    #[arg(long)]
    force: bool,
}

impl Handout {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = SourceText::find(&self.routine)?
            .in_language(console.asked())
            .in_names(console.names());
        let source = self.carry.source(console, source)?;
        let pencil = edition::find_pencil_option(self.pencil.as_ref())?;
        let opened = LoadedEdition::read(console, source, pencil, self.keep_going);
        let plan = match &opened {
            Some(opened) => opened.plan(console, &self.takes(opened.edition.teacher())?)?,
            None => None,
        };
        let (Some(opened), Some(mut plan)) = (&opened, plan) else {
            console.complain(tell::no_page_made(), None);
            return Ok(Exit::Errors);
        };
        let mut names = Names::default();
        rendered::name(console, opened, &mut plan, &self.out, &mut names)?;
        let plan = plan.in_order_of_practice();
        let stop = stop_on_ctrl_c();
        let (exit, complete) = self.render(console, opened, &plan, stop)?;
        if !complete {
            return Ok(exit);
        }
        self.lay_out(console, opened, &plan)?;
        Ok(match exit {
            Exit::Done if !opened.edition.left_out().is_empty() => Exit::Errors,
            exit => exit,
        })
    }

    fn takes(&self, routine: &Routine) -> Result<Vec<Take>, Failure> {
        let wanted = Wanted {
            tempos: self.tempo.clone(),
            guides: self.guide.clone(),
            ..Wanted::default()
        };
        takes::in_keys(wanted, &self.key, routine)
    }

    /// The kind of file that the page plays.
    fn kind(&self) -> FileKind {
        self.format.unwrap_or_else(formats::for_phones)
    }

    /// Renders the tracks, and returns whether all of them are complete.
    fn render(
        &self,
        console: &mut Console,
        opened: &LoadedEdition,
        plan: &Plan<'_>,
        stop: &AtomicBool,
    ) -> Result<(Exit, bool), Failure> {
        let settings = RenderSettings {
            kinds: [self.kind()].into_iter().collect(),
            force: self.force,
            ..RenderSettings::new(RATE, Bits::Sixteen)
        };
        let compiled = compile::Settings {
            sample_rate: RATE,
            signs: true,
        };
        let tracks = rendered::tracks(opened, plan, &compiled, &self.out, Some(&self.out));
        let end = rendered::write(console.language(), &tracks, &self.out, &settings, stop);
        let exit = rendered::close(console, &end, RATE)?;
        Ok((exit, end.failure.is_none()))
    }

    /// Writes list, sheets and page, and says where they are.
    fn lay_out(
        &self,
        console: &mut Console,
        opened: &LoadedEdition,
        plan: &Plan<'_>,
    ) -> Result<(), Failure> {
        let whose = opened.whose();
        let handed_out = HandedOut {
            folder: &self.out,
            edition: &opened.edition,
            plan,
            text: &opened.routine.text,
            pencil_text: opened.pencil.as_ref().map(|source| source.text.as_str()),
            whose: whose.as_deref(),
            kind: self.kind(),
            paper: self.paper,
            practice: None,
            replace: Replace::forced(self.force),
            anew: self.force,
        };
        sheet::look_at_letters(console, opened.edition.teacher())?;
        let sheets = handed_out.lay_out()?;
        let names = plan.takes.iter().map(|take| take.name.as_str());
        match folder::others(&self.out, names)? {
            0 => {}
            n => console.say(tell::others_not_on_page(count(
                n,
                "other track",
                "other tracks",
            ))),
        }
        let page = self.out.join(page::NAME);
        console.say(tell::page_is(page.display().to_string()));
        tell_of_sheets(console, &sheets);
        if cfg!(feature = "share") {
            console.say(tell::share_shows_it());
        }
        Ok(())
    }
}

fn tell_of_sheets(console: &mut Console, sheets: &[PathBuf]) {
    match sheets {
        [] => console.say(tell::built_without_pdf()),
        [one] => console.say(tell::sheet_is(one.display().to_string())),
        several => {
            let names: Vec<String> = several.iter().map(|p| p.display().to_string()).collect();
            console.say(tell::sheets_are(names.join(", ")));
        }
    }
}
