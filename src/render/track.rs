//! One track: what can be left or copied from an earlier run, and rendering the rest.

use super::batch::LazyEngine;
use super::earlier::{self, Earlier, Others};
use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::fingerprint::Fingerprint;
use super::kept::Kept;
use super::labels::Labels;
use super::part::Part;
use super::record::{FileRecord, Record, UnitRecord};
use super::shelf::{Laid, Laying, Shelf};
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
    /// A track, by folder and name, that sounds the same from beginning to end and is labelled and packed as this
    /// program does it now: its FLAC and MP3 files are copied but for their labels.
    pub twin: Option<(PathBuf, String)>,
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
    /// Whether its sound was packed for it; none for a kind of file that holds it as it is.
    pub packed: Option<bool>,
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
    pub shelf: Option<&'a Shelf>,
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

/// A track that is there as it should be: nothing has to be done for it. Only told of one whose sound is known.
pub(super) fn unchanged(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Option<Finished>, RenderFailure> {
    let Some(print) = &track.print else {
        return Ok(None);
    };
    let labels = track.labels.print().to_hex().to_string();
    let earlier = Earlier::look(shared, track, print, &labels)?;
    Ok(is_there(shared, number, track, &earlier))
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
    let look = |print: &Fingerprint| Earlier::look(shared, track, print, &labels);
    let mut looked = None;
    if let Some(print) = &track.print {
        let earlier = look(print)?;
        if let Some(finished) = is_there(shared, number, track, &earlier) {
            return Ok(finished);
        }
        looked = Some((Arc::clone(print), earlier));
    }
    let timeline = (track.timeline)();
    let (print, earlier) = match looked {
        Some(looked) => looked,
        None => {
            let print = Arc::new(Fingerprint::of(&timeline));
            let earlier = look(&print)?;
            if let Some(finished) = is_there(shared, number, track, &earlier) {
                return Ok(finished);
            }
            (print, earlier)
        }
    };
    shared.watch.began(number, timeline.frames);
    let lines = timeline.units.iter().filter(|u| is_line(u)).count();
    let missing: Vec<_> = earlier.missing().collect();

    let Written {
        files: new,
        copied,
        rendered,
    } = Rendering {
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
    let files = listed(shared, &earlier, &new, &copied);
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

/// What there is to say of a track if it was there already.
fn is_there(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
    earlier: &Earlier,
) -> Option<Finished> {
    let record = earlier.unchanged(&track.labels.title())?;
    shared.watch.began(number, record.frames());
    Some(Finished {
        track: number,
        frames: record.frames(),
        files: listed(shared, earlier, &[], &[]),
        made: Made::Unchanged,
        lines: record.lines(),
        rendered: 0,
    })
}

/// The wanted files in order: those that were there, and the new ones.
fn listed(
    shared: &Shared<'_>,
    earlier: &Earlier,
    new: &[FileRecord],
    copied: &[(Part, FileKind)],
) -> Vec<FinishedFile> {
    let files = earlier.wanted.iter().filter_map(|wanted| {
        let written = wanted.current.is_none();
        let which = (wanted.part, wanted.kind);
        let same = |file: &&FileRecord| (file.part, file.kind) == which;
        let file = wanted.current.as_ref().or_else(|| new.iter().find(same))?;
        let packed = written && !copied.contains(&which);
        Some(FinishedFile {
            path: shared.folder.join(&file.name),
            bytes: file.bytes,
            written,
            packed: wanted.kind.is_labelled().then_some(packed),
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

/// What was written of a track.
#[derive(Default)]
struct Written {
    files: Vec<FileRecord>,
    /// Those of them whose sound was copied as it is packed in another track's file.
    copied: Vec<(Part, FileKind)>,
    /// How many lines were rendered.
    rendered: usize,
}

impl Rendering<'_> {
    /// Writes these files, then gives them their names.
    fn write(&self, missing: &[(Part, FileKind)], labels: &str) -> Result<Written, RenderFailure> {
        let (folder, settings) = (self.shared.folder, self.shared.settings);
        if missing.is_empty() {
            return Ok(Written::default());
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
        let mut copied = vec![];
        for file in &mut files {
            let which = (file.part, file.kind);
            if let Some(packed) = earlier::packed(self.shared, self.track, self.print, which) {
                let go_on = || self.shared.go_on().map_err(Cut::Failure);
                file.copy(packed, settings, &self.track.labels, self.timeline, go_on)
                    .map_err(|cut| cut.at(&first))?;
                copied.push(which);
            }
        }
        let to_render = files
            .iter_mut()
            .filter(|file| !copied.contains(&(file.part, file.kind)));
        let mut writers =
            PartWriter::begin(to_render, settings, &self.track.labels, self.timeline)?;
        let rendered = if writers.is_empty() {
            self.shared.watch.moved(self.number, self.timeline.frames);
            0
        } else {
            self.sound(&mut writers, &first)?
        };
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
        Ok(Written {
            files: done,
            copied,
            rendered,
        })
    }

    /// Writes the frames of all units and says how many lines were rendered.
    fn sound(&self, writers: &mut [PartWriter<'_>], path: &Path) -> Result<usize, RenderFailure> {
        let parts: Vec<Part> = writers.iter().map(|writer| writer.part).collect();
        let mut kept = self.earlier.open(self.shared, self.track, &parts);
        let mut others = Others::open(self.shared, &self.track.like, &parts);
        let folder = self.shared.folder;
        let mut laying = self
            .shared
            .shelf
            .map(|shelf| Laying::new(shelf, folder, &parts));
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
                _ => {
                    let laid = self.shared.shelf.and_then(|shelf| shelf.find(hash, &parts));
                    if let Some((there, kept)) = others.find(hash, unit.frames) {
                        self.copy(&there, kept, writers, path, &mut progress)?;
                    } else if let Some(laid) = laid {
                        self.take_down(unit, &laid, writers, path, &mut progress)?;
                    } else {
                        rendered += usize::from(is_line(unit));
                        let wanted = laying.as_mut().and_then(|laying| {
                            let wanted = is_line(unit) && laying.begin(hash);
                            wanted.then_some(laying)
                        });
                        self.perform(unit, wanted, writers, path, &mut progress)?;
                    }
                }
            }
        }
        progress.say();
        assert_eq!(self.timeline.frames, end, "units fill the track");
        Ok(rendered)
    }

    /// Renders a unit, and lays it down for others if it is wanted.
    fn perform(
        &self,
        unit: &Unit,
        mut laying: Option<&mut Laying<'_>>,
        writers: &mut [PartWriter<'_>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        /// Frames of a piece on the shelf.
        const PIECE: usize = 1 << 14;
        let mut performance = self.shared.engine.get().perform(unit);
        let mut block = Block::SILENT;
        writers.iter_mut().for_each(|w| w.gather(laying.is_some()));
        let mut gathered = 0;
        loop {
            self.shared.go_on()?;
            let n = performance.next_block(&mut block);
            gathered += n;
            if let Some(laying) = laying.as_mut().filter(|_| n == 0 || gathered >= PIECE) {
                laying.piece(writers.iter().map(PartWriter::gathered));
                writers.iter_mut().for_each(PartWriter::clear_gathered);
                gathered = n;
            }
            if n == 0 {
                break;
            }
            self.shared.settings.balance.apply(&mut block);
            for writer in writers.iter_mut() {
                writer.block(&block, n).map_err(RenderFailure::at(path))?;
            }
            progress.add(n as u64);
        }
        if let Some(laying) = laying {
            laying.end();
            writers.iter_mut().for_each(|w| w.gather(false));
        }
        Ok(())
    }

    /// Copies a line from the shelf.
    fn take_down(
        &self,
        unit: &Unit,
        laid: &Laid,
        writers: &mut [PartWriter<'_>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        let copied = laid.read(|part, bytes| {
            self.shared.go_on().map_err(Cut::Failure)?;
            writers[part].encoded(bytes).map_err(Cut::System)
        });
        copied.map_err(|cut| cut.at(path))?;
        progress.add(unit.frames);
        Ok(())
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
            copied.map_err(|cut| cut.at(path))?;
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

impl Cut {
    fn at(self, path: &Path) -> RenderFailure {
        match self {
            Cut::System(error) => RenderFailure::at(path)(error),
            Cut::Failure(failure) => failure,
        }
    }
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
