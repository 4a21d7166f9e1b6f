//! `leadpipe class`: a handout for every player of a class.
//!
//! `roster` reads and checks all players before anything is rendered; `closing` writes the table at the end.

mod closing;
mod folders;
mod library;
mod report;
mod room;
mod roster;
mod score;
mod together;

use super::console::Console;
use super::source::SourceText;
use super::{Exit, Failure, Outcome, formats, progress, render, rendered, sheet, show};
use crate::class::{self, Shard};
use crate::handout::folder::HandedOut;
use crate::handout::{owner, practice};
use crate::problem::{Problem, Text};
use crate::render::files::{self, Replace};
use crate::render::{
    self as rendering, Bits, End, FileKind, RenderFailure, RenderSettings, planned, threads,
};
use crate::sheet::Paper;
use crate::words::{Language, Words, tell};
use clap::Args;
use rayon::prelude::*;
use room::Room;
use roster::{ClassOptions, Entrants, LeftOut, Ready, Roster};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::atomic::AtomicBool;

/// Check and render the routines of a whole class, a handout for each player
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe class tuesday.toml
  leadpipe class tuesday.toml --out tuesday --keep-going
  leadpipe class tuesday.toml --format mp3,flac
  leadpipe class tuesday.toml --shard 2/5
  leadpipe class tuesday.toml --report tuesday.html

Each player gets a folder as leadpipe handout makes it, and practice.md with the same in words. Everybody
is checked first; if one routine is broken nothing is rendered. With --keep-going whoever is broken is left
out; the exit code is 1 even so, for somebody has no folder. A second run renders only what changed. Sound
that several players share is rendered and packed once. The closing table goes to standard output, all words
to standard error.")]
pub struct Class {
    /// The class list: its file
    list: OsString,

    /// Folder to put the players' folders in
    #[arg(long, value_name = "DIR", default_value = "class")]
    out: PathBuf,

    /// Leave out players whose routine or pencil is broken, and marks that do not fit
    #[arg(long)]
    keep_going: bool,

    /// Kinds of file: mp3, flac, wav; pages play the first [default: mp3, where this leadpipe can write it]
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = formats::kind)]
    format: Vec<FileKind>,

    /// Also write guide, drone and click each in a file of its own
    #[arg(long)]
    stems: bool,

    /// Frames a second: 44100 or 48000
    #[arg(long, value_name = "RATE", value_parser = render::rate, default_value = "44100")]
    rate: u32,

    /// Size of paper of the sheets: a4 or letter
    #[arg(long, value_name = "SIZE", value_parser = sheet::paper, default_value = "a4")]
    paper: Paper,

    /// Write the report as a page to print or to keep
    #[arg(long, value_name = "FILE")]
    report: Option<PathBuf>,

    /// Say also how many lines were rendered and files packed
    #[arg(long, short)]
    verbose: bool,

    /// Only this part of the class, for one of several machines: 2/5 is every fifth player from the second on
    #[arg(long, value_name = "N/M", value_parser = shard)]
    shard: Option<Shard>,

    /// Render everything, changed or not, and replace files that leadpipe did not write or that were changed since
    #[arg(long)]
    force: bool,

    /// Read the tracks that are there and render again what is damaged
    #[arg(long)]
    verify: bool,

    /// Threads to render with [default: one a core]
    #[arg(long, value_name = "N", value_parser = render::threads)]
    threads: Option<usize>,
}

fn shard(text: &str) -> Result<Shard, Words> {
    Shard::parse(text).ok_or_else(tell::part_of_class)
}

impl Class {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let source = find(&self.list)?;
        let read = class::read(&source.text);
        let faults = read.faults.iter().cloned();
        let problems: Vec<Problem> = faults.map(|f| f.in_text(Text::ClassList)).collect();
        show::problems(console, &source, &problems);
        let Some(list) = read.list else {
            return Ok(Exit::Errors);
        };
        let asked = ClassOptions {
            out: &self.out,
            rate: self.rate,
            keep_going: self.keep_going,
            threads: self.threads,
        };
        let entrants = Entrants::gather(console, &source, &list, &asked)?;
        let roster = Roster::check(console, &entrants, &asked);
        let broken =
            !(problems.is_empty() && roster.left_out.is_empty() && roster.unfit.is_empty());
        roster.report(console);
        if broken && !self.keep_going {
            console.complain(tell::nothing_rendered(), Some(tell::keep_going_others()));
            return Ok(Exit::Errors);
        }
        let stop = render::stop_on_ctrl_c();
        let title = list.title.as_deref().unwrap_or(&source.name);
        let everybody: Vec<&Ready<'_>> = roster.ready.iter().collect();
        let rooms = Room::all(console, &list, &everybody, &roster.folders, &asked)?;
        let exit = self.render(console, (title, &roster, &rooms), &asked, stop)?;
        if broken {
            closing::left_out(console, &roster, !problems.is_empty());
        }
        Ok(match exit {
            Exit::Done if broken => Exit::Errors,
            exit => exit,
        })
    }

    fn render(
        &self,
        console: &mut Console,
        (title, roster, rooms): (&str, &Roster<'_>, &[Room<'_, '_>]),
        asked: &ClassOptions<'_>,
        stop: &AtomicBool,
    ) -> Outcome {
        // All players were checked, so that every part of a class gets the same result; only the part is rendered.
        let part = |ready: &&Ready<'_>| self.shard.is_none_or(|shard| shard.holds(ready.index));
        let ready: Vec<&Ready<'_>> = roster.ready.iter().filter(part).collect();
        let begins = |room: &&Room<'_, '_>| ready.iter().any(|player| room.begins_with(player));
        let rooms: Vec<&Room<'_, '_>> = rooms.iter().filter(begins).collect();
        match prepare(&ready, &rooms) {
            Ok(cleared) => rendered::cleared(console, cleared),
            Err(failure) => {
                console.complain(failure.to_string(), failure.hint().map(Into::into));
                return Ok(Exit::Errors);
            }
        }
        let end = self.write(console.language(), (&ready, &rooms), asked, stop);
        let done = closing::by_player(&ready, &end);
        // One folder that cannot be written does not keep the others from getting their pages.
        let (kind, replace) = (self.kinds()[0], Replace::forced(self.force));
        let anew = self.force || self.verify;
        let failures: Vec<Failure> = threads::with(self.threads, || {
            let complete = ready.par_iter().zip(&done);
            let complete = complete.filter(|(player, done)| done.len() == player.plan.takes.len());
            complete
                .filter_map(|(player, _)| hand_out(player, kind, self.paper, (replace, anew)).err())
                .collect()
        });
        for failure in &failures {
            console.fail(failure);
        }
        let scores = rooms
            .iter()
            .map(|room| score::write(room, self.paper, replace));
        let scores: Vec<Failure> = scores.filter_map(Result::err).collect();
        for failure in &scores {
            console.fail(failure);
        }
        let without_page = !failures.is_empty() || !scores.is_empty();
        closing::tell(console, &ready, &done, &self.left_out(roster), self.verbose)?;
        if let Some(file) = &self.report {
            let page = report::page(
                console.language(),
                title,
                &ready,
                &done,
                &self.left_out(roster),
            );
            report::write(console, file, &page, replace)?;
        }
        for room in &rooms {
            console.say(room.summary());
        }
        let of_rooms = rooms.iter().filter_map(|room| room.folder.file_name());
        let of_rooms = of_rooms.map(|name| name.to_string_lossy().into_owned());
        let known: Vec<String> = roster.folders.iter().cloned().chain(of_rooms).collect();
        closing::earlier_runs(console, &ready, &known, &self.out)?;
        let exit = rendered::ended(console, end.failure.as_ref(), tell::stopped_class())?;
        Ok(match exit {
            Exit::Done if without_page => Exit::Errors,
            exit => exit,
        })
    }

    /// Renders all players' tracks and shows the progress.
    fn write(
        &self,
        language: Language,
        (ready, rooms): (&[&Ready<'_>], &[&Room<'_, '_>]),
        asked: &ClassOptions<'_>,
        stop: &AtomicBool,
    ) -> End {
        let mut parts = Vec::new();
        for player in ready {
            let tracks = planned::tracks(
                &player.plan,
                Some(&player.name),
                Some(&player.origin),
                &asked.compile(),
            );
            let with_sounds = tracks.into_iter().zip(&player.sounds);
            parts.extend(
                with_sounds.map(|(track, sound)| rendering::together::SharedTrack {
                    folder: &player.folder,
                    track,
                    sound,
                }),
            );
        }
        for room in rooms {
            let tracks = room.tracks(&asked.compile()).into_iter();
            parts.extend(
                tracks.map(|(track, sound)| rendering::together::SharedTrack {
                    folder: &room.folder,
                    track,
                    sound,
                }),
            );
        }
        let tracks = parts.iter().map(|part| &part.track);
        let bars = progress::Bars::new(language, tracks.map(|t| (t.name.clone(), t.frames)));
        let end = rendering::together::render(parts, &self.settings(), stop, &bars);
        bars.clear();
        end
    }

    /// The players of this part of the class who are left out.
    fn left_out<'r>(&self, roster: &'r Roster<'_>) -> Vec<&'r LeftOut> {
        let part = |left: &&LeftOut| self.shard.is_none_or(|shard| shard.holds(left.index));
        roster.left_out.iter().filter(part).collect()
    }

    fn settings(&self) -> RenderSettings {
        RenderSettings {
            kinds: self.kinds().into_iter().collect(),
            stems: self.stems,
            force: self.force,
            verify: self.verify,
            threads: self.threads,
            ..RenderSettings::new(self.rate, Bits::Sixteen)
        }
    }

    /// The kinds of file to write; pages play the first.
    fn kinds(&self) -> Vec<FileKind> {
        match &self.format[..] {
            [] => vec![formats::for_phones()],
            asked => asked.to_vec(),
        }
    }
}

/// Makes the folders of players and rooms, and returns how many files of killed runs were cleared away.
fn prepare(ready: &[&Ready<'_>], rooms: &[&Room<'_, '_>]) -> Result<usize, RenderFailure> {
    let mut cleared = 0;
    let folders = ready.iter().map(|player| (&player.folder, &player.name));
    let folders = folders.chain(rooms.iter().map(|room| (&room.folder, &room.name)));
    for (folder, name) in folders {
        cleared += files::prepare(folder)?;
        owner::record(folder, name)?;
    }
    Ok(cleared)
}

/// Writes page, list and text page into a player's folder once its tracks are rendered.
fn hand_out(
    player: &Ready<'_>,
    kind: FileKind,
    paper: Paper,
    (replace, anew): (Replace, bool),
) -> Result<(), Failure> {
    let opened = player.opened;
    let handed_out = HandedOut {
        folder: &player.folder,
        edition: &opened.edition,
        plan: &player.plan,
        text: &opened.routine.text,
        pencil_text: opened.pencil.as_ref().map(|source| source.text.as_str()),
        whose: Some(&player.name),
        kind,
        paper,
        practice: Some(practice::of(
            &player.name,
            &opened.edition,
            &player.plan,
            kind,
        )),
        replace,
        anew,
    };
    handed_out.lay_out()?;
    Ok(())
}

/// The file of a class list.
fn find(argument: &OsString) -> Result<SourceText, Failure> {
    let shown = argument.to_string_lossy();
    if Path::new(argument).is_dir() {
        return Err(Failure::usage(tell::folder_no_list(&shown)).hint(tell::name_the_list()));
    }
    if shown != "-" && !Path::new(argument).exists() {
        return Err(Failure::usage(tell::no_file_called(&shown)).hint(tell::list_is_yours()));
    }
    SourceText::find(argument)
}
