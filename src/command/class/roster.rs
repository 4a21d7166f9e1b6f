//! Everybody of a class, read and checked before anything is rendered.

use super::settings;
use crate::check::{self, Finding, Options, Severity, Summary};
use crate::class::advice::{self, Advice};
use crate::class::{ClassList, Named, Player};
use crate::command::console::Console;
use crate::command::findings::added;
use crate::command::pencilled::{self, Pencilled};
use crate::command::source::Source;
use crate::command::text::count;
use crate::command::{Failure, pencil, presets, show, takes};
use crate::music::{Tempo, WrittenPitch};
use crate::pencil::Mark;
use crate::render::fingerprint::Fingerprint;
use crate::render::take_name::{self, Names};
use crate::routine::{Fault, Routine};
use crate::score::{Take, unroll};
use crate::timeline::compile::compile;
use std::collections::{HashMap, HashSet};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

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
        self.pencil.as_ref().map_or(&[], |p| &p.pencil.marks)
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
    pub print: Arc<Fingerprint>,
    /// It in figures.
    pub summary: Summary,
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
    /// How many cannot, or only with marks left out.
    pub broken: usize,
}

/// What was read for one player may serve for the next.
struct Gathering<'a> {
    list: &'a Source,
    folder: &'a Path,
    keep_going: bool,
    routines: HashMap<String, Option<(Source, Routine)>>,
    versions: HashMap<(String, Option<String>), Option<Arc<Version>>>,
    prints: HashMap<(usize, Take), Arc<Fingerprint>>,
}

impl Roster {
    /// Reads and checks everybody's routine and pencil. What is wrong is shown, each file once.
    pub fn gather(
        console: &mut Console,
        source: &Source,
        list: &ClassList,
        out: &Path,
        keep_going: bool,
    ) -> Self {
        let beside = Path::new(&source.argument).parent();
        let mut gathering = Gathering {
            list: source,
            folder: beside.unwrap_or(Path::new("")),
            keep_going,
            routines: HashMap::new(),
            versions: HashMap::new(),
            prints: HashMap::new(),
        };
        let mut names = Names::default();
        let mut roster = Self {
            ready: Vec::new(),
            broken: 0,
        };
        for (index, player) in list.players.iter().enumerate() {
            // Given to those who are broken, too: mending one must not move another's folder.
            let folder = names.give(&take_name::slug(&player.name));
            let version = gathering.version(console, player);
            let ready = version.and_then(|version| {
                let folder_path = out.join(&folder);
                gathering.ready(console, index, player, version, &folder, folder_path)
            });
            match ready {
                Some(ready) => {
                    let unfit = ready.version.pencil.as_ref().is_some_and(|p| !p.sound);
                    roster.broken += usize::from(unfit);
                    roster.ready.push(ready);
                }
                None => {
                    roster.broken += 1;
                    console.complain(
                        &format!("{} cannot be given this routine", player.name),
                        None,
                    );
                }
            }
        }
        roster
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

impl Gathering<'_> {
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

    fn ready(
        &mut self,
        console: &mut Console,
        index: usize,
        player: &Player,
        version: Arc<Version>,
        slug: &str,
        folder: PathBuf,
    ) -> Option<Ready> {
        let judged = judged(&version.routine, player.comfortable_top);
        let mut names = Names::default();
        let stem = format!("{} {slug}", take_name::slug(&version.routine.title));
        let mut takes_of = Vec::new();
        let mut known: Vec<Finding> = Vec::new();
        let mut warnings = Vec::new();
        let mut seen = HashSet::new();
        for take in takes_of_player(player) {
            let score = match unroll(&judged, &take) {
                Ok(score) => score,
                Err(fault) => {
                    console.fail(&takes::refusal(&fault, &take, &version.routine));
                    return None;
                }
            };
            let tempo = take
                .tempo
                .base(&version.routine)
                .expect("a score exists only at a tempo within bounds");
            // The same tempo may be named as a part and in clicks.
            if !seen.insert((tempo, take.key, take.guide)) {
                continue;
            }
            let report = check::check(&score, &Options { age: player.age });
            let new: Vec<Finding> = added(&known, &report.findings)
                .into_iter()
                .cloned()
                .collect();
            for finding in &new {
                match finding.severity {
                    Severity::Error => show::finding(console, &version.source, finding, None),
                    Severity::Warning => warnings.push(finding.message.clone()),
                    Severity::Advice => {}
                }
            }
            if report.has_errors() {
                return None;
            }
            known.extend(new);
            let notices = score.notices.iter().map(|notice| notice.message.clone());
            warnings.extend(
                notices
                    .filter(|said| !warnings.contains(said))
                    .collect::<Vec<_>>(),
            );
            if let Some(pencilled) = &version.pencil {
                let cut = pencilled.cut_rest(&version.teacher, &take, &report);
                let cut = cut.into_iter().map(|finding| finding.message);
                warnings.extend(
                    cut.filter(|said| !warnings.contains(said))
                        .collect::<Vec<_>>(),
                );
            }
            // What is comfortable changes what is said, not what sounds.
            let print = self
                .prints
                .entry((Arc::as_ptr(&version) as usize, take))
                .or_insert_with(|| Arc::new(Fingerprint::of(&compile(&score, &settings()))));
            takes_of.push(Planned {
                take,
                tempo,
                name: names.give(&take_name::of(&stem, tempo, &take)),
                frames: (report.summary.seconds * f64::from(super::RATE)) as u64,
                print: Arc::clone(print),
                summary: report.summary,
            });
        }
        let advice = player
            .comfortable_top
            .and_then(|top| advice::of(&version.routine, top));
        Some(Ready {
            index,
            name: player.name.clone(),
            folder,
            version,
            takes: takes_of,
            warnings,
            advice,
        })
    }
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
