//! Everybody of a class, read and checked before anything is rendered.

use super::sound::settings;
use super::threads;
use crate::check::{self, Finding, Options, Severity, Summary};
use crate::class::advice::{self, Advice};
use crate::class::{ClassList, Named, Player};
use crate::command::console::Console;
use crate::command::findings::added;
use crate::command::pencilled::{self, Pencilled};
use crate::command::source::Source;
use crate::command::{Failure, pencil, presets, show, takes};
use crate::music::{Tempo, WrittenPitch};
use crate::pencil::{Mark, Pencil};
use crate::render::fingerprint::Fingerprint;
use crate::render::take_name::{self, Names};
use crate::routine::{Fault, Routine};
use crate::score::{Take, unroll};
use crate::timeline::compile::compile;
use crate::timeline::{Content, Timeline};
use crate::words::count;
use blake3::Hash;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use std::collections::{HashMap, HashSet};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// Warnings of one player that are shown; more are counted.
const MOST_SHOWN: usize = 3;

/// A routine with a pencil laid over it, or without one.
pub struct Version {
    /// What is played.
    pub routine: Routine,
    /// What the teacher wrote.
    pub teacher: Routine,
    /// Where that stands.
    source: Source,
    /// The pencil.
    pencil: Option<Pencilled>,
}

impl Version {
    /// The player's marks.
    pub fn marks(&self) -> &[Mark] {
        self.pencil().map_or(&[], |pencil| &pencil.marks)
    }

    /// The text of what the teacher wrote.
    pub fn text(&self) -> &str {
        &self.source.text
    }

    /// The pencil.
    pub fn pencil(&self) -> Option<&Pencil> {
        self.pencil.as_ref().map(|p| &p.pencil)
    }

    /// The text of its file.
    pub fn pencil_text(&self) -> Option<&str> {
        self.pencil.as_ref().map(|p| p.source.text.as_str())
    }
}

/// One take of a player.
pub struct Planned {
    /// The take.
    pub take: Take,
    /// Its tempo in clicks a minute.
    pub tempo: Tempo,
    /// The track's name.
    pub name: String,
    /// About as many frames as it has.
    pub frames: u64,
    /// What it sounds like.
    pub sound: Arc<Sound>,
    /// It in figures.
    pub summary: Summary,
}

/// What a take sounds like.
pub struct Sound {
    /// All of it.
    pub print: Arc<Fingerprint>,
    /// Its lines alone.
    pub lines: Vec<Hash>,
}

impl Sound {
    fn of(timeline: &Timeline) -> Self {
        let print = Fingerprint::of(timeline);
        let units = timeline.units.iter().zip(&print.units);
        let lines = units.filter(|(unit, _)| matches!(unit.content, Content::Line(_)));
        let lines = lines.map(|(_, hash)| *hash).collect();
        Self {
            print: Arc::new(print),
            lines,
        }
    }
}

/// A player who can be rendered.
pub struct Ready {
    /// Place in the list, from 0.
    pub index: usize,
    /// Nickname.
    pub name: String,
    /// Where the tracks go.
    pub folder: PathBuf,
    /// What is played.
    pub version: Arc<Version>,
    /// The takes in order.
    pub takes: Vec<Planned>,
    /// What there is to say of them that should be changed.
    warnings: Vec<String>,
    /// What may be suggested to the teacher.
    pub advice: Option<Advice>,
}

/// A class, checked.
pub struct Roster {
    /// Who can be rendered, in order of the list.
    pub ready: Vec<Ready>,
    /// Who cannot.
    pub refused: Vec<String>,
    /// Who can with marks left out.
    pub unfit: Vec<String>,
    /// Names of everybody's folders, those of the refused too.
    pub folders: Vec<String>,
}

/// What the command asks for.
pub struct Asked<'a> {
    /// Where the players' folders go.
    pub out: &'a Path,
    /// Frames a second.
    pub rate: u32,
    /// Whether marks that do not fit are left out.
    pub keep_going: bool,
    /// Threads; none for as many as the machine has cores.
    pub threads: Option<usize>,
}

/// Files read so far: what one player has serves the next.
struct Library<'a> {
    list: &'a Source,
    folder: &'a Path,
    keep_going: bool,
    routines: HashMap<String, Option<(Source, Routine)>>,
    versions: HashMap<(String, Option<String>), Option<Arc<Version>>>,
}

/// A player whose files can be read.
struct Entrant<'a> {
    index: usize,
    player: &'a Player,
    folder: String,
    version: Arc<Version>,
}

impl Entrant<'_> {
    /// What tells the sound of one take of this player from others'.
    fn key(&self, take: &Take) -> SoundKey {
        (Arc::as_ptr(&self.version) as usize, *take)
    }
}

type SoundKey = (usize, Take);
type Sounds = HashMap<SoundKey, OnceLock<Arc<Sound>>>;

/// Why a player cannot be rendered.
enum Refusal {
    Errors(Vec<Finding>),
    Take(Failure),
}

impl Roster {
    /// Reads and checks everybody's routine and pencil. What is wrong is shown, each file once.
    pub fn gather(
        console: &mut Console,
        source: &Source,
        list: &ClassList,
        asked: &Asked<'_>,
    ) -> Self {
        let beside = Path::new(&source.argument).parent();
        let mut library = Library {
            list: source,
            folder: beside.unwrap_or(Path::new("")),
            keep_going: asked.keep_going,
            routines: HashMap::new(),
            versions: HashMap::new(),
        };
        let mut names = Names::default();
        let mut entrants = Vec::new();
        let mut roster = Self {
            ready: Vec::new(),
            refused: Vec::new(),
            unfit: Vec::new(),
            folders: Vec::new(),
        };
        for (index, player) in list.players.iter().enumerate() {
            // Given to those who are broken, too: mending one must not move another's folder.
            let folder = names.give(&take_name::slug(&player.name));
            roster.folders.push(folder.clone());
            match library.version(console, player) {
                Some(version) => entrants.push(Entrant {
                    index,
                    player,
                    folder,
                    version,
                }),
                None => roster.refuse(console, &player.name),
            }
        }
        let judged: Vec<_> = threads::with(asked.threads, || {
            let sounds = sounds(&entrants);
            let judged = entrants.par_iter().map(|e| ready(e, &sounds, asked));
            judged.collect()
        });
        for (entrant, judged) in entrants.iter().zip(judged) {
            match judged {
                Ok(ready) => {
                    if ready.version.pencil.as_ref().is_some_and(|p| !p.sound) {
                        roster.unfit.push(ready.name.clone());
                    }
                    roster.ready.push(ready);
                }
                Err(refusal) => {
                    match refusal {
                        Refusal::Errors(errors) => {
                            for error in &errors {
                                show::finding(console, &entrant.version.source, error, None);
                            }
                        }
                        Refusal::Take(failure) => console.fail(&failure),
                    }
                    roster.refuse(console, &entrant.player.name);
                }
            }
        }
        roster
    }

    fn refuse(&mut self, console: &mut Console, name: &str) {
        self.refused.push(name.to_owned());
        console.complain(&format!("{name} cannot be given this routine"), None);
    }

    /// What there is to say of everybody, one after the other.
    pub fn report(&self, console: &mut Console) {
        for ready in &self.ready {
            let marks = match ready.version.marks() {
                [] => String::new(),
                marks => format!(" with {}", pencil::tally(marks)),
            };
            let tracks = count(ready.takes.len(), "track", "tracks");
            let said = match ready.warnings.len() {
                0 => "nothing to say against it".to_owned(),
                n => count(n, "warning", "warnings"),
            };
            console.say(&format!(
                "{}: {}{marks}, {tracks}: {said}.",
                ready.name, ready.version.routine.title
            ));
            for warning in ready.warnings.iter().take(MOST_SHOWN) {
                console.say(&format!("  warning: {warning}"));
            }
            if let more @ 1.. = ready.warnings.len().saturating_sub(MOST_SHOWN) {
                console.say(&format!("  and {more} more"));
            }
        }
    }
}

impl Library<'_> {
    /// What the player plays, if it can be read.
    fn version(&mut self, console: &mut Console, player: &Player) -> Option<Arc<Version>> {
        let key = (
            player.routine.name.clone(),
            player.pencil.as_ref().map(|p| p.name.clone()),
        );
        if let Some(found) = self.versions.get(&key) {
            return found.clone();
        }
        let version = self.read(console, player).map(Arc::new);
        self.versions.insert(key, version.clone());
        version
    }

    fn read(&mut self, console: &mut Console, player: &Player) -> Option<Version> {
        let (source, teacher) = self.routine(console, &player.routine)?;
        let Some(named) = &player.pencil else {
            return Some(Version {
                routine: teacher.clone(),
                teacher,
                source,
                pencil: None,
            });
        };
        let path = self.beside(&named.name);
        let pencil = match pencilled::find(path.as_os_str()) {
            Ok(pencil) => pencil,
            Err(failure) => {
                self.missing(console, named, failure);
                return None;
            }
        };
        let pencilled = pencilled::lay(console, pencil, &teacher, self.keep_going)?;
        Some(Version {
            routine: pencilled.laid.routine.clone(),
            teacher,
            source,
            pencil: Some(pencilled),
        })
    }

    fn routine(&mut self, console: &mut Console, named: &Named) -> Option<(Source, Routine)> {
        if let Some(found) = self.routines.get(&named.name) {
            return found.clone();
        }
        let path = match presets::named(&named.name) {
            Some(_) => PathBuf::from(&named.name),
            None => self.beside(&named.name),
        };
        let found = match Source::find(path.as_os_str()) {
            Ok(source) => match source.read() {
                Ok(routine) => Some((source, routine)),
                Err(faults) => {
                    show::faults(console, &source, &faults);
                    None
                }
            },
            Err(failure) => {
                self.missing(console, named, failure);
                None
            }
        };
        self.routines.insert(named.name.clone(), found.clone());
        found
    }

    /// A file that the list names, from where the program runs.
    fn beside(&self, name: &str) -> PathBuf {
        let path = self.folder.join(name);
        // The one name that is no file's.
        if path.as_os_str() == OsStr::new("-") {
            return Path::new(".").join(path);
        }
        path
    }

    /// Says at its place in the list that a file is not there.
    fn missing(&self, console: &mut Console, named: &Named, failure: Failure) {
        match failure {
            Failure::Said { message, hint, .. } => {
                let fault = Fault::new(named.span, message);
                let fault = match hint {
                    Some(hint) => fault.hint(hint),
                    None => fault,
                };
                show::faults(console, self.list, &[fault]);
            }
            other @ Failure::Output(_) => console.fail(&other),
        }
    }
}

/// A place for what every take sounds like: found out by whoever comes to it first, however many play it.
fn sounds(entrants: &[Entrant<'_>]) -> Sounds {
    let takes = entrants.iter().flat_map(|entrant| {
        let takes = takes_of_player(entrant.player).into_iter();
        takes.map(|take| entrant.key(&take))
    });
    takes.map(|key| (key, OnceLock::new())).collect()
}

/// Checks every take of a player.
fn ready(entrant: &Entrant<'_>, sounds: &Sounds, asked: &Asked<'_>) -> Result<Ready, Refusal> {
    let (player, version) = (entrant.player, &entrant.version);
    // What is comfortable changes what is said, not what sounds.
    let judged = judged(&version.routine, player.comfortable_top);
    let mut names = Names::default();
    let stem = format!(
        "{} {}",
        take_name::slug(&version.routine.title),
        entrant.folder
    );
    let mut planned = Vec::new();
    let mut known: Vec<Finding> = Vec::new();
    let mut warnings: Vec<String> = Vec::new();
    let mut seen = HashSet::new();
    for take in takes_of_player(player) {
        let refuse = |fault| Refusal::Take(takes::refusal(&fault, &take, &version.routine));
        let score = unroll(&judged, &take).map_err(refuse)?;
        let tempo = take
            .tempo
            .base(&version.routine)
            .expect("a score exists only at a tempo within bounds");
        // The same tempo may be named as a part and in clicks.
        if !seen.insert((tempo, take.key, take.guide)) {
            continue;
        }
        let report = check::check(&score, &Options { age: player.age });
        if report.has_errors() {
            let mut errors = report.findings;
            errors.retain(|finding| finding.severity == Severity::Error);
            return Err(Refusal::Errors(errors));
        }
        let new: Vec<Finding> = added(&known, &report.findings)
            .into_iter()
            .cloned()
            .collect();
        let said = new.iter().filter(|f| f.severity == Severity::Warning);
        let mut said: Vec<String> = said.map(|f| f.message.clone()).collect();
        known.extend(new);
        said.extend(score.notices.iter().map(|notice| notice.message.clone()));
        if let Some(pencilled) = &version.pencil {
            let cut = pencilled.cut_rest(&version.teacher, &take, &report);
            said.extend(cut.into_iter().map(|finding| finding.message));
        }
        for warning in said {
            if !warnings.contains(&warning) {
                warnings.push(warning);
            }
        }
        let sound = sounds[&entrant.key(&take)]
            .get_or_init(|| Arc::new(Sound::of(&compile(&score, &settings(asked.rate)))));
        planned.push(Planned {
            take,
            tempo,
            name: names.give(&take_name::of(&stem, tempo, &take)),
            frames: (report.summary.seconds * f64::from(asked.rate)) as u64,
            sound: Arc::clone(sound),
            summary: report.summary,
        });
    }
    let advice = player
        .comfortable_top
        .and_then(|top| advice::of(&version.routine, top));
    Ok(Ready {
        index: entrant.index,
        name: player.name.clone(),
        folder: asked.out.join(&entrant.folder),
        version: Arc::clone(version),
        takes: planned,
        warnings,
        advice,
    })
}

/// The routine as it lies for a player who is comfortable up to another note.
fn judged(routine: &Routine, top: Option<WrittenPitch>) -> Routine {
    let mut routine = routine.clone();
    if let Some(top) = top {
        routine.comfortable_top = top;
    }
    routine
}

fn takes_of_player(player: &Player) -> Vec<Take> {
    let mut takes = Vec::new();
    for tempo in &player.tempos {
        for key in &player.keys {
            for guide in &player.guides {
                takes.push(Take {
                    tempo: *tempo,
                    key: *key,
                    guide: *guide,
                    ..Take::default()
                });
            }
        }
    }
    takes
}
