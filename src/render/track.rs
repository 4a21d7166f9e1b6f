//! One track: what can be left or copied from an earlier run, and rendering the rest.

use super::batch::LazyEngine;
use super::earlier::{Earlier, Others};
use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::fingerprint::Fingerprint;
use super::kept::Kept;
use super::labels::Labels;
use super::part::Part;
use super::record::{FileRecord, Record, UnitRecord};
use super::writer::{NewFile, PartWriter};
use super::{Settings, Watch};
use crate::synth::Block;
use crate::timeline::{Content, Timeline, Unit};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A track to be rendered.
pub struct Track<'a> {
    /// Its name: that of its file without `.wav`.
    pub name: String,
    /// What players show of it.
    pub labels: Labels,
    /// Its length, for sorting the batch and for saying how far it is.
    pub frames: u64,
    /// Other tracks, by folder and name, that may hold lines of it: these are copied, not rendered anew.
    pub like: Vec<(PathBuf, String)>,
    /// What it sounds like, where that is known: then a track that is there needs no timeline.
    pub print: Option<Arc<Fingerprint>>,
    /// How to come by its timeline. Called on the thread that renders it, so that no more timelines
    /// are held than tracks are being rendered.
    pub timeline: Box<dyn Fn() -> Timeline + Send + Sync + 'a>,
}

/// A track that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finished {
    /// Its number in the batch.
    pub track: usize,
    /// Its length.
    pub frames: u64,
    /// Its files, the track itself first.
    pub files: Vec<FinishedFile>,
    /// What had to be done.
    pub made: Made,
    /// Its lines.
    pub lines: usize,
    /// Those of them that were rendered; the others were there, or were copied.
    pub rendered: usize,
}

/// A file of a track that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FinishedFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its length in bytes.
    pub bytes: u64,
    /// False if it was there already, and as it should be.
    pub written: bool,
}

/// What had to be done for a track.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// Nothing: it was there already.
    Unchanged,
    /// All of it, for the first time.
    New,
    /// It was there, but not like this.
    Again {
        /// Lines that were rendered; the others were copied from the track as it was.
        rendered: usize,
        /// Lines of the track.
        lines: usize,
        /// True if a file no longer was what its record said.
        altered: bool,
    },
}

/// What the tracks of a batch share.
pub(super) struct Shared<'a> {
    pub folder: &'a Path,
    pub settings: &'a Settings,
    pub engine: &'a LazyEngine,
    pub stopped: &'a (dyn Fn() -> bool + Sync),
    pub watch: &'a dyn Watch,
}

impl Shared<'_> {
    pub fn go_on(&self) -> Result<(), RenderFailure> {
        if (self.stopped)() {
            Err(RenderFailure::Stopped)
        } else {
            Ok(())
        }
    }
}

/// Renders one track, or finds that it need not.
pub(super) fn render(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Finished, RenderFailure> {
    shared.go_on()?;
    let title = track.labels.title();
    let labels = track.labels.print().to_hex().to_string();
    if let Some(print) = &track.print {
        let earlier = Earlier::look(shared, track, print, &labels)?;
        if let Some(record) = earlier.unchanged(&title) {
            shared.watch.began(number, record.frames());
            return Ok(unchanged(shared, number, &earlier, record));
        }
    }
    let timeline = (track.timeline)();
    shared.watch.began(number, timeline.frames);
    let print = Fingerprint::of(&timeline);
    let earlier = Earlier::look(shared, track, &print, &labels)?;
    if let Some(record) = earlier.unchanged(&title) {
        return Ok(unchanged(shared, number, &earlier, record));
    }
    let lines = timeline.units.iter().filter(|u| is_line(u)).count();
    let missing: Vec<_> = earlier.missing().collect();

    let (new, rendered) = Rendering {
        shared,
        number,
        track,
        timeline: &timeline,
        print: &print,
        earlier: &earlier,
    }
    .write(&missing, &labels)?;
    let made = if missing.is_empty() {
        Made::Unchanged
    } else if earlier.existed {
        Made::Again {
            rendered,
            lines,
            altered: earlier.altered,
        }
    } else {
        Made::New
    };
    let files = listed(shared, &earlier, &new);
    let current = earlier
        .wanted
        .iter()
        .filter_map(|file| file.current.clone());
    Record::new(
        shared.settings,
        &title,
        &timeline,
        &print,
        current.chain(new).collect(),
    )
    .save(shared.folder, &track.name)
    .map_err(RenderFailure::at(
        &shared.folder.join(super::record::FOLDER),
    ))?;
    Ok(Finished {
        track: number,
        frames: timeline.frames,
        files,
        made,
        lines,
        rendered,
    })
}

/// What there is to say of a track that was there already.
fn unchanged(shared: &Shared<'_>, number: usize, earlier: &Earlier, record: &Record) -> Finished {
    Finished {
        track: number,
        frames: record.frames(),
        files: listed(shared, earlier, &[]),
        made: Made::Unchanged,
        lines: record.lines(),
        rendered: 0,
    }
}

/// The wanted files in order: those that were there, and the new ones.
fn listed(shared: &Shared<'_>, earlier: &Earlier, new: &[FileRecord]) -> Vec<FinishedFile> {
    let files = earlier.wanted.iter().filter_map(|wanted| {
        let written = wanted.current.is_none();
        let same = |file: &&FileRecord| (file.part, file.kind) == (wanted.part, wanted.kind);
        let file = wanted.current.as_ref().or_else(|| new.iter().find(same))?;
        Some(FinishedFile {
            path: shared.folder.join(&file.name),
            bytes: file.bytes,
            written,
        })
    });
    files.collect()
}

fn is_line(unit: &Unit) -> bool {
    matches!(unit.content, Content::Line(_))
}

/// A rest without signs: no need to ask the engine what it sounds like.
fn is_silent(unit: &Unit) -> bool {
    matches!(&unit.content, Content::Rest(rest) if rest.signs.is_empty())
}

/// A track being rendered.
struct Rendering<'a> {
    shared: &'a Shared<'a>,
    number: usize,
    track: &'a Track<'a>,
    timeline: &'a Timeline,
    print: &'a Fingerprint,
    earlier: &'a Earlier,
}

impl Rendering<'_> {
    /// Writes these files, then gives them their names. Says how many lines were rendered.
    fn write(
        &self,
        missing: &[(Part, FileKind)],
        labels: &str,
    ) -> Result<(Vec<FileRecord>, usize), RenderFailure> {
        let (folder, settings) = (self.shared.folder, self.shared.settings);
        if missing.is_empty() {
            return Ok((vec![], 0));
        }
        let path =
            |(part, kind): &(Part, FileKind)| folder.join(part.file_name(&self.track.name, *kind));
        if let Some(path) = missing.iter().map(path).find(|path| path.is_dir()) {
            return Err(RenderFailure::FolderInTheWay(path));
        }
        // What the system refuses is said of the track, not of the passing names.
        let first = path(&missing[0]);
        let at = || RenderFailure::at(&first);
        let mut files = missing
            .iter()
            .map(|file| NewFile::begin(folder, &self.track.name, *file, settings, self.timeline))
            .collect::<Result<Vec<_>, _>>()
            .map_err(at())?;
        let mut writers =
            PartWriter::begin(&mut files, settings, &self.track.labels, self.timeline)?;
        let rendered = self.sound(&mut writers, &first)?;
        for writer in writers {
            writer.end().map_err(at())?;
        }
        for file in &mut files {
            file.complete(settings, self.timeline).map_err(at())?;
        }
        // The last moment to turn back: from here on the tracks as they were are replaced.
        self.shared.go_on()?;
        let mut done = Vec::new();
        for file in files {
            let (part, kind, name) = (file.part, file.kind, file.name.clone());
            let look = file.finish()?;
            let labels = kind.is_labelled().then(|| labels.to_owned());
            done.push(FileRecord::new(part, kind, labels, name, look));
        }
        Ok((done, rendered))
    }

    /// Writes the frames of all units and says how many lines were rendered.
    fn sound(&self, writers: &mut [PartWriter<'_>], path: &Path) -> Result<usize, RenderFailure> {
        let parts: Vec<Part> = writers.iter().map(|writer| writer.part).collect();
        let mut kept = self.earlier.open(self.shared, self.track, &parts);
        let mut others = Others::open(self.shared, &self.track.like, &parts);
        let mut rendered = 0;
        let mut end = 0;
        let mut progress = Progress {
            watch: self.shared.watch,
            number: self.number,
            unsaid: 0,
        };
        for (unit, hash) in self.timeline.units.iter().zip(&self.print.units) {
            let before = self
                .earlier
                .record
                .as_ref()
                .and_then(|record| record.unit(hash, unit.frames));
            assert_eq!(unit.first_frame, end, "units follow each other");
            end += unit.frames;
            match (&mut kept, before) {
                _ if is_silent(unit) => self.silence(unit, writers, path, &mut progress)?,
                (Some(kept), Some(before)) if holds(kept, before) => {
                    self.copy(before, kept, writers, path, &mut progress)?;
                }
                _ => match others.find(hash, unit.frames) {
                    Some((there, kept)) => self.copy(&there, kept, writers, path, &mut progress)?,
                    None => {
                        rendered += usize::from(is_line(unit));
                        self.perform(unit, writers, path, &mut progress)?;
                    }
                },
            }
        }
        progress.say();
        assert_eq!(self.timeline.frames, end, "units fill the track");
        Ok(rendered)
    }

    fn perform(
        &self,
        unit: &Unit,
        writers: &mut [PartWriter<'_>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        let mut performance = self.shared.engine.get().perform(unit);
        let mut block = Block::SILENT;
        loop {
            self.shared.go_on()?;
            let n = performance.next_block(&mut block);
            if n == 0 {
                return Ok(());
            }
            self.shared.settings.balance.apply(&mut block);
            for writer in writers.iter_mut() {
                writer.block(&block, n).map_err(RenderFailure::at(path))?;
            }
            progress.add(n as u64);
        }
    }

    fn silence(
        &self,
        unit: &Unit,
        writers: &mut [PartWriter<'_>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        const AT_ONCE: u64 = 1 << 14;
        let mut left = unit.frames;
        while left > 0 {
            self.shared.go_on()?;
            let n = left.min(AT_ONCE);
            for writer in writers.iter_mut() {
                writer
                    .silence(n as usize)
                    .map_err(RenderFailure::at(path))?;
            }
            left -= n;
            progress.add(n);
        }
        Ok(())
    }

    fn copy(
        &self,
        before: &UnitRecord,
        kept: &mut [Kept],
        writers: &mut [PartWriter<'_>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        for (kept, writer) in kept.iter_mut().zip(writers) {
            let copied = kept.read(before.first_frame, before.frames, |bytes| {
                self.shared.go_on().map_err(Cut::Failure)?;
                writer.encoded(bytes).map_err(Cut::System)
            });
            copied.map_err(|cut| match cut {
                Cut::System(error) => RenderFailure::at(path)(error),
                Cut::Failure(failure) => failure,
            })?;
        }
        progress.add(before.frames);
        Ok(())
    }
}

/// What can end a copy.
enum Cut {
    System(std::io::Error),
    Failure(RenderFailure),
}

impl From<std::io::Error> for Cut {
    fn from(error: std::io::Error) -> Self {
        Cut::System(error)
    }
}

/// True if all of these files hold the unit.
pub(super) fn holds(kept: &[Kept], before: &UnitRecord) -> bool {
    kept.iter()
        .all(|kept| kept.holds(before.first_frame, before.frames))
}

/// Frames done, told to the watch now and then.
struct Progress<'a> {
    watch: &'a dyn Watch,
    number: usize,
    unsaid: u64,
}

impl Progress<'_> {
    fn add(&mut self, frames: u64) {
        const OFTEN_ENOUGH: u64 = 1 << 16;
        self.unsaid += frames;
        if self.unsaid >= OFTEN_ENOUGH {
            self.say();
        }
    }

    fn say(&mut self) {
        self.watch.moved(self.number, self.unsaid);
        self.unsaid = 0;
    }
}
