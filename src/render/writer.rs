//! Writes one part of a track: its sound is rounded once and goes to all of its files.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::files::Replace;
use super::files::growing::{Growing, Sink};
use super::files::look::Look;
use super::formats::Packed;
#[cfg(feature = "flac")]
use super::formats::flac::Flac;
use super::formats::labels::Labels;
#[cfg(feature = "mp3")]
use super::formats::mp3::Mp3;
use super::formats::pcm::{self, SampleFormat};
use super::formats::wave::{self, Wave};
use super::part::TrackPart;
use super::settings::RenderSettings;
use crate::synth::{BLOCK, Block};
use crate::timeline::Timeline;
use std::io;
use std::path::{Path, PathBuf};

/// Silence that is written at once.
static SILENCE: [i32; 4096] = [0; 4096];

/// One file of a track, being written.
pub struct NewFile {
    pub part: TrackPart,
    pub kind: FileKind,
    pub name: String,
    pub path: PathBuf,
    growing: Growing,
}

impl NewFile {
    /// Creates a file for a part of the track called `name` in `folder`.
    pub fn begin(
        folder: &Path,
        name: &str,
        (part, kind): (TrackPart, FileKind),
        settings: &RenderSettings,
        timeline: &Timeline,
    ) -> io::Result<Self> {
        let format = settings.format(part);
        let head = match kind {
            FileKind::Wav => wave::head(format, timeline.frames, tail(format, timeline).len())?,
            // Only known when everything is written.
            FileKind::Flac | FileKind::Mp3 => vec![],
        };
        let name = part.file_name(name, kind);
        Ok(Self {
            part,
            kind,
            path: folder.join(&name),
            name,
            growing: Growing::begin(folder, head)?,
        })
    }

    /// Writes the whole file from one that already holds its sound.
    pub fn copy<E: From<io::Error>>(
        &mut self,
        from: Packed,
        settings: &RenderSettings,
        labels: &Labels,
        timeline: &Timeline,
        go_on: impl Fn() -> Result<(), E>,
    ) -> Result<(), E> {
        let (format, labels) = (settings.format(self.part), labels.of_part(self.part));
        from.copy(self.growing.sink(), format, &labels, timeline, go_on)
    }

    /// Writes what follows the sound, and the final head.
    pub fn complete(&mut self, settings: &RenderSettings, timeline: &Timeline) -> io::Result<()> {
        match self.kind {
            FileKind::Wav => {
                let tail = tail(settings.format(self.part), timeline);
                self.growing.complete(&tail)
            }
            FileKind::Flac | FileKind::Mp3 => self.growing.complete(b""),
        }
    }

    /// Renames it to its own name.
    pub fn finish(self, replace: Replace) -> Result<Look, RenderFailure> {
        self.growing.finish(&self.path, replace)
    }
}

fn tail(format: SampleFormat, timeline: &Timeline) -> Vec<u8> {
    wave::tail(format, timeline.frames, &timeline.cues)
}

/// The writers of all files of one part.
pub struct PartWriter<'f> {
    pub part: TrackPart,
    format: SampleFormat,
    spread: bool,
    wave: Option<Wave<'f, Sink>>,
    coders: Vec<Coder<'f>>,
    steps: Vec<i32>,
    /// The frames written since the last piece was taken, if they are to be stored on the shelf.
    gathered: Option<Vec<u8>>,
}

impl<'f> PartWriter<'f> {
    /// Writers for these files, which are in the order of their parts.
    ///
    /// # Errors
    /// With the path of the file concerned.
    pub fn begin(
        files: impl Iterator<Item = &'f mut NewFile>,
        settings: &RenderSettings,
        labels: &Labels,
        timeline: &Timeline,
    ) -> Result<Vec<Self>, RenderFailure> {
        let mut writers: Vec<Self> = vec![];
        for file in files {
            let format = settings.format(file.part);
            let at = RenderFailure::at(&file.path);
            if writers.last().is_none_or(|writer| writer.part != file.part) {
                writers.push(Self {
                    part: file.part,
                    format,
                    spread: settings.spread,
                    wave: None,
                    coders: vec![],
                    steps: vec![],
                    gathered: None,
                });
            }
            let writer = writers.last_mut().expect("there is one now");
            let sink = file.growing.sink();
            match file.kind {
                FileKind::Wav => writer.wave = Some(Wave::begin(sink, format).map_err(at)?),
                kind => {
                    let labels = labels.of_part(file.part);
                    let coder = Coder::begin(kind, sink, format, &labels, timeline);
                    writer.coders.push(coder.map_err(at)?);
                }
            }
        }
        Ok(writers)
    }

    /// Writes the first `frames` frames of a block.
    pub fn block(&mut self, block: &Block, frames: usize) -> io::Result<()> {
        let mut samples = [0.0; 2 * BLOCK];
        let samples = &mut samples[..frames * self.format.channels.number()];
        block.take(self.part.heard(self.spread), samples);
        if let Some(wave) = &mut self.wave {
            wave.write(samples)?;
        }
        if self.coders.is_empty() && self.gathered.is_none() {
            return Ok(());
        }
        let mut steps = [0; 2 * BLOCK];
        let steps = &mut steps[..samples.len()];
        pcm::steps(samples, self.format.bits, steps);
        if let Some(gathered) = &mut self.gathered {
            pcm::bytes_of(steps, self.format.bits, gathered);
        }
        self.coders.iter_mut().try_for_each(|c| c.write(steps))
    }

    /// Writes frames of silence.
    pub fn silence(&mut self, frames: usize) -> io::Result<()> {
        if let Some(wave) = &mut self.wave {
            wave.silence(frames)?;
        }
        if self.coders.is_empty() {
            return Ok(());
        }
        let mut left = frames * self.format.channels.number();
        while left > 0 {
            let now = left.min(SILENCE.len());
            self.coders
                .iter_mut()
                .try_for_each(|c| c.write(&SILENCE[..now]))?;
            left -= now;
        }
        Ok(())
    }

    /// Writes frames that are encoded as in a WAV file of the same format.
    pub fn encoded(&mut self, bytes: &[u8]) -> io::Result<()> {
        if let Some(wave) = &mut self.wave {
            wave.write_encoded(bytes)?;
        }
        if self.coders.is_empty() {
            return Ok(());
        }
        pcm::steps_of(bytes, self.format.bits, &mut self.steps);
        let steps = &self.steps;
        self.coders.iter_mut().try_for_each(|c| c.write(steps))
    }

    /// Turns gathering of blocks for the shelf on or off.
    pub fn gather(&mut self, on: bool) {
        self.gathered = on.then(Vec::new);
    }

    /// What was gathered since the last call of `clear_gathered`.
    pub fn gathered(&self) -> &[u8] {
        self.gathered.as_deref().unwrap_or_default()
    }

    /// Starts another piece.
    pub fn clear_gathered(&mut self) {
        if let Some(gathered) = &mut self.gathered {
            gathered.clear();
        }
    }

    /// Writes the last frames to every file.
    pub fn end(self) -> io::Result<()> {
        self.coders.into_iter().try_for_each(Coder::end)
    }
}

/// Encodes samples into a file.
enum Coder<'f> {
    #[cfg(feature = "flac")]
    Flac(Box<Flac<'f, Sink>>),
    #[cfg(feature = "mp3")]
    Mp3(Box<Mp3<'f, Sink>>),
    /// Keeps the enum inhabited in a build without encoders.
    #[allow(dead_code)]
    None(std::marker::PhantomData<&'f ()>),
}

impl<'f> Coder<'f> {
    #[allow(unused_variables)]
    fn begin(
        kind: FileKind,
        sink: &'f mut Sink,
        format: SampleFormat,
        labels: &Labels,
        timeline: &Timeline,
    ) -> io::Result<Self> {
        let cues = &timeline.cues;
        match kind {
            #[cfg(feature = "flac")]
            FileKind::Flac => Ok(Self::Flac(Box::new(Flac::begin(
                sink, format, labels, cues,
            )?))),
            #[cfg(feature = "mp3")]
            FileKind::Mp3 => {
                let mp3 = Mp3::begin(sink, format, labels, cues, timeline.frames)?;
                Ok(Self::Mp3(Box::new(mp3)))
            }
            kind => Err(io::Error::new(
                io::ErrorKind::Unsupported,
                format!("this build of leadpipe cannot write {} files", kind.word()),
            )),
        }
    }

    #[allow(unused_variables)]
    fn write(&mut self, steps: &[i32]) -> io::Result<()> {
        match self {
            #[cfg(feature = "flac")]
            Self::Flac(flac) => flac.write(steps),
            #[cfg(feature = "mp3")]
            Self::Mp3(mp3) => mp3.write(steps),
            Self::None(_) => Ok(()),
        }
    }

    fn end(self) -> io::Result<()> {
        match self {
            #[cfg(feature = "flac")]
            Self::Flac(flac) => flac.end(),
            #[cfg(feature = "mp3")]
            Self::Mp3(mp3) => mp3.end(),
            Self::None(_) => Ok(()),
        }
    }
}
