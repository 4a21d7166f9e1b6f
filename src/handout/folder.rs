//! A handout, laid out beside its tracks: the list of them, the sheet to print and the page that plays them.

use super::page::{self, HandoutPage};
use crate::edition::{Edition, Plan, PlannedTake, name};
use crate::problem::Problem;
#[cfg(feature = "pdf")]
use crate::render::files;
use crate::render::list::{self, Entry};
use crate::render::planned;
use crate::render::reuse::record::Record;
use crate::render::{FileKind, Part};
use crate::score::Take;
use crate::sheet::{self, Paper, Sheet, SheetOptions};
use crate::words::key;
use std::path::{Path, PathBuf};

/// What is laid out in one folder.
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
    /// Whose it is, where it is one player's own.
    pub whose: Option<&'a str>,
    /// The kind of file that the page plays.
    pub kind: FileKind,
    /// Paper of the sheet.
    pub paper: Paper,
}

impl HandedOut<'_> {
    /// Writes list, sheets and page, in the order of practice: that of the tracks' names. What says the same as
    /// before keeps its time. Gives the sheets back, which there are where this build can write PDF.
    ///
    /// # Errors
    /// Where one of them cannot be written, or would replace what is not ours.
    ///
    /// # Panics
    /// Where a track has not been rendered.
    pub fn lay_out(&self) -> Result<Vec<PathBuf>, Problem> {
        let mut takes: Vec<&PlannedTake<'_>> = self.plan.takes.iter().collect();
        takes.sort_by(|a, b| name::order(&a.name, &b.name));
        let of = self.edition.line_origins();
        let mut entries = vec![];
        let mut on_page = vec![];
        for planned in &takes {
            let (entry, take) = self.track(planned, &of);
            on_page.push(take);
            entries.push(entry);
        }
        list::write(self.folder, &entries)?;
        let sheets = self.sheets(&takes)?;
        let paths = sheets.iter().map(|sheet| self.folder.join(&sheet.file));
        let paths = paths.collect();
        let page = HandoutPage {
            edition: self.edition,
            text: self.text,
            pencil_text: self.pencil_text,
            whose: self.whose,
            takes: on_page,
            sheets,
            list: list::NAME,
        };
        page.write(self.folder)?;
        Ok(paths)
    }

    /// A track in the list and on the page.
    fn track<'t>(
        &self,
        planned: &'t PlannedTake<'_>,
        of: &'t [usize],
    ) -> (Entry, page::PageTake<'t>) {
        let name = &planned.name;
        let mut entry = Entry::of(self.folder, name).expect("the track was rendered just now");
        // A folder may hold the same track in other kinds from an earlier run.
        entry.file = Part::Mix.file_name(name, self.kind);
        let record = Record::load(self.folder, name);
        let state = record.and_then(|r| Some(r.file(Part::Mix, self.kind)?.blake3.clone()));
        let take = page::PageTake {
            state: state.unwrap_or_default(),
            title: planned::labels(self.edition.played(), None, &planned.take, 1, 1).take,
            file: entry.file.clone(),
            score: &planned.score,
            of,
        };
        (entry, take)
    }

    /// Writes a sheet for each key. What is printed is the teacher's routine, with the pencil over it.
    fn sheets(&self, takes: &[&PlannedTake<'_>]) -> Result<Vec<page::PageSheet>, Problem> {
        let mut written: Vec<page::PageSheet> = vec![];
        for planned in takes.iter().filter(|_| cfg!(feature = "pdf")) {
            let (title, file) = match planned.take.key {
                0 => ("The sheet".to_owned(), "sheet.pdf".to_owned()),
                key => (
                    format!("The sheet {}", key::moved(key)),
                    format!("sheet {}.pdf", name::key(key)),
                ),
            };
            if written.iter().any(|there| there.file == file) {
                continue;
            }
            let as_written = Take {
                key: planned.take.key,
                ..Take::default()
            };
            // The pupil's marks may leave something to play where the print has nothing.
            let Ok(score) = self.edition.printed(&as_written) else {
                continue;
            };
            let options = SheetOptions {
                paper: self.paper,
                ..SheetOptions::default()
            };
            let sheet = sheet::engrave_marked(&score, &options, self.edition.pencil());
            let content = put_sheet(self.folder, &file, &sheet)?;
            written.push(page::PageSheet {
                title,
                file,
                content,
            });
        }
        Ok(written)
    }
}

/// Writes a sheet, unless it stands there already. Gives back what stands in the file.
#[cfg(feature = "pdf")]
fn put_sheet(folder: &Path, name: &str, sheet: &Sheet) -> Result<Vec<u8>, Problem> {
    let content = crate::print::pdf::pdf(sheet)
        .map_err(|why| Problem::error(format!("the sheet could not be made a PDF: {why}")))?;
    files::put_over(folder, name, &content, crate::print::pdf::is_ours)?;
    Ok(content)
}

#[cfg(not(feature = "pdf"))]
fn put_sheet(_: &Path, _: &str, _: &Sheet) -> Result<Vec<u8>, Problem> {
    unreachable!("no sheet is made where none can be written")
}

/// How many tracks `folder` has of earlier runs that are none of these.
pub fn others<'n>(folder: &Path, names: impl Iterator<Item = &'n str>) -> usize {
    let names: Vec<&str> = names.collect();
    let tracks = Record::tracks(folder);
    let others = tracks.iter().filter(|name| !names.contains(&name.as_str()));
    others.count()
}
