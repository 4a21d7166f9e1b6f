//! The record of what was rendered, one file a track, kept beside the tracks.
//!
//! It says which engine and timeline a track was made from and describes its files, so that a second run knows
//! what it can leave and what it can copy. A record that cannot be read is ignored.

use super::fingerprint::Fingerprint;
use crate::render::failure::RenderFailure;
use crate::render::file_kind::FileKind;
use crate::render::files::{self, Look, OWN};
use crate::render::part::TrackPart;
use crate::render::reading::{self, Unread};
use crate::render::settings::RenderSettings;
use crate::synth::Balance;
use crate::timeline::{Content, Timeline};
use serde::{Deserialize, Serialize};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// The folder of records inside a folder of tracks.
pub const FOLDER: &str = OWN;

/// Version of the record format.
const LAYOUT: u32 = 3;

/// Extension of record files.
const ENDING: &str = ".json";

/// The largest record that is read, in bytes. The record of a four-hour take is much smaller.
const LARGEST: u64 = 16 * 1024 * 1024;

/// What one track was made from, and the files that were written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    layout: u32,
    engine: String,
    /// What lists call the track.
    pub(in crate::render) title: String,
    /// The routine the track belongs to, as [`origin`](super::origin) names it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(in crate::render) origin: Option<String>,
    pub(in crate::render) sample_rate: u32,
    bits: u16,
    spread: bool,
    /// Gains of guide, drone and click, as the bits of an `f32`.
    balance: [u32; 3],
    pub(in crate::render) frames: u64,
    timeline: String,
    units: Vec<UnitRecord>,
    files: Vec<FileRecord>,
}

/// One unit of the timeline.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnitRecord {
    /// Hash of what it sounds like.
    pub hash: String,
    /// True for a line, false for a rest.
    pub line: bool,
    /// Its first frame in the track.
    pub first_frame: u64,
    /// Its length.
    pub frames: u64,
}

/// One file of the track.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FileRecord {
    /// Which part of the sound is in it.
    pub part: TrackPart,
    /// What kind of file it is.
    pub kind: FileKind,
    /// Hash of everything in the file except the sound.
    pub labels: Option<String>,
    /// Its name.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// When it was written, in nanoseconds since 1970.
    pub modified_ns: u64,
    /// The BLAKE3 hash of its bytes.
    pub blake3: String,
}

impl FileRecord {
    /// A record of a finished file.
    pub fn new(
        part: TrackPart,
        kind: FileKind,
        labels: Option<String>,
        name: String,
        look: Look,
    ) -> Self {
        Self {
            part,
            kind,
            labels,
            name,
            bytes: look.bytes,
            modified_ns: look.modified_ns,
            blake3: look.blake3,
        }
    }
}

impl Record {
    /// A record of a finished track.
    pub fn new(
        settings: &RenderSettings,
        title: &str,
        origin: Option<&str>,
        timeline: &Timeline,
        fingerprint: &Fingerprint,
        files: Vec<FileRecord>,
    ) -> Self {
        let units = timeline.units.iter().zip(&fingerprint.units);
        Self {
            layout: LAYOUT,
            engine: crate::SOUND_REVISION.to_owned(),
            title: title.to_owned(),
            origin: origin.map(str::to_owned),
            sample_rate: settings.sample_rate,
            bits: settings.bits.number(),
            spread: settings.spread,
            balance: gains(settings),
            frames: timeline.frames,
            timeline: fingerprint.whole.to_hex().to_string(),
            units: units
                .map(|(unit, hash)| UnitRecord {
                    hash: hash.to_hex().to_string(),
                    line: matches!(unit.content, Content::Line(_)),
                    first_frame: unit.first_frame,
                    frames: unit.frames,
                })
                .collect(),
            files,
        }
    }

    /// The record of a track in `folder`, if there is one that is understood.
    ///
    /// # Errors
    /// If there is a file that cannot be read.
    pub fn load(folder: &Path, track: &str) -> Result<Option<Self>, RenderFailure> {
        let path = place(folder, track);
        let bytes = match reading::found(&path, LARGEST) {
            Ok(bytes) => bytes,
            Err(Unread::TooLarge) => return Ok(None),
            Err(Unread::System(error)) if is_absent(&error) => return Ok(None),
            Err(Unread::System(error)) => return Err(RenderFailure::reading(&path)(error)),
        };
        let record: Option<Self> = serde_json::from_slice(&bytes).ok();
        Ok(record.filter(|record| record.layout == LAYOUT))
    }

    /// Writes the record beside the tracks in `folder`.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn save(&self, folder: &Path, track: &str) -> Result<(), RenderFailure> {
        let within = folder.join(FOLDER);
        let mut text = serde_json::to_vec_pretty(self)
            .map_err(io::Error::from)
            .map_err(RenderFailure::at(&within))?;
        text.push(b'\n');
        let path = place(folder, track);
        let put = files::put_record(&path, &text);
        put.map(drop).map_err(RenderFailure::at(&path))
    }

    /// True if the same timeline would give the same samples now.
    pub fn same_engine(&self, settings: &RenderSettings) -> bool {
        self.engine == crate::SOUND_REVISION
            && self.sample_rate == settings.sample_rate
            && self.bits == settings.bits.number()
            && self.spread == settings.spread
            && self.balance == gains(settings)
    }

    /// True if it was made from this timeline.
    pub fn same_timeline(&self, fingerprint: &Fingerprint) -> bool {
        self.timeline == fingerprint.whole.to_hex().as_str()
    }

    /// True if the whole track sounds like this, whatever its cues are called.
    pub fn same_sound(&self, fingerprint: &Fingerprint) -> bool {
        let hashes = fingerprint.units.iter().map(blake3::Hash::to_hex);
        self.units.len() == fingerprint.units.len()
            && self
                .units
                .iter()
                .zip(hashes)
                .all(|(unit, hash)| unit.hash == hash.as_str())
    }

    /// Frames of the track.
    pub fn frames(&self) -> u64 {
        self.frames
    }

    /// How many lines it has.
    pub fn lines(&self) -> usize {
        self.units.iter().filter(|unit| unit.line).count()
    }

    /// The unit that sounds like this, if there was one.
    pub fn unit(&self, hash: &blake3::Hash, frames: u64) -> Option<&UnitRecord> {
        let hash = hash.to_hex();
        self.units
            .iter()
            .find(|unit| unit.hash == hash.as_str() && unit.frames == frames)
    }

    /// Its file of this part and kind, if any.
    pub fn file(&self, part: TrackPart, kind: FileKind) -> Option<&FileRecord> {
        let mut files = self.files.iter();
        files.find(|file| (file.part, file.kind) == (part, kind))
    }

    /// Names of the tracks that have a record in `folder`.
    ///
    /// # Errors
    /// If the folder of records cannot be read.
    pub fn tracks(folder: &Path) -> Result<Vec<String>, RenderFailure> {
        let within = folder.join(FOLDER);
        let read = || -> io::Result<Vec<String>> {
            let mut names = vec![];
            for entry in fs::read_dir(&within)? {
                let name = entry?.file_name();
                let track = name.to_str().and_then(|name| name.strip_suffix(ENDING));
                names.extend(track.map(str::to_owned));
            }
            Ok(names)
        };
        match read() {
            // There is none yet, or `folder` is a file.
            Err(error) if is_absent(&error) => Ok(vec![]),
            names => names.map_err(RenderFailure::reading(&within)),
        }
    }
}

fn is_absent(error: &io::Error) -> bool {
    matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory)
}

fn gains(settings: &RenderSettings) -> [u32; 3] {
    let Balance {
        guide,
        drone,
        click,
    } = settings.balance;
    [guide, drone, click].map(f32::to_bits)
}

fn place(folder: &Path, track: &str) -> PathBuf {
    folder.join(FOLDER).join(name_of(track))
}

fn name_of(track: &str) -> String {
    format!("{track}{ENDING}")
}
