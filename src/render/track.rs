//! One track: what can be left or copied from an earlier run, and rendering the rest.

use super::batch::LazyEngine;
use super::failure::RenderFailure;
use super::fingerprint::Fingerprint;
use super::growing::{self, Growing};
use super::kept::Kept;
use super::part::Part;
use super::record::{FileRecord, Record, UnitRecord};
use super::wave::{self, Format, Wave};
use super::{Settings, Watch};
use crate::synth::{BLOCK, Block};
use crate::timeline::{Content, Timeline, Unit};
use std::fs;
use std::io::{Seek, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A track to be rendered.
pub struct Track<'a> {
    /// Its name: that of its file without `.wav`.
    pub name: String,
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
    /// Its files, the track itself first, and their lengths in bytes.
    pub files: Vec<(PathBuf, u64)>,
    /// What had to be done.
    pub made: Made,
    /// Its lines.
    pub lines: usize,
    /// Those of them that were rendered; the others were there, or were copied.
    pub rendered: usize,
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
    fn go_on(&self) -> Result<(), RenderFailure> {
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
    let earlier = Earlier::look(shared, track)?;
    if let (Some(print), Some(record)) = (&track.print, &earlier.record)
        && let Some(files) = earlier.unchanged(print, shared)
    {
        shared.watch.began(number, record.frames());
        return Ok(Finished {
            track: number,
            frames: record.frames(),
            files,
            made: Made::Unchanged,
            lines: record.lines(),
            rendered: 0,
        });
    }
    let timeline = (track.timeline)();
    shared.watch.began(number, timeline.frames);
    let print = Fingerprint::of(&timeline);
    let lines = timeline.units.iter().filter(|u| is_line(u)).count();
    if let Some(files) = earlier.unchanged(&print, shared) {
        return Ok(Finished {
            track: number,
            frames: timeline.frames,
            files,
            made: Made::Unchanged,
            lines,
            rendered: 0,
        });
    }

    let (files, rendered) = Rendering {
        shared,
        number,
        track,
        timeline: &timeline,
        print: &print,
        earlier: &earlier,
    }
    .write()?;
    let made = if earlier.existed {
        Made::Again {
            rendered,
            lines,
            altered: earlier.altered,
        }
    } else {
        Made::New
    };
    let listed = files
        .iter()
        .map(|file| (shared.folder.join(&file.name), file.bytes))
        .collect();
    Record::new(shared.settings, &timeline, &print, files)
        .save(shared.folder, &track.name)
        .map_err(RenderFailure::at(
            &shared.folder.join(super::record::FOLDER),
        ))?;
    Ok(Finished {
        track: number,
        frames: timeline.frames,
        files: listed,
        made,
        lines,
        rendered,
    })
}

fn is_line(unit: &Unit) -> bool {
    matches!(unit.content, Content::Line(_))
}

/// A rest without signs: no need to ask the engine what it sounds like.
fn is_silent(unit: &Unit) -> bool {
    matches!(&unit.content, Content::Rest(rest) if rest.signs.is_empty())
}

/// What an earlier run left of a track.
struct Earlier {
    /// The record, if it holds for this engine and format.
    record: Option<Record>,
    /// The parts wanted: the track, its stems if asked for, and the stems that are there, for they
    /// would be out of step otherwise.
    parts: Vec<Part>,
    /// True if every wanted part is there as it was recorded.
    intact: bool,
    /// True if a track of this name was there.
    existed: bool,
    /// True if a file no longer is what its record said.
    altered: bool,
}

impl Earlier {
    fn look(shared: &Shared<'_>, track: &Track<'_>) -> Result<Self, RenderFailure> {
        let settings = shared.settings;
        let record = Record::load(shared.folder, &track.name);
        let mut altered = false;
        let mut parts = vec![Part::Mix];
        let mut intact = true;
        for part in Part::ALL {
            let state = record.as_ref().map_or(State::Unknown, |record| {
                state(shared, shared.folder, &track.name, record, part)
            });
            let wanted = part == Part::Mix || settings.stems || state == State::Intact;
            if wanted && part != Part::Mix {
                parts.push(part);
            }
            intact &= !wanted || state == State::Intact;
            altered |= wanted && state == State::Altered;
            shared.go_on()?;
        }
        let existed = shared
            .folder
            .join(Part::Mix.file_name(&track.name))
            .exists();
        Ok(Self {
            record: record.filter(|r| !settings.force && r.same_engine(settings)),
            parts,
            intact,
            existed,
            altered,
        })
    }

    /// The files, if nothing is to be done.
    fn unchanged(&self, print: &Fingerprint, shared: &Shared<'_>) -> Option<Vec<(PathBuf, u64)>> {
        let record = self.record.as_ref()?;
        if !self.intact || !record.same_timeline(print) {
            return None;
        }
        self.parts
            .iter()
            .map(|part| {
                let file = record.file(*part)?;
                Some((shared.folder.join(&file.name), file.bytes))
            })
            .collect()
    }

    /// The files to copy from, one a part, if every one of them can be.
    fn open(&self, shared: &Shared<'_>, track: &Track<'_>) -> Option<Vec<Kept>> {
        if !self.intact || self.record.is_none() {
            return None;
        }
        self.parts
            .iter()
            .map(|part| {
                let path = shared.folder.join(part.file_name(&track.name));
                Kept::open(&path, shared.settings.format(*part)).ok()
            })
            .collect()
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// There is no such file, or no record of it.
    Unknown,
    /// The file is as it was recorded.
    Intact,
    /// The file is another than was recorded.
    Altered,
}

fn state(shared: &Shared<'_>, folder: &Path, track: &str, record: &Record, part: Part) -> State {
    // The name is made anew, never taken from the record: nobody's record points out of the folder.
    let name = part.file_name(track);
    let Some(file) = record.file(part).filter(|file| file.name == name) else {
        return State::Unknown;
    };
    let path = folder.join(name);
    let Some(metadata) = fs::symlink_metadata(&path).ok().filter(|m| m.is_file()) else {
        return State::Unknown;
    };
    let looks_alike = growing::size_and_time(&metadata) == (file.bytes, file.modified_ns);
    let reads_alike =
        || growing::hash_of(&path, &|| !(shared.stopped)()).is_ok_and(|hash| hash == file.blake3);
    if looks_alike && (!shared.settings.verify || reads_alike()) {
        State::Intact
    } else {
        State::Altered
    }
}

/// Other tracks that may hold what this one needs, each with its files, one a part.
struct Others(Vec<(Record, Vec<Kept>)>);

impl Others {
    /// Opens those that are there as they were recorded, with every part that is wanted.
    fn open(shared: &Shared<'_>, like: &[(PathBuf, String)], parts: &[Part]) -> Self {
        let open = |(folder, name): &(PathBuf, String)| {
            let record = Record::load(folder, name).filter(|r| r.same_engine(shared.settings))?;
            let kept = parts.iter().map(|part| {
                if state(shared, folder, name, &record, *part) != State::Intact {
                    return None;
                }
                let path = folder.join(part.file_name(name));
                Kept::open(&path, shared.settings.format(*part)).ok()
            });
            let kept = kept.collect::<Option<Vec<Kept>>>()?;
            Some((record, kept))
        };
        Self(like.iter().filter_map(open).collect())
    }

    /// The unit that sounds like this, if one of them holds it.
    fn find(&mut self, hash: &blake3::Hash, frames: u64) -> Option<(UnitRecord, &mut Vec<Kept>)> {
        self.0.iter_mut().find_map(|(record, kept)| {
            let unit = record.unit(hash, frames).filter(|unit| holds(kept, unit))?;
            Some((unit.clone(), kept))
        })
    }
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
    /// Writes every part, then gives them their names. Says how many lines were rendered.
    fn write(&self) -> Result<(Vec<FileRecord>, usize), RenderFailure> {
        let folder = self.shared.folder;
        let settings = self.shared.settings;
        let parts = &self.earlier.parts;
        let paths: Vec<PathBuf> = parts
            .iter()
            .map(|part| folder.join(part.file_name(&self.track.name)))
            .collect();
        if let Some(path) = paths.iter().find(|path| path.is_dir()) {
            return Err(RenderFailure::FolderInTheWay(path.clone()));
        }
        // What the system refuses is said of the track, not of the passing names.
        let at = || RenderFailure::at(&paths[0]);

        let frames = self.timeline.frames;
        let formats: Vec<Format> = parts.iter().map(|part| settings.format(*part)).collect();
        let tail = |format| wave::tail(format, frames, &self.timeline.cues);
        let mut files = formats
            .iter()
            .map(|format| {
                let head = wave::head(*format, frames, tail(*format).len())?;
                Growing::begin(folder, head)
            })
            .collect::<Result<Vec<_>, _>>()
            .map_err(at())?;
        let mut waves = files
            .iter_mut()
            .zip(&formats)
            .map(|(file, format)| Wave::begin(file.sink(), *format))
            .collect::<Result<Vec<_>, _>>()
            .map_err(at())?;
        let rendered = self.sound(&mut waves, &paths[0])?;
        for wave in waves {
            wave.end().map_err(at())?;
        }
        for (file, format) in files.iter_mut().zip(&formats) {
            file.complete(&tail(*format)).map_err(at())?;
        }
        // The last moment to turn back: from here on the tracks as they were are replaced.
        self.shared.go_on()?;
        let mut done = Vec::new();
        for ((part, path), file) in parts.iter().zip(&paths).zip(files) {
            let look = file.finish(path).map_err(RenderFailure::at(path))?;
            done.push(FileRecord::new(
                *part,
                part.file_name(&self.track.name),
                look,
            ));
        }
        Ok((done, rendered))
    }

    /// Writes the frames of all units and says how many lines were rendered.
    fn sound<W: Write + Seek>(
        &self,
        waves: &mut [Wave<'_, W>],
        path: &Path,
    ) -> Result<usize, RenderFailure> {
        let mut kept = self.earlier.open(self.shared, self.track);
        let mut others = Others::open(self.shared, &self.track.like, &self.earlier.parts);
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
                _ if is_silent(unit) => self.silence(unit, waves, path, &mut progress)?,
                (Some(kept), Some(before)) if holds(kept, before) => {
                    self.copy(before, kept, waves, path, &mut progress)?;
                }
                _ => match others.find(hash, unit.frames) {
                    Some((there, kept)) => self.copy(&there, kept, waves, path, &mut progress)?,
                    None => {
                        rendered += usize::from(is_line(unit));
                        self.perform(unit, waves, path, &mut progress)?;
                    }
                },
            }
        }
        progress.say();
        assert_eq!(self.timeline.frames, end, "units fill the track");
        Ok(rendered)
    }

    fn perform<W: Write + Seek>(
        &self,
        unit: &Unit,
        waves: &mut [Wave<'_, W>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        let mut performance = self.shared.engine.get().perform(unit);
        let mut block = Block::SILENT;
        let settings = self.shared.settings;
        let mut samples = [0.0; 2 * BLOCK];
        loop {
            self.shared.go_on()?;
            let n = performance.next_block(&mut block);
            if n == 0 {
                return Ok(());
            }
            let parts = self.earlier.parts.iter();
            settings.balance.apply(&mut block);
            for (part, wave) in parts.zip(waves.iter_mut()) {
                let samples = &mut samples[..n * settings.format(*part).channels.number()];
                part.of(&block, settings.spread, samples);
                wave.write(samples).map_err(RenderFailure::at(path))?;
            }
            progress.add(n as u64);
        }
    }

    fn silence<W: Write + Seek>(
        &self,
        unit: &Unit,
        waves: &mut [Wave<'_, W>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        const AT_ONCE: u64 = 1 << 14;
        let mut left = unit.frames;
        while left > 0 {
            self.shared.go_on()?;
            let n = left.min(AT_ONCE);
            for wave in waves.iter_mut() {
                wave.silence(n as usize).map_err(RenderFailure::at(path))?;
            }
            left -= n;
            progress.add(n);
        }
        Ok(())
    }

    fn copy<W: Write + Seek>(
        &self,
        before: &UnitRecord,
        kept: &mut [Kept],
        waves: &mut [Wave<'_, W>],
        path: &Path,
        progress: &mut Progress<'_>,
    ) -> Result<(), RenderFailure> {
        for (kept, wave) in kept.iter_mut().zip(waves) {
            let copied = kept.read(before.first_frame, before.frames, |bytes| {
                self.shared.go_on().map_err(Cut::Failure)?;
                wave.write_encoded(bytes).map_err(Cut::System)
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

fn holds(kept: &[Kept], before: &UnitRecord) -> bool {
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
