//! The routines and pencils that a class list names, each read once.

use crate::class::{Named, Player};
use crate::command::carried::CarryOptions;
use crate::command::console::Console;
use crate::command::edition::{self, LoadedEdition};
use crate::command::source::SourceText;
use crate::command::{Failure, show};
use crate::presets;
use crate::problem::Text;
use crate::routine::Routine;
use crate::words::{Language, Words, tell};
use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What a player plays, or in a few words why it cannot be read.
pub type Found<T> = Result<T, Words>;

/// A routine with its text.
pub type ReadRoutine = (SourceText, Arc<Routine>);

/// Its name in the list, the instrument it is carried to and its language.
type RoutineKey = (String, CarryOptions, Option<Language>);

/// The files read so far, shared between players.
pub struct Library<'l> {
    list: &'l SourceText,
    folder: &'l Path,
    keep_going: bool,
    routines: HashMap<RoutineKey, Found<ReadRoutine>>,
    versions: HashMap<(RoutineKey, Option<String>), Found<Arc<LoadedEdition>>>,
}

/// What a player is to play.
pub struct Wish<'l> {
    pub routine: &'l Named,
    pub pencil: Option<&'l Named>,
    pub carry: CarryOptions,
    pub language: Option<Language>,
}

impl<'l> Wish<'l> {
    pub fn of(player: &'l Player) -> Self {
        Self {
            routine: &player.routine,
            pencil: player.pencil.as_ref(),
            carry: CarryOptions::to(player.instrument, player.carry),
            language: player.language,
        }
    }
}

impl<'l> Library<'l> {
    pub fn beside(list: &'l SourceText, keep_going: bool) -> Self {
        let folder = Path::new(&list.argument).parent();
        Self {
            list,
            folder: folder.unwrap_or(Path::new("")),
            keep_going,
            routines: HashMap::new(),
            versions: HashMap::new(),
        }
    }

    /// The player's version of the routine, if it can be read.
    pub fn version(&mut self, console: &mut Console, wish: &Wish<'_>) -> Found<Arc<LoadedEdition>> {
        let pencil = wish.pencil.map(|pencil| pencil.name.clone());
        let routine = (wish.routine.name.clone(), wish.carry, wish.language);
        let key = (routine, pencil);
        if let Some(found) = self.versions.get(&key) {
            return found.clone();
        }
        let version = self.read(console, wish).map(Arc::new);
        self.versions.insert(key, version.clone());
        version
    }

    /// A routine that the list names, as it is written.
    pub fn routine_as_written(
        &mut self,
        console: &mut Console,
        named: &Named,
    ) -> Found<ReadRoutine> {
        self.routine(console, named, CarryOptions::default(), None)
    }

    fn read(&mut self, console: &mut Console, wish: &Wish<'_>) -> Found<LoadedEdition> {
        let routine = self.routine(console, wish.routine, wish.carry, wish.language);
        let pencil = wish.pencil.map(|named| self.pencil(console, named));
        let pencil = pencil.transpose();
        let (source, teacher) = routine?;
        let pencil = pencil?;
        let opened = LoadedEdition::lay(console, source, teacher, pencil, self.keep_going);
        opened.ok_or(tell::pencil_unfit())
    }

    fn pencil(&self, console: &mut Console, named: &Named) -> Found<SourceText> {
        let path = self.beside_list(&named.name);
        edition::find_pencil(path.as_os_str()).map_err(|failure| {
            self.missing(console, named, failure);
            tell::pencil_unread()
        })
    }

    fn routine(
        &mut self,
        console: &mut Console,
        named: &Named,
        carry: CarryOptions,
        language: Option<Language>,
    ) -> Found<ReadRoutine> {
        let key = (named.name.clone(), carry, language);
        if let Some(found) = self.routines.get(&key) {
            return found.clone();
        }
        let path = match presets::named(&named.name) {
            Some(_) => PathBuf::from(&named.name),
            None => self.beside_list(&named.name),
        };
        let found = SourceText::find(path.as_os_str());
        let found =
            match found.and_then(|source| carry.source(console, source.in_language(language))) {
                Ok(source) => edition::read_routine(console, &source)
                    .map(|read| (source, read))
                    .ok_or(tell::routine_faulty()),
                Err(failure) => {
                    self.missing(console, named, failure);
                    Err(tell::routine_unread())
                }
            };
        self.routines.insert(key, found.clone());
        found
    }

    /// The path of a file that the list names, from the working directory.
    fn beside_list(&self, name: &str) -> PathBuf {
        let path = self.folder.join(name);
        // `-` would be read as standard input.
        if path.as_os_str() == OsStr::new("-") {
            return Path::new(".").join(path);
        }
        path
    }

    /// Reports a missing file at its place in the list.
    fn missing(&self, console: &mut Console, named: &Named, failure: Failure) {
        match failure {
            Failure::Refused { problem, .. } => {
                let problem = problem.at(Text::ClassList, named.span);
                show::problems(console, self.list, &[problem]);
            }
            other @ Failure::Output(_) => console.fail(&other),
        }
    }
}
