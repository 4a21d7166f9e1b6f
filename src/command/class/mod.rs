//! `leadpipe class`: a folder of tracks, and a page, for every player of a class.
//!
//! [`roster`] reads and checks everybody before anything is rendered, [`share`] finds out which sound several players
//! have in common, [`page`] writes what a player is told, [`closing`] the table at the end.

mod closing;
mod page;
mod roster;
mod share;

use super::console::Console;
use super::source::Source;
use super::text::count;
use super::{Exit, Failure, Outcome, progress, render, show};
use crate::class::{self, Shard};
use crate::render::batch::{self, End, LazyEngine, Placed, Settings};
use crate::render::{Bits, Finished, RenderFailure, Track, whole_file};
use crate::score::unroll;
use crate::timeline::compile::{self, compile};
use clap::Args;
use roster::{Ready, Roster};
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Frames a second of a class's tracks: what every phone plays.
const RATE: u32 = 44_100;

/// Check and render the routines of a whole class, a folder for each player
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe class tuesday.toml
  leadpipe class tuesday.toml --out tuesday --keep-going
  leadpipe class tuesday.toml --shard 2/5

Everybody is checked first; if one routine is broken nothing is rendered. A second run renders only what
changed. Sound that several players share is rendered once. The closing table goes to standard output, all
words to standard error.")]
pub struct Class {
    /// The class list: its file
    list: OsString,

    /// Folder to put the players' folders in
    #[arg(long, value_name = "DIR", default_value = "class")]
    out: PathBuf,

    /// Leave out players whose routine or pencil is broken, and marks that do not fit
    #[arg(long)]
    keep_going: bool,

    /// Only this part of the class, for one of several machines: 2/5 is every fifth player from the second on
    #[arg(long, value_name = "N/M", value_parser = shard)]
    shard: Option<Shard>,

    /// Render everything, changed or not
    #[arg(long)]
    force: bool,

    /// Read the tracks that are there and render again what is damaged
    #[arg(long)]
    verify: bool,

    /// Threads to render with [default: one a core]
    #[arg(long, value_name = "N", value_parser = render::threads)]
    threads: Option<usize>,
}

fn shard(text: &str) -> Result<Shard, String> {
    Shard::parse(text)
        .ok_or_else(|| "a part of a class is written 2/5: the second of five".to_owned())
}

impl Class {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let stop = render::stop_on_ctrl_c();
        let source = find(&self.list)?;
        let read = class::read(&source.text);
        show::faults(console, &source, &read.faults);
        let Some(list) = read.list else {
            return Ok(Exit::Errors);
        };
        let mut broken = !read.faults.is_empty();
        let asked = roster::Asked {
            out: &self.out,
            keep_going: self.keep_going,
            threads: self.threads,
        };
        let roster = Roster::gather(console, &source, &list, &asked);
        broken |= roster.broken > 0;
        roster.report(console);
        if broken && !self.keep_going {
            console.complain(
                "nothing was rendered, because not everything in this class is as it should be",
                Some("--keep-going renders the others"),
            );
            return Ok(Exit::Errors);
        }
        // Everybody is checked, so that all parts of a class come to the same judgement; the part is rendered.
        let ready: Vec<Ready> = roster
            .ready
            .into_iter()
            .filter(|ready| self.shard.is_none_or(|shard| shard.holds(ready.index)))
            .collect();
        let exit = self.render(console, &ready, stop)?;
        Ok(match exit {
            Exit::Done if broken => Exit::Errors,
            exit => exit,
        })
    }

    fn render(&self, console: &mut Console, ready: &[Ready], stop: &AtomicBool) -> Outcome {
        let mut cleared = 0;
        for player in ready {
            match batch::prepare(&player.folder) {
                Ok(files) => cleared += files,
                Err(failure) => {
                    console.complain(&failure.to_string(), failure.hint());
                    return Ok(Exit::Errors);
                }
            }
        }
        if cleared > 0 {
            let cleared = count(cleared, "unfinished file", "unfinished files");
            console.say(&format!("Cleared away {cleared} of an earlier run."));
        }
        let end = self.sound(ready, stop);
        for player in ready {
            let done = |f: &&Finished| {
                f.files
                    .iter()
                    .any(|(path, _)| path.starts_with(&player.folder))
            };
            if end.finished.iter().filter(done).count() == player.takes.len() {
                finish(player)?;
            }
        }
        closing::tell(console, ready, &end)?;
        match &end.failure {
            None => Ok(Exit::Done),
            Some(RenderFailure::Stopped) => {
                console.say("Stopped; unfinished tracks were taken away, finished ones stay.");
                Ok(Exit::Stopped)
            }
            Some(failure) => {
                console.complain(&failure.to_string(), failure.hint());
                Ok(Exit::Errors)
            }
        }
    }

    /// Renders every track, in waves: what several tracks need is rendered with the first of them, and copied into
    /// the others when that is done.
    fn sound(&self, ready: &[Ready], stop: &AtomicBool) -> End {
        let takes: Vec<(&Ready, usize)> = ready
            .iter()
            .flat_map(|player| (0..player.takes.len()).map(move |take| (player, take)))
            .collect();
        let units = takes
            .iter()
            .map(|(player, take)| &player.takes[*take].print.units[..]);
        let plan = share::Plan::new(&units.collect::<Vec<_>>());
        let place = |number: usize| {
            let (player, take) = takes[number];
            (player.folder.clone(), player.takes[take].name.clone())
        };
        let tracks: Vec<Track<'_>> = takes
            .iter()
            .zip(&plan.like)
            .map(|((player, take), like)| {
                let planned = &player.takes[*take];
                let (version, take) = (Arc::clone(&player.version), planned.take);
                Track {
                    name: planned.name.clone(),
                    frames: planned.frames,
                    like: like.iter().map(|number| place(*number)).collect(),
                    print: Some(Arc::clone(&planned.print)),
                    timeline: Box::new(move || {
                        let score = unroll(&version.routine, &take)
                            .expect("the same take was unrolled when it was checked");
                        compile(&score, &settings())
                    }),
                }
            })
            .collect();
        let bars = progress::Bars::new(tracks.iter().map(|t| (t.name.clone(), t.frames)));
        let mut all = End {
            finished: Vec::new(),
            cleared: 0,
            failure: None,
        };
        let engine = LazyEngine::new(RATE);
        for wave in &plan.waves {
            let placed: Vec<Placed<'_, '_>> = wave
                .iter()
                .map(|number| Placed {
                    number: *number,
                    folder: &takes[*number].0.folder,
                    track: &tracks[*number],
                })
                .collect();
            let end = batch::render_placed(&placed, &self.settings(), &engine, stop, &bars);
            all.finished.extend(end.finished);
            all.failure = end.failure;
            if all.failure.is_some() {
                break;
            }
        }
        bars.clear();
        all.finished.sort_by_key(|f| f.track);
        all
    }

    fn settings(&self) -> Settings {
        Settings {
            force: self.force,
            verify: self.verify,
            threads: self.threads,
            ..Settings::new(RATE, Bits::Sixteen)
        }
    }
}

/// How a class's takes are compiled.
fn settings() -> compile::Settings {
    compile::Settings {
        sample_rate: RATE,
        signs: true,
    }
}

/// What a player's folder gets when its tracks are there.
fn finish(player: &Ready) -> Result<(), Failure> {
    let path = player.folder.join(page::NAME);
    let text = page::of(player);
    // A page that says the same keeps its time, so that copying folders to phones moves only what changed.
    if fs::read(&path).is_ok_and(|there| there == text.as_bytes()) {
        return Ok(());
    }
    whole_file::write(&path, text.as_bytes()).map_err(|error| {
        let failure = RenderFailure::at(&path)(error);
        Failure::error(failure.to_string())
            .hint(failure.hint().unwrap_or("name another folder with --out"))
    })
}

/// The file of a class list.
fn find(argument: &OsString) -> Result<Source, Failure> {
    let shown = argument.to_string_lossy();
    if Path::new(argument).is_dir() {
        return Err(
            Failure::usage(format!("{shown} is a folder, not a class list"))
                .hint("name the list's file in it"),
        );
    }
    if shown != "-" && !Path::new(argument).exists() {
        return Err(Failure::usage(format!("there is no file called {shown}"))
            .hint("a class list is a text file of yours; README.md shows one"));
    }
    Source::find(argument)
}
