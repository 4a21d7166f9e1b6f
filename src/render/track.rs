//! A track to be rendered.

use super::formats::labels::Labels;
use super::reuse::fingerprint::Fingerprint;
use crate::timeline::Timeline;
use std::path::PathBuf;
use std::sync::Arc;

/// A track to be rendered.
pub struct Track<'a> {
    /// Its name: that of its file without `.wav`.
    pub name: String,
    /// What players show of it.
    pub labels: Labels,
    /// The routine that it is of, as [`origin`](super::reuse::origin) names it; none where that is not known.
    pub origin: Option<String>,
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
