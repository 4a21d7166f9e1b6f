//! Writes a handout beside its tracks: the list of tracks, the sheets to print and the page that plays the tracks.

use super::page::{self, HandoutPage};
use super::{made, practice};
use crate::edition::{Edition, Plan, PlannedTake, name};
use crate::problem::Problem;
use crate::render::files::{self, Replace};
use crate::render::list::{self, ListEntry};
use crate::render::planned;
use crate::render::reuse::record::Record;
use crate::render::{FileKind, RenderFailure, TrackPart};
use crate::score::Take;
use crate::sheet::{self, Paper, Sheet, SheetOptions};
use crate::words::{key, say};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// How names of sheets begin and end.
const SHEET: &str = "sheet";
const SHEET_ENDING: &str = ".pdf";

/// True for the name of a sheet. A handout has no other file of this kind.
fn is_sheet(name: &str) -> bool {
    name.starts_with(SHEET) && name.ends_with(SHEET_ENDING)
}

/// The content of one handout folder.
pub struct HandedOut<'a> {
    /// The folder with the tracks.
    pub folder: &'a Path,
    /// The player's version of the routine.
    pub edition: &'a Edition,
    /// Its takes, each with its track in the folder.
    pub plan: &'a Plan<'a>,
    /// The text of the routine's file.
    pub text: &'a str,
    /// The text of the pencil's file.
    pub pencil_text: Option<&'a str>,
    /// The player's name, if the handout is made for one player.
    pub whose: Option<&'a str>,
    /// The kind of file that the page plays.
    pub kind: FileKind,
    /// Paper of the sheet.
    pub paper: Paper,
    /// The text of its page as text, if it is to have one.
    pub practice: Option<String>,
    /// What its files may replace.
    pub replace: Replace,
    /// Whether its files are made even if it is known that they would stay the same.
    pub anew: bool,
}

impl HandedOut<'_> {
    /// Writes list, sheets and pages in the order of practice, which is that of the tracks' names. A file whose content
    /// stays the same keeps its time. Returns the paths of the sheets; there are none if this build cannot write PDF.
    ///
    /// # Errors
    /// If one of them cannot be written, somebody's own file is in its way, or a track or its record cannot be read.
    pub fn lay_out(&self) -> Result<Vec<PathBuf>, Problem> {
        let mut takes: Vec<&PlannedTake<'_>> = self.plan.takes.iter().collect();
        takes.sort_by(|a, b| name::order(&a.name, &b.name));
        let of = self.edition.line_origins();
        let mut entries = vec![];
        let mut on_page = vec![];
        for planned in &takes {
            let (entry, take) = self.track(planned, &of)?;
            on_page.push(take);
            entries.push(entry);
        }
        let made_from = self.made_from(&entries, &on_page, &takes);
        if let Some(made_from) = made_from.filter(|_| !self.anew)
            && let Some(names) = made::unchanged(self.folder, &made_from)
        {
            let sheets = names.iter().filter(|name| is_sheet(name));
            return Ok(sheets.map(|name| self.folder.join(name)).collect());
        }
        let sheets = self.sheets(&takes)?;
        let paths = sheets.iter().map(|sheet| self.folder.join(&sheet.file));
        let paths = paths.collect();
        let mut files = vec![(list::NAME.to_owned(), list::text(&entries).into_bytes())];
        files.extend(
            sheets
                .iter()
                .map(|sheet| (sheet.file.clone(), sheet.content.clone())),
        );
        if let Some(text) = &self.practice {
            files.push((practice::NAME.to_owned(), text.clone().into_bytes()));
        }
        let page = HandoutPage {
            edition: self.edition,
            text: self.text,
            pencil_text: self.pencil_text,
            whose: self.whose,
            takes: on_page,
            sheets,
            list: Some(list::NAME),
        };
        files.extend(page.files());
        let files = files.iter();
        let files = files.map(|(name, content)| (name.as_str(), content.as_slice()));
        files::put_all(self.folder, files.clone(), self.replace)?;
        if let Some(made_from) = made_from {
            made::note(self.folder, &made_from, files.map(|(name, _)| name))?;
        }
        Ok(paths)
    }

    /// The hash of all that decides the files.
    fn made_from(
        &self,
        entries: &[ListEntry],
        on_page: &[page::PageTake<'_>],
        takes: &[&PlannedTake<'_>],
    ) -> Option<blake3::Hash> {
        // Taken apart by name, so that a new field does not compile until it is thought of here.
        let Self {
            folder: _,
            edition,
            // Its takes are added one by one; what else it says stands in the text for practice.
            plan: _,
            text,
            pencil_text,
            whose,
            kind,
            paper,
            practice,
            replace: _,
            anew: _,
        } = self;
        let mut made_from = made::MadeFrom::this_program()?;
        made_from.add(&(
            edition,
            text,
            pencil_text,
            whose,
            kind,
            paper,
            practice,
            entries,
        ));
        for (take, shown) in takes.iter().zip(on_page) {
            made_from.add(&(
                &take.name,
                take.take,
                &shown.title,
                &shown.file,
                &shown.state,
            ));
        }
        Some(made_from.hash())
    }

    /// The entries of a track in the list and on the page.
    fn track<'t>(
        &self,
        planned: &'t PlannedTake<'_>,
        of: &'t [usize],
    ) -> Result<(ListEntry, page::PageTake<'t>), RenderFailure> {
        let name = &planned.name;
        let entry = ListEntry::of(self.folder, name)?;
        let mut entry = entry.ok_or_else(|| self.gone(name))?;
        // A folder may hold the same track as another kind of file from an earlier run.
        entry.file = TrackPart::Mix.file_name(name, self.kind);
        let record = Record::load(self.folder, name)?;
        let state = record.and_then(|r| Some(r.file(TrackPart::Mix, self.kind)?.blake3.clone()));
        let take = page::PageTake {
            state: state.unwrap_or_default(),
            title: planned::labels(self.edition.played(), None, &planned.take, 1, 1).take,
            file: entry.file.clone(),
            score: &planned.score,
            of,
        };
        Ok((entry, take))
    }

    /// A track was removed while its handout was laid out.
    fn gone(&self, name: &str) -> RenderFailure {
        let file = TrackPart::Mix.file_name(name, self.kind);
        RenderFailure::reading(&self.folder.join(file))(ErrorKind::NotFound.into())
    }

    /// A sheet for each key. It shows the teacher's routine with the pencil's marks.
    fn sheets(&self, takes: &[&PlannedTake<'_>]) -> Result<Vec<page::PageSheet>, Problem> {
        let language = self.edition.teacher().words_in;
        let mut written: Vec<page::PageSheet> = vec![];
        for planned in takes.iter().filter(|_| cfg!(feature = "pdf")) {
            let (title, file) = match planned.take.key {
                0 => (
                    say::the_sheet(language).to_owned(),
                    format!("{SHEET}{SHEET_ENDING}"),
                ),
                key => (
                    say::the_sheet_in_a_key(language, key::moved(language, key)),
                    format!("{SHEET} {}{SHEET_ENDING}", name::key(key)),
                ),
            };
            if written.iter().any(|there| there.file == file) {
                continue;
            }
            let as_written = Take {
                key: planned.take.key,
                ..Take::default()
            };
            // The pupil's version may be playable in a key in which the teacher's has no line.
            let Ok(score) = self.edition.printed(&as_written) else {
                continue;
            };
            let options = SheetOptions {
                paper: self.paper,
                ..SheetOptions::default()
            };
            let sheet = sheet::engrave_marked(&score, &options, self.edition.pencil());
            let content = pdf(&sheet)?;
            written.push(page::PageSheet {
                title,
                file,
                content,
            });
        }
        Ok(written)
    }
}

#[cfg(feature = "pdf")]
fn pdf(sheet: &Sheet) -> Result<Vec<u8>, Problem> {
    crate::print::pdf::pdf(sheet)
        .map_err(|why| Problem::error(format!("the sheet could not be made a PDF: {why}")))
}

#[cfg(not(feature = "pdf"))]
fn pdf(_: &Sheet) -> Result<Vec<u8>, Problem> {
    unreachable!("no sheet is made where none can be written")
}

/// The number of tracks in `folder` from earlier runs that are not among `names`.
///
/// # Errors
/// If the folder of records cannot be read.
pub fn others<'n>(
    folder: &Path,
    names: impl Iterator<Item = &'n str>,
) -> Result<usize, RenderFailure> {
    let names: Vec<&str> = names.collect();
    let tracks = Record::tracks(folder)?;
    let others = tracks.iter().filter(|name| !names.contains(&name.as_str()));
    Ok(others.count())
}
