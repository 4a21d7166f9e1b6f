//! `leadpipe render`: tracks to play along with.

use super::console::Console;
use super::source::Source;
use super::table::Table;
use super::{
    Exit, Failure, Outcome, findings, formats, labels, pencilled, presets, progress, show, takes,
};
use crate::check::{self, Finding, Options, Severity};
use crate::music::{Decimal, Temperament, Tuning};
use crate::pencil::Pencil;
use crate::render::batch::{self, End};
use crate::render::take_name::{self, Names};
use crate::render::{Bits, FileKind, Finished, Made, RenderFailure, Settings, Track, list};
use crate::routine::{Guide, Routine};
use crate::score::{Take, TakeFault, TakeTempo, unroll};
use crate::synth::Balance;
use crate::synth::volume::{self, Volume};
use crate::timeline::Timeline;
use crate::timeline::compile::{self, compile};
use crate::words::{count, duration, size};
use clap::{Args, FromArgMatches};
use num_traits::ToPrimitive;
use std::collections::{HashMap, HashSet};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

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
    pub(super) routines: Vec<OsString>,

    /// Clicks a minute (72) or parts of what is written (85%) [default: 100%]
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::tempo,
        allow_hyphen_values = true)]
    pub(super) tempo: Vec<TakeTempo>,

    /// Half steps to move lines of pitches by
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::key,
        default_value = "0", allow_hyphen_values = true)]
    pub(super) key: Vec<i32>,

    /// What the guide tone does: together (plays along), echo (plays first, then leaves the same time
    /// free), off (click and drone alone)
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = takes::guide,
        default_value = "together")]
    pub(super) guide: Vec<Guide>,

    /// Kinds of file: wav, flac, mp3
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = formats::kind,
        default_value = "wav")]
    pub(super) format: Vec<FileKind>,

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

    /// A player's pencil to lay over the routine
    #[arg(long, value_name = "FILE")]
    pub(super) pencil: Option<OsString>,

    /// Leave marks out that do not fit, and apply the others
    #[arg(long, requires = "pencil")]
    pub(super) keep_going: bool,

    /// Folder to put the tracks in
    #[arg(long, value_name = "DIR", default_value = "output")]
    pub(super) out: PathBuf,

    /// Render everything, changed or not
    #[arg(long)]
    force: bool,

    /// Read the tracks that are there and render again what is damaged
    #[arg(long)]
    verify: bool,

    /// Threads to render with [default: one a core]
    #[arg(long, value_name = "N", value_parser = threads)]
    threads: Option<usize>,
}

/// More than any machine has use for.
const MOST_THREADS: usize = 1024;

fn on_or_off(text: &str) -> Result<bool, String> {
    match text {
        "on" => Ok(true),
        "off" => Ok(false),
        _ => Err("signs are on or off".to_owned()),
    }
}

/// Reads a sample rate.
pub(super) fn rate(text: &str) -> Result<u32, String> {
    match text {
        "44100" => Ok(44_100),
        "48000" => Ok(48_000),
        _ => Err("the rate is 44100 or 48000".to_owned()),
    }
}

/// Reads the width of a frame.
pub(super) fn bits(text: &str) -> Result<Bits, String> {
    match text {
        "16" => Ok(Bits::Sixteen),
        "24" => Ok(Bits::TwentyFour),
        _ => Err("the width is 16 or 24".to_owned()),
    }
}

pub(super) fn threads(text: &str) -> Result<usize, String> {
    let threads = text.trim().parse().ok();
    threads
        .filter(|n| (1..=MOST_THREADS).contains(n))
        .ok_or_else(|| format!("threads are a whole number from 1 to {MOST_THREADS}"))
}

/// A routine that may be rendered, and its takes.
pub(super) struct Planned {
    /// What is played.
    pub routine: Arc<Routine>,
    /// What the teacher wrote.
    pub teacher: Arc<Routine>,
    /// The marks laid over that.
    pub pencil: Option<Pencil>,
    /// The takes in the order they were asked for.
    pub takes: Vec<PlannedTake>,
    /// Whose pencil is laid over it.
    pub whose: Option<String>,
    /// True if its pencil holds marks that do not fit.
    pub unfit: bool,
}

/// A take that can be rendered.
pub(super) struct PlannedTake {
    /// The track's name.
    pub name: String,
    /// The take.
    pub take: Take,
    /// Its length.
    frames: u64,
    /// The name of a track that may hold some of its lines.
    like: Option<String>,
}

impl Render {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let stop = stop_on_ctrl_c();
        let balance = volume::balance(&self.volume)
            .map_err(|why| Failure::usage(why).hint("name each voice once: --volume click=-6dB"))?;
        let tuning = Tuning::new(self.a4, self.temperament)
            .expect("the value parser of --a4 keeps it within bounds");
        // Every name first: a slip in the last one should not be found after the first was rendered.
        let unsaid = [OsString::from(presets::UNSAID)];
        let named = if self.routines.is_empty() {
            &unsaid[..]
        } else {
            &self.routines
        };
        let sources = named
            .iter()
            .map(|argument| Source::find(argument))
            .collect::<Result<Vec<_>, _>>()?;

        let pencil = self.pencil(&sources)?;
        let mut refused = 0;
        let mut unfit = false;
        let mut names = Names::default();
        let mut planned = Vec::new();
        for source in &sources {
            match self.plan(console, source, pencil.as_ref(), tuning, &mut names)? {
                Some(plan) => {
                    unfit |= plan.unfit;
                    planned.push(plan);
                }
                None => refused += 1,
            }
        }
        let end = self.write(&planned, balance, stop);
        let end = end.map(|end| listed(end, &self.out));
        let exit = match &end {
            Some(end) => self.close(console, end)?,
            None => Exit::Done,
        };
        if refused > 0 {
            let refused = count(refused, "routine was", "routines were");
            console.complain(&format!("{refused} not rendered"), None);
        }
        Ok(match exit {
            Exit::Done if refused > 0 || unfit => Exit::Errors,
            exit => exit,
        })
    }

    /// The file of the pencil, where one is named.
    pub(super) fn pencil(&self, sources: &[Source]) -> Result<Option<Source>, Failure> {
        let Some(argument) = &self.pencil else {
            return Ok(None);
        };
        if sources.len() > 1 {
            return Err(
                Failure::usage("a pencil is laid over one routine at a time")
                    .hint("render each routine with its own pencil"),
            );
        }
        pencilled::find(argument).map(Some)
    }

    /// As it is where nothing is said.
    pub(super) fn unsaid() -> Self {
        let nothing = Self::augment_args(clap::Command::new("render"))
            .try_get_matches_from(["render"])
            .and_then(|said| Self::from_arg_matches(&said));
        nothing.expect("every option of render can be left out")
    }

    /// Renders what was planned; none if that is nothing.
    pub(super) fn write(
        &self,
        planned: &[Planned],
        balance: Balance,
        stop: &AtomicBool,
    ) -> Option<End> {
        let tracks = self.tracks(planned);
        if tracks.is_empty() {
            return None;
        }
        let bars = progress::Bars::new(tracks.iter().map(|t| (t.name.clone(), t.frames)));
        let end = batch::render(&tracks, &self.out, &self.settings(balance), stop, &bars);
        bars.clear();
        Some(end)
    }

    fn settings(&self, balance: Balance) -> Settings {
        Settings {
            sample_rate: self.rate,
            bits: self.bits,
            kinds: self.format.iter().copied().collect(),
            balance,
            spread: self.spread,
            stems: self.stems,
            force: self.force,
            verify: self.verify,
            threads: self.threads,
        }
    }

    /// The takes asked for, in order, as written where nothing is said.
    fn takes(&self, tuning: Tuning) -> Vec<Take> {
        let percent = |n| TakeTempo::Percent(Decimal::from_integer(n));
        let tempos = match (&self.tempo[..], self.routines.is_empty()) {
            ([], true) => vec![percent(100), percent(85), percent(70)],
            ([], false) => vec![TakeTempo::AS_WRITTEN],
            (said, _) => said.to_vec(),
        };
        let mut takes = Vec::new();
        for tempo in tempos {
            for key in &self.key {
                for guide in &self.guide {
                    takes.push(Take {
                        tempo,
                        key: *key,
                        guide: *guide,
                        tuning,
                    });
                }
            }
        }
        takes
    }

    /// Reads and checks a routine and lays out its takes; none where it is refused.
    pub(super) fn plan(
        &self,
        console: &mut Console,
        source: &Source,
        pencil: Option<&Source>,
        tuning: Tuning,
        names: &mut Names,
    ) -> Result<Option<Planned>, Failure> {
        let teacher = match source.read() {
            Ok(routine) => Arc::new(routine),
            Err(faults) => {
                show::faults(console, source, &faults);
                return Ok(None);
            }
        };
        let mut routine = Arc::clone(&teacher);
        let plain = take_name::slug(&routine.title);
        let (mut slug, mut unfit, mut named) = (plain.clone(), false, source.clone());
        let (mut whose, mut marks) = (None, None);
        if let Some(pencil) = pencil {
            let pencil = pencil.clone();
            let Some(found) = pencilled::lay(console, pencil, &teacher, self.keep_going) else {
                return Ok(None);
            };
            slug = format!("{plain} {}", take_name::slug(&found.whose));
            whose = Some(found.whose);
            unfit = !found.sound;
            named.argument += &format!(" --pencil {}", found.source.argument);
            routine = Arc::new(found.laid.routine);
            marks = Some(found.pencil);
        }
        let source = &named;
        let how = match pencil {
            Some(_) => "with this pencil",
            None => "as it is written",
        };
        let Some(as_written) = AsWritten::check(console, source, &routine, how) else {
            return Ok(None);
        };
        let slug = names.give(&slug);
        let mut planned = Vec::new();
        let mut known = as_written.findings;
        let mut notices = HashSet::new();
        let mut seen = HashSet::new();
        let mut fit = true;
        for take in self.takes(tuning) {
            let refuse = |fault: TakeFault| takes::refusal(&fault, &take, &routine);
            let score = unroll(&routine, &take).map_err(refuse)?;
            let tempo = take
                .tempo
                .base(&routine)
                .expect("a score exists only at a tempo within bounds");
            // The same tempo may be named as a part and in clicks.
            if !seen.insert((tempo, take.key, take.guide)) {
                continue;
            }
            let report = check::check(&score, &Options::default());
            let known = known
                .entry(take.guide)
                .or_insert_with(|| AsWritten::findings(&routine, take.guide));
            let at = takes::in_words(&take, &routine);
            let added = findings::added(known, &report.findings);
            for finding in &added {
                show::finding(console, source, finding, Some(&at));
                fit &= finding.severity != Severity::Error;
            }
            let added: Vec<Finding> = added.into_iter().cloned().collect();
            known.extend(added);
            for notice in &score.notices {
                let said = takes::notice(notice);
                if notices.insert(said.clone()) {
                    console.say(&said);
                }
            }
            let frames = score.seconds.to_f64().unwrap_or(0.0) * f64::from(self.rate);
            let name = names.give(&take_name::of(&slug, tempo, &take));
            // Of the line nobody has marked there may be sound in the teacher's own track.
            let like = pencil.map(|_| take_name::of(&plain, tempo, &take));
            planned.push(PlannedTake {
                name,
                take,
                frames: frames as u64,
                like,
            });
        }
        Ok(fit.then_some(Planned {
            routine,
            teacher,
            pencil: marks,
            takes: planned,
            whose,
            unfit,
        }))
    }

    fn tracks(&self, planned: &[Planned]) -> Vec<Track<'static>> {
        let (rate, signs) = (self.rate, self.signs);
        let mut tracks = Vec::new();
        for plan in planned {
            let numbers = labels::numbers(plan.takes.iter().map(|take| take.name.as_str()));
            for (planned, number) in plan.takes.iter().zip(numbers) {
                let (routine, take) = (Arc::clone(&plan.routine), planned.take);
                let whose = plan.whose.as_deref();
                tracks.push(Track {
                    name: planned.name.clone(),
                    labels: labels::of(&routine, whose, &take, number, plan.takes.len()),
                    frames: planned.frames,
                    like: match &planned.like {
                        // Everything is rendered, whoever has it.
                        Some(name) if !self.force => vec![(self.out.clone(), name.clone())],
                        _ => vec![],
                    },
                    twin: None,
                    print: None,
                    timeline: Box::new(move || timeline(&routine, &take, rate, signs)),
                });
            }
        }
        tracks
    }

    /// The list of tracks, and what was done.
    pub(super) fn close(&self, console: &mut Console, end: &End) -> Outcome {
        if end.cleared > 0 {
            let cleared = count(end.cleared, "unfinished file", "unfinished files");
            console.say(&format!("Cleared away {cleared} of an earlier run."));
        }
        if !end.finished.is_empty() {
            console.data(&listing(&end.finished, self.rate))?;
            console.say(&done(&end.finished));
        }
        match &end.failure {
            None => Ok(Exit::Done),
            Some(RenderFailure::Stopped) => {
                console.say("Stopped; unfinished tracks were taken away.");
                Ok(Exit::Stopped)
            }
            Some(failure) => {
                console.complain(&failure.to_string(), failure.hint());
                Ok(Exit::Errors)
            }
        }
    }
}

/// What there is to say of a routine before any take changes it.
struct AsWritten {
    findings: HashMap<Guide, Vec<Finding>>,
}

impl AsWritten {
    /// Checks a routine as written; none if it cannot be rendered, which is said.
    fn check(console: &mut Console, source: &Source, routine: &Routine, how: &str) -> Option<Self> {
        let take = Take::default();
        let score = match unroll(routine, &take) {
            Ok(score) => score,
            Err(fault) => {
                console.fail(&takes::refusal(&fault, &take, routine));
                return None;
            }
        };
        let report = check::check(&score, &Options::default());
        if report.has_errors() {
            let errors = report.findings.iter();
            for finding in errors.filter(|f| f.severity == Severity::Error) {
                show::finding(console, source, finding, None);
            }
            return None;
        }
        let warnings = report.count(Severity::Warning);
        if warnings > 0 {
            let warnings = count(warnings, "warning", "warnings");
            console.warn(
                &format!("{} has {warnings} {how}", source.name),
                Some(&format!("leadpipe check {} shows them", source.argument)),
            );
        }
        Some(Self {
            findings: HashMap::from([(take.guide, report.findings)]),
        })
    }

    /// The findings of the routine as written in a guide mode; none where that cannot be.
    fn findings(routine: &Routine, guide: Guide) -> Vec<Finding> {
        let take = Take {
            guide,
            ..Take::default()
        };
        unroll(routine, &take)
            .map(|score| check::check(&score, &Options::default()).findings)
            .unwrap_or_default()
    }
}

fn timeline(routine: &Routine, take: &Take, sample_rate: u32, signs: bool) -> Timeline {
    let score = unroll(routine, take).expect("the same take was unrolled when it was planned");
    compile(&score, &compile::Settings { sample_rate, signs })
}

/// Becomes true at Ctrl-C. A second Ctrl-C does not wait.
pub(super) fn stop_on_ctrl_c() -> &'static AtomicBool {
    static STOP: AtomicBool = AtomicBool::new(false);
    // Where no handler can be set the system's own ends the run, and the next one clears up.
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Ordering::Relaxed) {
            std::process::exit(Exit::Stopped.code().into());
        }
    });
    &STOP
}

/// Writes the list of the folder's tracks once all of them are there.
fn listed(mut end: End, folder: &Path) -> End {
    if end.failure.is_none() {
        end.failure = list::write(folder, &list::of_folder(folder)).err();
    }
    end
}

fn listing(finished: &[Finished], rate: u32) -> String {
    let mut table = Table::new(&[
        ("Track", false),
        ("Length", true),
        ("Size", true),
        ("", false),
    ]);
    for track in finished {
        for file in &track.files {
            table.row(vec![
                file.path.display().to_string(),
                duration(track.frames as f64 / f64::from(rate)),
                size(file.bytes),
                match track.made {
                    _ if !file.written => "unchanged",
                    Made::Unchanged => "unchanged",
                    Made::New => "new",
                    Made::Again { .. } => "again",
                }
                .to_owned(),
            ]);
        }
    }
    table.lines()
}

/// `3 tracks unchanged, 1 rendered again: 2 of 9 lines.`
fn done(finished: &[Finished]) -> String {
    let (mut unchanged, mut new, mut again, mut altered) = (0, 0, 0, 0);
    let (mut rendered_lines, mut all_lines) = (0, 0);
    for track in finished {
        match track.made {
            Made::Unchanged => unchanged += 1,
            Made::New => new += 1,
            Made::Again {
                rendered,
                lines,
                altered: was_altered,
            } => {
                again += 1;
                rendered_lines += rendered;
                all_lines += lines;
                altered += usize::from(was_altered);
            }
        }
    }
    let mut parts = Vec::new();
    let mut part = |n: usize, what: &str| {
        if n > 0 {
            let number = if parts.is_empty() {
                count(n, "track", "tracks")
            } else {
                n.to_string()
            };
            parts.push(format!("{number} {what}"));
        }
    };
    part(unchanged, "unchanged");
    part(new, "rendered");
    let lines = count(all_lines, "line", "lines");
    part(
        again,
        &format!("rendered again: {rendered_lines} of {lines}"),
    );
    let mut said = parts.join(", ");
    if altered > 0 {
        let files = count(altered, "track", "tracks");
        said += &format!("; {files} no longer as rendered before");
    }
    said + "."
}
