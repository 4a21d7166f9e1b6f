//! `leadpipe render`: tracks to play along with.

use super::carried::CarryOptions;
use super::console::Console;
use super::edition::{self, LoadedEdition};
pub(super) use super::signals::stop_on_ctrl_c;
use super::source::SourceText;
use super::{Exit, Failure, Outcome, formats, rendered, takes};
use crate::edition::name::Names;
use crate::edition::{Plan, Wanted};
use crate::music::{Decimal, Temperament, Tuning};
use crate::presets;
use crate::render::batch::End;
use crate::render::files::Replace;
use crate::render::{Bits, FileKind, RenderSettings, Track, list};
use crate::routine::{Guide, Routine};
use crate::score::{Take, TakeKey, TakeTempo};
use crate::synth::Balance;
use crate::timeline::compile;
use crate::volume::{self, Volume};
use crate::words::{Language, Words, count, tell};
use clap::Args;
use std::ffi::OsString;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;

/// Render tracks to play along with
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe render
  leadpipe render anna.toml --tempo 100%,85%,70%
  leadpipe render anna.toml --key 0,-1,-2 --guide together,echo --out tracks
  leadpipe render first-steps --tempo 60 --stems
  leadpipe render anna.toml --format mp3

Every tempo is rendered in every key with every guide mode. A second run renders only what changed.
The list of tracks goes to standard output, all words to standard error.")]
pub struct Render {
    /// Routines: files, built-in routines' names, or - for standard input. With none, second-steps at
    /// three tempos
    #[arg(value_name = "ROUTINE")]
    routines: Vec<OsString>,

    /// Clicks a minute (72) or parts of what is written (85%) [default: 100%]
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::tempo,
        allow_hyphen_values = true)]
    tempo: Vec<TakeTempo>,

    /// Keys to move lines of pitches to: half steps (-2), or names ("B-flat major", Bb) where the
    /// routine says its own
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::key,
        default_value = "0", allow_hyphen_values = true)]
    key: Vec<TakeKey>,

    /// What the guide tone does: together (plays along), echo (plays first, then leaves the same time
    /// free), off (click and drone alone)
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::guide,
        default_value = "together")]
    guide: Vec<Guide>,

    /// Kinds of file: wav, flac, mp3
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = formats::kind,
        default_value = "wav")]
    format: Vec<FileKind>,

    /// Also write guide, drone and click each in a file of its own
    #[arg(long)]
    stems: bool,

    /// Say horn down and horn up in long rests: on or off
    #[arg(long, value_name = "ON|OFF", value_parser = on_or_off, default_value = "on",
        action = clap::ArgAction::Set)]
    signs: bool,

    /// How much softer a voice is: click=-6dB,drone=off; the voices are guide, drone and click
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = volume::parse)]
    volume: Vec<Volume>,

    /// Write stereo: the guide on the left, click and drone on the right
    #[arg(long)]
    spread: bool,

    /// What A4 is tuned to, in hertz
    #[arg(long, value_name = "HERTZ", value_parser = takes::a4, default_value = "440")]
    a4: Decimal,

    /// How notes lie to one another: equal, just (pure intervals over each line's tonic) or horn (each
    /// note where tube and partial put it)
    #[arg(long, value_name = "WORD", value_parser = takes::temperament, default_value = "equal")]
    temperament: Temperament,

    /// Frames a second: 44100 or 48000
    #[arg(long, value_name = "RATE", value_parser = rate, default_value = "44100")]
    rate: u32,

    /// Bits a sample: 16 or 24
    #[arg(long, value_name = "BITS", value_parser = bits, default_value = "16")]
    bits: Bits,

    #[command(flatten)]
    carry: CarryOptions,

    /// A player's pencil to lay over the routine
    #[arg(long, value_name = "FILE")]
    pencil: Option<OsString>,

    /// Leave marks out that do not fit, and apply the others
    #[arg(long, requires = "pencil")]
    keep_going: bool,

    /// Folder to put the tracks in
    #[arg(long, value_name = "DIR", default_value = "output")]
    out: PathBuf,

    /// Render everything, changed or not, and replace files that leadpipe did not write or that were changed since
    #[arg(long)]
    force: bool,

    /// Read the tracks that are there and render again what is damaged
    #[arg(long)]
    verify: bool,

    /// Threads to render with [default: one a core]
    #[arg(long, value_name = "N", value_parser = threads)]
    threads: Option<usize>,
}

/// More than any machine can use.
const MOST_THREADS: usize = 1024;

fn on_or_off(text: &str) -> Result<bool, Words> {
    match text {
        "on" => Ok(true),
        "off" => Ok(false),
        _ => Err(tell::signs_are()),
    }
}

/// Reads a sample rate.
pub(super) fn rate(text: &str) -> Result<u32, Words> {
    match text {
        "44100" => Ok(44_100),
        "48000" => Ok(48_000),
        _ => Err(tell::rates_are()),
    }
}

/// Reads the number of bits of a sample.
pub(super) fn bits(text: &str) -> Result<Bits, Words> {
    match text {
        "16" => Ok(Bits::Sixteen),
        "24" => Ok(Bits::TwentyFour),
        _ => Err(tell::widths_are()),
    }
}

pub(super) fn threads(text: &str) -> Result<usize, Words> {
    let threads = text.trim().parse().ok();
    threads
        .filter(|n| (1..=MOST_THREADS).contains(n))
        .ok_or_else(|| tell::threads_are(MOST_THREADS))
}

/// A routine that may be rendered, and its takes.
struct Planned<'o> {
    opened: &'o LoadedEdition,
    plan: Plan<'o>,
}

impl Render {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let balance = volume::balance(&self.volume)
            .map_err(|why| Failure::usage(why).hint(tell::name_each_voice()))?;
        let (opened, mut refused) = self.open(console)?;
        let stop = stop_on_ctrl_c();
        let mut names = Names::default();
        let mut planned = Vec::new();
        for opened in &opened {
            let takes = self.takes(opened.edition.teacher())?;
            match opened.plan(console, &takes)? {
                Some(mut plan) => {
                    rendered::name(console, opened, &mut plan, &self.out, &mut names)?;
                    planned.push(Planned { opened, plan });
                }
                None => refused += 1,
            }
        }
        let unfit = planned
            .iter()
            .any(|p| !p.opened.edition.left_out().is_empty());
        let exit = match self.write(console.language(), &planned, balance, stop) {
            Some(end) => rendered::close(console, &self.listed(end), self.rate)?,
            None => Exit::Done,
        };
        if refused > 0 {
            let refused = count(refused, "routine was", "routines were");
            console.complain(format!("{refused} not rendered"), None);
        }
        Ok(match exit {
            Exit::Done if refused > 0 || unfit => Exit::Errors,
            exit => exit,
        })
    }

    /// Reads the routines and the pencil, and returns how many routines are not understood.
    fn open(&self, console: &mut Console) -> Result<(Vec<LoadedEdition>, usize), Failure> {
        // All names first: a typing error in the last one should not be found after the first was rendered.
        let built_in = [OsString::from(presets::DEFAULT)];
        let named = if self.routines.is_empty() {
            &built_in[..]
        } else {
            &self.routines
        };
        let sources = named
            .iter()
            .map(|argument| {
                let source = SourceText::find(argument)?
                    .in_language(console.asked())
                    .in_names(console.names());
                self.carry.source(console, source)
            })
            .collect::<Result<Vec<_>, _>>()?;
        if self.pencil.is_some() && sources.len() > 1 {
            return Err(Failure::usage(tell::one_pencil()).hint(tell::own_pencil()));
        }
        let pencil = edition::find_pencil_option(self.pencil.as_ref())?;
        let all = sources.len();
        let opened: Vec<LoadedEdition> = sources
            .into_iter()
            .filter_map(|source| {
                LoadedEdition::read(console, source, pencil.clone(), self.keep_going)
            })
            .collect();
        let refused = all - opened.len();
        Ok((opened, refused))
    }

    /// Renders what was planned; `None` if nothing was.
    fn write(
        &self,
        language: Language,
        planned: &[Planned<'_>],
        balance: Balance,
        stop: &AtomicBool,
    ) -> Option<End> {
        let tracks: Vec<Track<'_>> = planned.iter().flat_map(|p| self.tracks(p)).collect();
        if tracks.is_empty() {
            return None;
        }
        let settings = RenderSettings {
            bits: self.bits,
            kinds: self.format.iter().copied().collect(),
            balance,
            spread: self.spread,
            stems: self.stems,
            force: self.force,
            verify: self.verify,
            threads: self.threads,
            ..RenderSettings::new(self.rate, self.bits)
        };
        Some(rendered::write(
            language, &tracks, &self.out, &settings, stop,
        ))
    }

    /// The requested takes of a routine in order; as written where no option is given.
    fn takes(&self, routine: &Routine) -> Result<Vec<Take>, Failure> {
        let percent = |n| TakeTempo::Percent(Decimal::from_integer(n));
        let tempos = match (&self.tempo[..], self.routines.is_empty()) {
            ([], true) => vec![percent(100), percent(85), percent(70)],
            ([], false) => vec![TakeTempo::AS_WRITTEN],
            (said, _) => said.to_vec(),
        };
        let wanted = Wanted {
            tempos,
            guides: self.guide.clone(),
            tuning: Tuning::new(self.a4, self.temperament)
                .expect("the value parser of --a4 keeps it within bounds"),
            ..Wanted::default()
        };
        takes::in_keys(wanted, &self.key, routine)
    }

    /// Writes the list of the folder's tracks once all of them are complete.
    fn listed(&self, mut end: End) -> End {
        if end.failure.is_none() {
            let written = list::of_folder(&self.out)
                .and_then(|entries| list::write(&self.out, &entries, Replace::forced(self.force)));
            end.failure = written.err();
        }
        end
    }

    fn tracks<'p>(&self, planned: &'p Planned<'_>) -> Vec<Track<'p>> {
        let settings = compile::Settings {
            sample_rate: self.rate,
            signs: self.signs,
        };
        // With `force` no lines are copied from other tracks.
        let teachers = (!self.force).then_some(self.out.as_path());
        rendered::tracks(
            planned.opened,
            &planned.plan,
            &settings,
            &self.out,
            teachers,
        )
    }
}
