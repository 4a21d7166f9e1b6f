//! A track to be rendered.

use super::formats::labels::Labels;
use super::reuse::fingerprint::Fingerprint;
use crate::timeline::Timeline;
use std::path::PathBuf;
use std::sync::Arc;

/// A track to be rendered.
pub struct Track<'a> {
    /// Its name: its file name without the extension.
    pub name: String,
    /// What a music player shows for it.
    pub labels: Labels,
    /// The routine it belongs to, as [`origin`](super::reuse::origin) names it, or `None` if unknown.
    pub origin: Option<String>,
    /// Its length, for ordering the batch and reporting progress.
    pub frames: u64,
    /// Other tracks, by folder and name, that may hold some of its lines: these are copied instead of rendered.
    pub like: Vec<(PathBuf, String)>,
    /// A track, by folder and name, with exactly the same sound, labelled and encoded as this program does it
    /// now. Its FLAC and MP3 files are copied, with other labels.
    pub twin: Option<(PathBuf, String)>,
    /// The fingerprint of its sound, if known: then a track that is up to date needs no timeline.
    pub fingerprint: Option<Arc<Fingerprint>>,
    /// Compiles its timeline. Called on the thread that renders the track, so that there are never more
    /// timelines in memory than tracks being rendered.
    pub timeline: Box<dyn Fn() -> Timeline + Send + Sync + 'a>,
}
