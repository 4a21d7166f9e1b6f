//! The frames of a track, unit by unit: copied from where they exist, or rendered.

use super::failure::RenderFailure;
use super::part::TrackPart;
use super::reuse::earlier::{Earlier, Others, holds};
use super::reuse::fingerprint::Fingerprint;
use super::reuse::kept::Kept;
use super::reuse::record::UnitRecord;
use super::reuse::shelf::{Laying, ShelvedLine};
use super::shared::Shared;
use super::track::Track;
use super::watch::Watch;
use super::writer::PartWriter;
use crate::synth::{Block, is_silent};
use crate::timeline::{Content, Timeline, Unit};
use std::path::Path;

/// True for a line, false for a rest.
pub(super) fn is_line(unit: &Unit) -> bool {
    matches!(unit.content, Content::Line(_))
}

/// A track being rendered.
#[derive(Clone, Copy)]
pub(super) struct Rendering<'a> {
    pub shared: &'a Shared<'a>,
    pub number: usize,
    pub track: &'a Track<'a>,
    pub timeline: &'a Timeline,
    pub fingerprint: &'a Fingerprint,
    pub earlier: &'a Earlier,
}

impl Rendering<'_> {
    /// Writes the frames of all units and returns how many lines were rendered. I/O errors are reported at
    /// `path`.
    pub fn sound(
        &self,
        writers: &mut [PartWriter<'_>],
        path: &Path,
    ) -> Result<usize, RenderFailure> {
        let parts: Vec<TrackPart> = writers.iter().map(|writer| writer.part).collect();
        let mut kept = self.earlier.open(self.shared, self.track, &parts);
        let mut others = Others::open(self.shared, &self.track.like, &parts);
        let (folder, shelf) = (self.shared.folder, self.shared.shelf);
        let mut laying = shelf.map(|shelf| Laying::new(shelf, folder, &parts));
        let (mut rendered, mut end) = (0, 0);
        let mut to = Sounding {
            shared: self.shared,
            writers,
            path,
            progress: Progress {
                watch: self.shared.watch,
                number: self.number,
                unreported: 0,
            },
        };
        for (unit, hash) in self.timeline.units.iter().zip(&self.fingerprint.units) {
            assert_eq!(unit.first_frame, end, "units follow each other");
            end += unit.frames;
            let record = self.earlier.record.as_ref();
            let before = record.and_then(|record| record.unit(hash, unit.frames));
            if is_silent(unit) {
                to.silence(unit)?;
            } else if let (Some(kept), Some(before)) = (&mut kept, before)
                && holds(kept, before)
            {
                to.copy(before, kept)?;
            } else if let Some((there, kept)) = others.find(hash, unit.frames) {
                to.copy(&there, kept)?;
            } else if let Some(line) = shelf.and_then(|shelf| shelf.find(hash, &parts)) {
                to.take_down(unit, &line)?;
            } else {
                rendered += usize::from(is_line(unit));
                let wanted = laying.as_mut().and_then(|laying| {
                    let wanted = is_line(unit) && laying.begin(hash);
                    wanted.then_some(laying)
                });
                to.perform(unit, wanted)?;
            }
        }
        to.progress.say();
        assert_eq!(self.timeline.frames, end, "units fill the track");
        Ok(rendered)
    }
}

/// Where the frames are written to.
struct Sounding<'s, 'f> {
    shared: &'s Shared<'s>,
    writers: &'s mut [PartWriter<'f>],
    /// The path that I/O errors are reported at.
    path: &'s Path,
    progress: Progress<'s>,
}

impl Sounding<'_, '_> {
    /// Renders a unit, and stores it on the shelf if other tracks need it.
    fn perform(
        &mut self,
        unit: &Unit,
        mut laying: Option<&mut Laying<'_>>,
    ) -> Result<(), RenderFailure> {
        /// Frames of a piece on the shelf.
        const PIECE: usize = 1 << 14;
        let mut performance = self.shared.engine.get().perform(unit);
        let mut block = Block::SILENT;
        let writers = &mut *self.writers;
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
                let written = writer.block(&block, n);
                written.map_err(RenderFailure::at(self.path))?;
            }
            self.progress.add(n as u64);
        }
        if let Some(laying) = laying {
            laying.end();
            writers.iter_mut().for_each(|w| w.gather(false));
        }
        Ok(())
    }

    /// Copies a line from the shelf.
    fn take_down(&mut self, unit: &Unit, line: &ShelvedLine) -> Result<(), RenderFailure> {
        let copied = line.read(|part, bytes| {
            self.shared.go_on().map_err(Cut::Failure)?;
            self.writers[part].encoded(bytes).map_err(Cut::System)
        });
        copied.map_err(|cut| cut.at(self.path))?;
        self.progress.add(unit.frames);
        Ok(())
    }

    fn silence(&mut self, unit: &Unit) -> Result<(), RenderFailure> {
        const AT_ONCE: u64 = 1 << 14;
        let mut left = unit.frames;
        while left > 0 {
            self.shared.go_on()?;
            let n = left.min(AT_ONCE);
            for writer in self.writers.iter_mut() {
                let written = writer.silence(n as usize);
                written.map_err(RenderFailure::at(self.path))?;
            }
            left -= n;
            self.progress.add(n);
        }
        Ok(())
    }

    /// Copies a unit from the files of a track, one for each writer.
    fn copy(&mut self, before: &UnitRecord, kept: &mut [Kept]) -> Result<(), RenderFailure> {
        for (kept, writer) in kept.iter_mut().zip(self.writers.iter_mut()) {
            let copied = kept.read(before.first_frame, before.frames, |bytes| {
                self.shared.go_on().map_err(Cut::Failure)?;
                writer.encoded(bytes).map_err(Cut::System)
            });
            copied.map_err(|cut| cut.at(self.path))?;
        }
        self.progress.add(before.frames);
        Ok(())
    }
}

/// What can interrupt a copy.
pub(super) enum Cut {
    System(std::io::Error),
    Failure(RenderFailure),
}

impl Cut {
    pub fn at(self, path: &Path) -> RenderFailure {
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

/// Counts the frames done and reports them to the watch at intervals.
struct Progress<'a> {
    watch: &'a dyn Watch,
    number: usize,
    unreported: u64,
}

impl Progress<'_> {
    fn add(&mut self, frames: u64) {
        const OFTEN_ENOUGH: u64 = 1 << 16;
        self.unreported += frames;
        if self.unreported >= OFTEN_ENOUGH {
            self.say();
        }
    }

    fn say(&mut self) {
        self.watch.moved(self.number, self.unreported);
        self.unreported = 0;
    }
}
