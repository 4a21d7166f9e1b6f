//! A handout, laid out beside its tracks: the list of them and the page that plays them.

use super::{Failure, labels};
use crate::handout::page::PageFailure;
use crate::handout::{Page, Take as TakeOnPage};
use crate::render::list::{self, Entry};
use crate::render::record::Record;
use crate::render::{FileKind, Part, RenderFailure, take_name};
use crate::routine::Routine;
use crate::score::{Take, unroll};
use std::path::Path;

/// What is laid out in one folder.
pub struct HandedOut<'a> {
    /// The folder with the tracks.
    pub folder: &'a Path,
    /// What is played.
    pub routine: &'a Routine,
    /// Whose it is, where it is one player's own.
    pub whose: Option<&'a str>,
    /// Names and takes of the tracks, in any order.
    pub takes: Vec<(&'a str, &'a Take)>,
    /// The kind of file that the page plays.
    pub kind: FileKind,
}

impl HandedOut<'_> {
    /// Writes list and page, in the order of practice: that of the tracks' names. What says the same as before
    /// keeps its time.
    ///
    /// # Errors
    /// Where one of them cannot be written, or would replace what is not ours.
    ///
    /// # Panics
    /// Where a track has not been rendered.
    pub fn lay_out(mut self) -> Result<(), Failure> {
        self.takes.sort_by(|(a, _), (b, _)| take_name::order(a, b));
        let mut entries = vec![];
        let mut on_page = vec![];
        for (name, take) in &self.takes {
            let mut entry = Entry::of(self.folder, name).expect("the track was rendered just now");
            // A folder may hold the same track in other kinds from an earlier run.
            entry.file = Part::Mix.file_name(name, self.kind);
            on_page.push(TakeOnPage {
                title: labels::of(self.routine, None, take, 1, 1).take,
                file: entry.file.clone(),
                score: unroll(self.routine, take).expect("it was unrolled when it was planned"),
            });
            entries.push(entry);
        }
        list::write(self.folder, &entries).map_err(failed)?;
        let page = Page {
            routine: self.routine,
            whose: self.whose,
            takes: on_page,
            list: list::NAME,
        };
        page.write(self.folder).map_err(|failure| match failure {
            PageFailure::Unwritten(failure) => failed(failure),
            PageFailure::NotOurs(path) => Failure::error(format!(
                "{} was not made by leadpipe, so it stays as it is",
                path.display()
            ))
            .hint("name a folder of its own with --out"),
        })
    }
}

/// How many tracks `folder` has of earlier runs that are none of these.
pub fn others<'n>(folder: &Path, names: impl Iterator<Item = &'n str>) -> usize {
    let names: Vec<&str> = names.collect();
    let tracks = Record::tracks(folder);
    let others = tracks.iter().filter(|name| !names.contains(&name.as_str()));
    others.count()
}

fn failed(failure: RenderFailure) -> Failure {
    let said = Failure::error(failure.to_string());
    match failure.hint() {
        Some(hint) => said.hint(hint),
        None => said,
    }
}
