//! What exists of a track from an earlier run, and so what has still to be written.

use super::fingerprint::Fingerprint;
use super::kept::Kept;
use super::record::{FileRecord, Record, UnitRecord};
use crate::render::failure::RenderFailure;
use crate::render::file_kind::FileKind;
use crate::render::files::{Look, Replace, look, written};
use crate::render::formats::Packed;
use crate::render::part::TrackPart;
use crate::render::shared::Shared;
use crate::render::track::Track;
use std::fs;
use std::path::{Path, PathBuf};

/// What exists of a track from an earlier run.
pub struct Earlier {
    /// The record, if it was made with this engine and format.
    pub record: Option<Record>,
    /// The files wanted, in the order of their parts: the track and its stems in the kinds asked for, and every
    /// other file of the track that exists, because it would be out of date otherwise.
    pub wanted: Vec<WantedFile>,
    /// True if a track of this name existed.
    pub existed: bool,
    /// True if a file differs from its record.
    pub altered: bool,
}

/// A file to be written, or kept if it is current.
pub struct WantedFile {
    pub part: TrackPart,
    pub kind: FileKind,
    /// Its record, if the file exists and is what would be written now.
    pub current: Option<FileRecord>,
    /// Its record, if the file exists as it was written.
    pub intact: Option<FileRecord>,
}

impl Earlier {
    /// Compares what exists with what is wanted.
    ///
    /// # Errors
    /// If somebody's own file is in the way of a file that is to be written, the run is stopped, or the system reports
    /// an error.
    pub fn look(
        shared: &Shared<'_>,
        track: &Track<'_>,
        fingerprint: &Fingerprint,
        labels: &str,
    ) -> Result<Self, RenderFailure> {
        let settings = shared.settings;
        let found = Record::load(shared.folder, &track.name)?;
        let usable = |record: &&Record| !settings.force && record.same_engine(settings);
        let same = found
            .as_ref()
            .filter(usable)
            .filter(|record| record.same_timeline(fingerprint));
        let (mut wanted, mut existed, mut altered) = (vec![], false, false);
        for part in TrackPart::ALL {
            for kind in FileKind::ALL.into_iter().filter(|kind| kind.is_built_in()) {
                let state = found.as_ref().map_or(State::Unknown, |record| {
                    state(shared, shared.folder, &track.name, record, part, kind)
                });
                shared.go_on()?;
                let asked = settings.kinds.has(kind) && (part == TrackPart::Mix || settings.stems);
                if part == TrackPart::Mix && settings.kinds.has(kind) {
                    let name = part.file_name(&track.name, kind);
                    existed |= shared.folder.join(name).exists();
                }
                if !asked && state != State::Intact {
                    continue;
                }
                altered |= state == State::Altered;
                let current = same
                    .filter(|_| state == State::Intact)
                    .and_then(|record| record.file(part, kind))
                    .filter(|file| !kind.is_labelled() || file.labels.as_deref() == Some(labels));
                let intact = found.as_ref().filter(|_| state == State::Intact);
                let intact = intact.and_then(|record| record.file(part, kind));
                wanted.push(WantedFile {
                    part,
                    kind,
                    current: current.cloned(),
                    intact: intact.cloned(),
                });
            }
        }
        let unsure = wanted.iter().filter(|file| file.intact.is_none());
        let names: Vec<String> = unsure
            .map(|file| file.part.file_name(&track.name, file.kind))
            .collect();
        let replace = Replace::forced(settings.force);
        replace.allows_all(shared.folder, names.iter().map(String::as_str))?;
        Ok(Self {
            record: found.filter(|record| usable(&record)),
            wanted,
            existed,
            altered,
        })
    }

    /// Makes the files that are about to be replaced known as leadpipe's: only the record of their track may say so.
    ///
    /// # Errors
    /// If that cannot be written down.
    pub fn claim(&self, folder: &Path) -> Result<(), RenderFailure> {
        let replaced = self.wanted.iter().filter(|file| file.current.is_none());
        for record in replaced.filter_map(|file| file.intact.as_ref()) {
            let look = Look {
                bytes: record.bytes,
                modified_ns: record.modified_ns,
                blake3: record.blake3.clone(),
            };
            let path = folder.join(&record.name);
            written::note(folder, &record.name, &look).map_err(RenderFailure::at(&path))?;
        }
        Ok(())
    }

    /// The record, if nothing has to be done and the record has this title.
    pub fn unchanged(&self, title: &str) -> Option<&Record> {
        let record = self.record.as_ref().filter(|record| record.title == title);
        record.filter(|_| self.missing().next().is_none())
    }

    /// The files that are to be written.
    pub fn missing(&self) -> impl Iterator<Item = (TrackPart, FileKind)> {
        let missing = self.wanted.iter().filter(|file| file.current.is_none());
        missing.map(|file| (file.part, file.kind))
    }

    /// The WAV files to copy from, one for each of these parts, if all of them exist and match their record.
    pub fn open(
        &self,
        shared: &Shared<'_>,
        track: &Track<'_>,
        parts: &[TrackPart],
    ) -> Option<Vec<Kept>> {
        open(
            shared,
            shared.folder,
            &track.name,
            self.record.as_ref()?,
            parts,
        )
    }
}

/// The WAV files of a recorded track, one for each of these parts, if all of them exist and match their record.
fn open(
    shared: &Shared<'_>,
    folder: &Path,
    track: &str,
    record: &Record,
    parts: &[TrackPart],
) -> Option<Vec<Kept>> {
    let open = |part: &TrackPart| {
        let state = state(shared, folder, track, record, *part, FileKind::Wav);
        if state != State::Intact {
            return None;
        }
        let path = folder.join(part.file_name(track, FileKind::Wav));
        Kept::open(&path, shared.settings.format(*part)).ok()
    };
    parts.iter().map(open).collect()
}

/// True if every one of these files holds the unit.
pub fn holds(kept: &[Kept], before: &UnitRecord) -> bool {
    kept.iter()
        .all(|kept| kept.holds(before.first_frame, before.frames))
}

/// Other tracks that may hold lines of this one, each with one file for each part.
pub struct Others(Vec<(Record, Vec<Kept>)>);

impl Others {
    /// Opens the tracks that exist, match their record and have every wanted part.
    pub fn open(shared: &Shared<'_>, like: &[(PathBuf, String)], parts: &[TrackPart]) -> Self {
        let open = |(folder, name): &(PathBuf, String)| {
            // Of another track only copies are made. Without its record the lines are rendered.
            let record = Record::load(folder, name).ok().flatten();
            let record = record.filter(|r| r.same_engine(shared.settings))?;
            let kept = open(shared, folder, name, &record, parts)?;
            Some((record, kept))
        };
        Self(like.iter().filter_map(open).collect())
    }

    /// The unit with this sound, if one of the tracks holds it.
    pub fn find(
        &mut self,
        hash: &blake3::Hash,
        frames: u64,
    ) -> Option<(UnitRecord, &mut Vec<Kept>)> {
        self.0.iter_mut().find_map(|(record, kept)| {
            let unit = record.unit(hash, frames).filter(|unit| holds(kept, unit))?;
            Some((unit.clone(), kept))
        })
    }
}

/// The encoded sound of a track in the file of its twin, if that exists.
pub fn packed(
    shared: &Shared<'_>,
    track: &Track<'_>,
    fingerprint: &Fingerprint,
    (part, kind): (TrackPart, FileKind),
) -> Option<Packed> {
    let (folder, name) = track.twin.as_ref().filter(|_| kind.is_labelled())?;
    let record = Record::load(folder, name).ok().flatten()?;
    let same = record.same_engine(shared.settings)
        && record.same_sound(fingerprint)
        && state(shared, folder, name, &record, part, kind) == State::Intact;
    let path = folder.join(part.file_name(name, kind));
    same.then(|| Packed::open(&path, kind)).flatten()
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// The file or its record does not exist.
    Unknown,
    /// The file matches its record.
    Intact,
    /// The file differs from its record.
    Altered,
}

fn state(
    shared: &Shared<'_>,
    folder: &Path,
    track: &str,
    record: &Record,
    part: TrackPart,
    kind: FileKind,
) -> State {
    // The name is computed, never taken from the record: a record must not point outside the folder.
    let name = part.file_name(track, kind);
    let Some(file) = record.file(part, kind).filter(|file| file.name == name) else {
        return State::Unknown;
    };
    let path = folder.join(name);
    let Some(metadata) = fs::symlink_metadata(&path).ok().filter(|m| m.is_file()) else {
        return State::Unknown;
    };
    let looks_alike = look::size_and_time(&metadata) == (file.bytes, file.modified_ns);
    let reads_alike =
        || look::hash_of(&path, &|| !(shared.stopped)()).is_ok_and(|hash| hash == file.blake3);
    if looks_alike && (!shared.settings.verify || reads_alike()) {
        State::Intact
    } else {
        State::Altered
    }
}
