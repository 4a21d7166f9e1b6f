//! A handout, laid out beside its tracks: the list of them, the sheet to print and the page that plays them.

use super::{Failure, labels};
use crate::handout::page::PageFailure;
use crate::handout::{Page, Sheet as SheetOnPage, Take as TakeOnPage};
use crate::pencil::{self, Pencil};
use crate::render::list::{self, Entry};
use crate::render::record::Record;
use crate::render::{FileKind, Part, RenderFailure, take_name};
use crate::routine::Routine;
use crate::score::{Take, unroll};
use crate::sheet::{Options, Paper, Sheet, engrave, engrave_pencilled};
use crate::words::key;
#[cfg(feature = "pdf")]
use std::fs;
use std::path::{Path, PathBuf};

/// What is laid out in one folder.
pub struct HandedOut<'a> {
    /// The folder with the tracks.
    pub folder: &'a Path,
    /// What is played.
    pub routine: &'a Routine,
    /// What the teacher wrote, which is printed.
    pub teacher: &'a Routine,
    /// The text of its file.
    pub text: &'a str,
    /// The marks that make the one of the other, drawn over the print.
    pub pencil: Option<&'a Pencil>,
    /// The text of their file.
    pub pencil_text: Option<&'a str>,
    /// Whose it is, where it is one player's own.
    pub whose: Option<&'a str>,
    /// Names and takes of the tracks, in any order.
    pub takes: Vec<(&'a str, &'a Take)>,
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
    pub fn lay_out(mut self) -> Result<Vec<PathBuf>, Failure> {
        self.takes.sort_by(|(a, _), (b, _)| take_name::order(a, b));
        let of: Vec<usize> = match self.pencil {
            None => (0..self.routine.lines.len()).collect(),
            Some(pencil) => {
                let laid = pencil::lay(pencil, self.teacher);
                laid.lines.iter().map(|line| line.of).collect()
            }
        };
        let mut entries = vec![];
        let mut on_page = vec![];
        for (name, take) in &self.takes {
            let mut entry = Entry::of(self.folder, name).expect("the track was rendered just now");
            // A folder may hold the same track in other kinds from an earlier run.
            entry.file = Part::Mix.file_name(name, self.kind);
            let record = Record::load(self.folder, name);
            let state = record.and_then(|r| Some(r.file(Part::Mix, self.kind)?.blake3.clone()));
            on_page.push(TakeOnPage {
                state: state.unwrap_or_default(),
                title: labels::of(self.routine, None, take, 1, 1).take,
                file: entry.file.clone(),
                score: unroll(self.routine, take).expect("it was unrolled when it was planned"),
                of: &of,
            });
            entries.push(entry);
        }
        list::write(self.folder, &entries).map_err(failed)?;
        let sheets = self.sheets()?;
        let paths = sheets.iter().map(|sheet| self.folder.join(&sheet.file));
        let paths = paths.collect();
        let page = Page {
            teacher: self.teacher,
            text: self.text,
            pencil: self.pencil,
            pencil_text: self.pencil_text,
            whose: self.whose,
            takes: on_page,
            sheets,
            list: list::NAME,
        };
        page.write(self.folder).map_err(|failure| match failure {
            PageFailure::Unwritten(failure) => failed(failure),
            PageFailure::NotOurs(path) => not_ours(&path),
        })?;
        Ok(paths)
    }

    /// Writes a sheet for each key. What is printed is the teacher's routine, with the pencil over it.
    fn sheets(&self) -> Result<Vec<SheetOnPage>, Failure> {
        let mut written: Vec<SheetOnPage> = vec![];
        for (_, take) in self.takes.iter().filter(|_| cfg!(feature = "pdf")) {
            let (title, file) = match take.key {
                0 => ("The sheet".to_owned(), "sheet.pdf".to_owned()),
                key => (
                    format!("The sheet {}", key::moved(key)),
                    format!("sheet {}.pdf", take_name::key(key)),
                ),
            };
            if written.iter().any(|there| there.file == file) {
                continue;
            }
            let as_written = Take {
                key: take.key,
                ..Take::default()
            };
            // The pupil's marks may leave something to play where the print has nothing.
            let Ok(score) = unroll(self.teacher, &as_written) else {
                continue;
            };
            let options = Options {
                paper: self.paper,
                ..Options::default()
            };
            let sheet = match self.pencil {
                Some(pencil) => engrave_pencilled(&score, &options, pencil),
                None => engrave(&score, &options),
            };
            let content = put_sheet(self.folder, &file, &sheet)?;
            written.push(SheetOnPage {
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
fn put_sheet(folder: &Path, name: &str, sheet: &Sheet) -> Result<Vec<u8>, Failure> {
    let content = crate::print::pdf::pdf(sheet)
        .map_err(|why| Failure::error(format!("the sheet could not be made a PDF: {why}")))?;
    let path = folder.join(name);
    match fs::read(&path) {
        Ok(there) if there == content => return Ok(content),
        Ok(there) if !crate::print::pdf::is_ours(&there) => return Err(not_ours(&path)),
        _ => {}
    }
    crate::print::files::put(folder, name, &content).map_err(failed)?;
    Ok(content)
}

#[cfg(not(feature = "pdf"))]
fn put_sheet(_: &Path, _: &str, _: &Sheet) -> Result<Vec<u8>, Failure> {
    unreachable!("no sheet is made where none can be written")
}

fn not_ours(path: &Path) -> Failure {
    Failure::error(format!(
        "{} was not made by leadpipe, so it stays as it is",
        path.display()
    ))
    .hint("name a folder of its own with --out")
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
