//! Renders tracks into many folders at once: the sound they have in common is rendered and encoded once.

use super::batch::{BatchTrack, End, Run};
use super::reuse::fingerprint::Fingerprint;
use super::reuse::shelf::Shelf;
use super::sharing::{Copies, SharingPlan, Sounding};
use super::{FileKind, Finished, LazyEngine, RenderFailure, RenderSettings, Track, Watch};
use crate::timeline::{Content, Timeline};
use blake3::Hash;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Hashes of a track's sound.
pub struct Sound {
    /// Of all of it.
    pub fingerprint: Arc<Fingerprint>,
    /// Of each line.
    pub lines: Vec<Hash>,
}

impl Sound {
    /// The hashes of a timeline's sound.
    pub fn of(timeline: &Timeline) -> Self {
        let fingerprint = Fingerprint::of(timeline);
        let units = timeline.units.iter().zip(&fingerprint.units);
        let lines = units.filter(|(unit, _)| matches!(unit.content, Content::Line(_)));
        let lines = lines.map(|(_, hash)| *hash).collect();
        Self {
            fingerprint: Arc::new(fingerprint),
            lines,
        }
    }
}

/// A track, its folder, and the hashes of its sound.
pub struct SharedTrack<'a> {
    /// The folder, created by [`prepare`](super::files::prepare).
    pub folder: &'a Path,
    /// The track.
    pub track: Track<'a>,
    /// The hashes of its sound.
    pub sound: &'a Sound,
}

/// Renders every track that is not up to date. Tracks are numbered in their order.
pub fn render(
    mut parts: Vec<SharedTrack<'_>>,
    settings: &RenderSettings,
    stop: &AtomicBool,
    watch: &dyn Watch,
) -> End {
    for part in &mut parts {
        part.track.fingerprint = Some(Arc::clone(&part.sound.fingerprint));
    }
    let engine = LazyEngine::new(settings.sample_rate);
    let run = Run {
        settings,
        engine: &engine,
        shelf: None,
        stop,
        watch,
    };
    let there = match there(&run, &parts) {
        Ok(there) => there,
        Err(failure) => return End::before(failure, 0),
    };
    let sounding: Vec<Sounding<'_>> = parts
        .iter()
        .zip(&there)
        .map(|(part, there)| Sounding {
            whole: part.sound.fingerprint.sound,
            lines: &part.sound.lines,
            there: there.is_some(),
        })
        .collect();
    let plan = SharingPlan::new(&sounding, settings.kinds.has(FileKind::Wav));
    let places: Vec<(PathBuf, String)> = parts
        .iter()
        .map(|part| (part.folder.to_owned(), part.track.name.clone()))
        .collect();
    for (part, copies) in parts.iter_mut().zip(&plan.copies) {
        part.track.twin = copies.twin.map(|number| places[number].clone());
        let like = copies.like.iter().map(|number| places[*number].clone());
        part.track.like = like.collect();
    }
    let shelf = Shelf::new(plan.shelved);
    let run = Run {
        shelf: (!settings.kinds.has(FileKind::Wav)).then_some(&shelf),
        ..run
    };
    let mut end = run.render(&missing(&parts, &there, &plan.copies));
    end.finished.extend(there.into_iter().flatten());
    end.finished.sort_by_key(|f| f.track);
    end
}

/// The results of the tracks that are up to date.
fn there(run: &Run<'_>, parts: &[SharedTrack<'_>]) -> Result<Vec<Option<Finished>>, RenderFailure> {
    let placed = parts.iter().enumerate().map(|(number, part)| BatchTrack {
        number,
        folder: part.folder,
        track: &part.track,
        after: vec![],
        shelf_lines: &[],
    });
    run.unchanged(&placed.collect::<Vec<_>>())
}

/// The other tracks, each after those it copies from.
fn missing<'p, 't>(
    parts: &'p [SharedTrack<'t>],
    there: &[Option<Finished>],
    copies: &'p [Copies],
) -> Vec<BatchTrack<'p, 't>> {
    let mut places = vec![0; parts.len()];
    let mut placed: Vec<BatchTrack<'p, 't>> = vec![];
    for (number, part) in parts.iter().enumerate() {
        if there[number].is_some() {
            continue;
        }
        places[number] = placed.len();
        placed.push(BatchTrack {
            number,
            folder: part.folder,
            track: &part.track,
            after: copies[number].after.iter().map(|n| places[*n]).collect(),
            shelf_lines: &copies[number].shelf_lines,
        });
    }
    placed
}
