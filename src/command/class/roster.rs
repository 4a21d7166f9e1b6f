//! The players of a class, read and checked before anything is rendered.

use super::folders;
use super::library::{Library, Wish};
use super::together::Parts;
use crate::check::Options;
use crate::class::advice::{self, Advice};
use crate::class::{ClassList, Listed, Player};
use crate::command::carried::CarryOptions;
use crate::command::console::Console;
use crate::command::edition::LoadedEdition;
use crate::command::pencil;
use crate::command::source::SourceText;
use crate::edition::name::Names;
use crate::edition::{Edition, Judge, Plan, Unplayable, Wanted};
use crate::problem::{Problem, Severity, Text};
use crate::render::RenderFailure;
use crate::render::reuse::origin;
use crate::render::threads;
use crate::render::together::Sound;
use crate::score::Take;
use crate::timeline::compile::{self, compile};
use crate::words::{Words, count, tell};
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// The most warnings shown of one player; more are counted.
const MOST_SHOWN: usize = 3;

/// A player whose files can be read.
pub struct Entrant<'l> {
    /// Place in the list, from 0.
    index: usize,
    player: &'l Player,
    folder: String,
    opened: Arc<LoadedEdition>,
}

/// A player who is left out.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// Place in the list, from 0.
    pub index: usize,
    /// Nickname, or the place in the list if there is none.
    pub name: String,
    /// The reason in a few words.
    pub why: Words,
}

/// The players of a class whose files were read.
pub struct Entrants<'l> {
    readable: Vec<Entrant<'l>>,
    left_out: Vec<LeftOut>,
    /// Names of all players' folders, with those of players who were left out.
    folders: Vec<String>,
}

/// A player who can be rendered.
pub struct Ready<'e> {
    /// Place in the list, from 0.
    pub index: usize,
    /// Nickname.
    pub name: String,
    /// Where the tracks go.
    pub folder: PathBuf,
    /// How the routine is named in records there.
    pub origin: String,
    /// What is played.
    pub opened: &'e LoadedEdition,
    /// The takes in order.
    pub plan: Plan<'e>,
    /// What each take sounds like.
    pub sounds: Vec<Arc<Sound>>,
    /// Warnings about the takes.
    pub warnings: Vec<Words>,
    /// Advice for the teacher.
    pub advice: Option<Advice>,
}

impl Ready<'_> {
    /// The player's version of the routine.
    pub fn edition(&self) -> &Edition {
        &self.opened.edition
    }
}

/// A class, checked.
pub struct Roster<'e> {
    /// Players who can be rendered, in the order of the list.
    pub ready: Vec<Ready<'e>>,
    /// Players who cannot, in the order of the list.
    pub left_out: Vec<LeftOut>,
    /// Players who can be rendered after marks were left out.
    pub unfit: Vec<String>,
    /// Names of all players' folders, with those of players who were left out.
    pub folders: Vec<String>,
}

/// The options of the command.
pub struct ClassOptions<'a> {
    /// Where the players' folders go.
    pub out: &'a Path,
    /// Frames a second.
    pub rate: u32,
    /// Whether marks that do not fit are left out.
    pub keep_going: bool,
    /// Number of threads; `None` for one per core.
    pub threads: Option<usize>,
}

impl ClassOptions<'_> {
    /// How takes are compiled.
    pub fn compile(&self) -> compile::Settings {
        compile::Settings {
            sample_rate: self.rate,
            signs: true,
        }
    }
}

/// Why a player cannot be rendered.
enum Refusal {
    Errors(Vec<Problem>),
    Take(Unplayable),
    Unread(RenderFailure),
}

impl<'l> Entrants<'l> {
    /// Reads all players' routines and pencils. Problems are shown, once for each file.
    pub fn gather(
        console: &mut Console,
        source: &'l SourceText,
        list: &'l ClassList,
        asked: &ClassOptions<'_>,
    ) -> Result<Self, RenderFailure> {
        let mut library = Library::beside(source, asked.keep_going);
        let folders = folders::give(console, list, asked.out)?;
        let parts = Parts::arrange(console, list, &mut library);
        let mut entrants = Self {
            readable: Vec::new(),
            left_out: Vec::new(),
            folders: folders.iter().flatten().cloned().collect(),
        };
        for (index, (listed, folder)) in list.players.iter().zip(folders).enumerate() {
            let (name, found) = match (listed, folder) {
                (Listed::Player(player), Some(folder)) => {
                    let part = parts.of(index);
                    let found = part.unwrap_or_else(|| library.version(console, &Wish::of(player)));
                    let found = found.map(|opened| {
                        let opened = match player.language {
                            Some(language) => Arc::new(opened.in_language(language)),
                            None => opened,
                        };
                        let opened = match player.names {
                            Some(names) => Arc::new(opened.in_names(names)),
                            None => opened,
                        };
                        entrants.readable.push(Entrant {
                            index,
                            player,
                            folder,
                            opened,
                        });
                    });
                    (player.name.clone(), found)
                }
                (Listed::Player(player), None) => unreachable!("{} has a folder", player.name),
                (Listed::NotUnderstood(player), _) => {
                    // All problems are shown at once.
                    if let Some(routine) = &player.routine {
                        let wish = Wish {
                            routine,
                            pencil: player.pencil.as_ref(),
                            carry: CarryOptions::default(),
                            language: None,
                        };
                        let _ = library.version(console, &wish);
                    }
                    let name = player.name.clone();
                    let name = name.unwrap_or_else(|| tell::player_number(index + 1).to_string());
                    (name, Err(tell::player_not_understood()))
                }
            };
            if let Err(why) = found {
                leave_out(
                    console,
                    &mut entrants.left_out,
                    LeftOut { index, name, why },
                );
            }
        }
        Ok(entrants)
    }
}

impl<'e> Roster<'e> {
    /// Checks every take of every player. Problems are shown.
    pub fn check(
        console: &mut Console,
        entrants: &'e Entrants<'_>,
        asked: &ClassOptions<'_>,
    ) -> Self {
        let readable = &entrants.readable;
        let judged: Vec<_> = threads::with(asked.threads, || {
            let sounds = sounds(readable);
            let judged = readable.par_iter().map(|e| ready(e, &sounds, asked));
            judged.collect()
        });
        let mut roster = Self {
            ready: Vec::new(),
            left_out: entrants.left_out.clone(),
            unfit: Vec::new(),
            folders: entrants.folders.clone(),
        };
        for (entrant, judged) in readable.iter().zip(judged) {
            match judged {
                Ok(ready) => {
                    if !ready.edition().left_out().is_empty() {
                        roster.unfit.push(ready.name.clone());
                    }
                    roster.ready.push(ready);
                }
                Err(refusal) => {
                    let why = match refusal {
                        Refusal::Errors(errors) => {
                            for error in &errors {
                                entrant.opened.show(console, error, None);
                            }
                            tell::routine_errors()
                        }
                        Refusal::Take(unplayable) => {
                            console.fail(&unplayable.into());
                            tell::take_unplayable()
                        }
                        Refusal::Unread(failure) => {
                            console.fail(&failure.into());
                            tell::record_unread()
                        }
                    };
                    let left_out = LeftOut {
                        index: entrant.index,
                        name: entrant.player.name.clone(),
                        why,
                    };
                    leave_out(console, &mut roster.left_out, left_out);
                }
            }
        }
        roster.left_out.sort_by_key(|left_out| left_out.index);
        roster
    }

    /// Shows the findings of the players who have any, in order, and counts the others.
    pub fn report(&self, console: &mut Console) {
        let (warned, fine): (Vec<&Ready<'_>>, Vec<&Ready<'_>>) = self
            .ready
            .iter()
            .partition(|ready| !ready.warnings.is_empty());
        for ready in &warned {
            let marks = match ready.edition().marks() {
                [] => Words::default(),
                marks => tell::with_marks(pencil::tally(marks)),
            };
            let tracks = count::tracks(ready.plan.takes.len());
            let said = count::warnings(ready.warnings.len());
            console.say(tell::player_summary(
                &ready.name,
                &ready.edition().played().title,
                &marks,
                &tracks,
                &said,
            ));
            for warning in ready.warnings.iter().take(MOST_SHOWN) {
                console.say(tell::warning_row(warning));
            }
            if let more @ 1.. = ready.warnings.len().saturating_sub(MOST_SHOWN) {
                console.say(tell::more_row(more));
            }
        }
        if !fine.is_empty() {
            let players = match warned.is_empty() {
                true => count::players(fine.len()),
                false => tell::n_other_players(fine.len()),
            };
            console.say(tell::nothing_found(players));
        }
    }
}

fn leave_out(console: &mut Console, all: &mut Vec<LeftOut>, left_out: LeftOut) {
    let LeftOut { name, why, .. } = &left_out;
    console.complain(tell::gets_no_tracks(name, why), None);
    all.push(left_out);
}

/// The sound of each version at a take, computed once by the first player who needs it.
type Sounds = HashMap<SoundKey, OnceLock<Arc<Sound>>>;
type SoundKey = (usize, Take);

impl Entrant<'_> {
    /// The key of the sound of a take of this player.
    fn key(&self, take: &Take) -> SoundKey {
        (Arc::as_ptr(&self.opened) as usize, *take)
    }

    fn takes(&self) -> Vec<Take> {
        let wanted = Wanted {
            tempos: self.player.tempos.clone(),
            keys: self.player.keys.clone(),
            guides: self.player.guides.clone(),
            ..Wanted::default()
        };
        wanted.takes()
    }
}

fn sounds(entrants: &[Entrant<'_>]) -> Sounds {
    let keys = entrants.iter().flat_map(|entrant| {
        let takes = entrant.takes().into_iter();
        takes.map(|take| entrant.key(&take))
    });
    keys.map(|key| (key, OnceLock::new())).collect()
}

/// Checks every take of a player.
fn ready<'e>(
    entrant: &'e Entrant<'_>,
    sounds: &Sounds,
    asked: &ClassOptions<'_>,
) -> Result<Ready<'e>, Refusal> {
    let (player, edition) = (entrant.player, &entrant.opened.edition);
    let judge = Judge {
        options: Options {
            age: player.age,
            comfortable_top: player.comfortable_top,
        },
        ..Judge::default()
    };
    let plan = edition.plan(&entrant.takes(), &judge);
    let mut plan = plan.map_err(Refusal::Take)?;
    if let Some(broken) = plan.takes.iter().find(|take| take.report.has_errors()) {
        let errors = broken.report.errors().cloned();
        let errors = errors.map(|error| error.in_text(Text::Routine));
        return Err(Refusal::Errors(errors.collect()));
    }
    let title = entrant.opened.routine.stem(&edition.played().title);
    let stem = format!("{title} {}", entrant.folder);
    // No track replaces one of another routine with the same title.
    let folder = asked.out.join(&entrant.folder);
    let origin = entrant.opened.routine.origin(&folder);
    let stem = origin::free_name(&mut Names::default(), &stem, &plan, &folder, &origin);
    let stem = stem.map_err(Refusal::Unread)?;
    plan.name(&stem, &mut Names::default());
    let sounds = plan.takes.iter().map(|planned| {
        let sound = sounds[&entrant.key(&planned.take)]
            .get_or_init(|| Arc::new(Sound::of(&compile(&planned.score, &asked.compile()))));
        Arc::clone(sound)
    });
    let sounds = sounds.collect();
    let advice = player
        .comfortable_top
        .and_then(|top| advice::of(edition.played(), top));
    Ok(Ready {
        index: entrant.index,
        name: player.name.clone(),
        folder,
        origin,
        opened: &entrant.opened,
        warnings: warnings(&plan),
        plan,
        sounds,
        advice,
    })
}

/// The warnings of all takes, each once.
fn warnings(plan: &Plan<'_>) -> Vec<Words> {
    let mut warnings: Vec<Words> = Vec::new();
    for planned in &plan.takes {
        let problems = planned.problems.iter();
        let problems = problems.filter(|problem| problem.severity == Severity::Warning);
        let (cut, found): (Vec<_>, Vec<_>) = problems.partition(|problem| {
            problem
                .place
                .is_some_and(|place| place.text == Text::Pencil)
        });
        let said = found.into_iter().map(|problem| &problem.message);
        let said = said.chain(planned.notices.iter().map(|notice| &notice.message));
        for warning in said.chain(cut.into_iter().map(|problem| &problem.message)) {
            if !warnings.contains(warning) {
                warnings.push(warning.clone());
            }
        }
    }
    warnings
}
