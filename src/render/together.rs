//! Tracks of many folders at once: the sound that they have in common is rendered and packed once.

use super::batch::{End, Placed, Run};
use super::reuse::fingerprint::Fingerprint;
use super::reuse::shelf::Shelf;
use super::sharing::{Copies, Plan, Sounding};
use super::{FileKind, Finished, LazyEngine, RenderFailure, Settings, Track, Watch};
use crate::timeline::{Content, Timeline};
use blake3::Hash;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// What a track sounds like.
pub struct Sound {
    /// All of it.
    pub fingerprint: Arc<Fingerprint>,
    /// Its lines alone.
    pub lines: Vec<Hash>,
}

impl Sound {
    /// What a timeline sounds like.
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

/// A track, the folder it goes to, and what it sounds like.
pub struct Part<'a> {
    /// Where it goes; the folder has been made with [`prepare`](super::files::prepare).
    pub folder: &'a Path,
    /// The track.
    pub track: Track<'a>,
    /// What it sounds like.
    pub sound: &'a Sound,
}

/// Renders every track that is not there as it should be. Tracks are numbered in their order.
pub fn render(
    mut parts: Vec<Part<'_>>,
    settings: &Settings,
    stop: &AtomicBool,
    watch: &dyn Watch,
) -> End {
    for part in &mut parts {
        part.track.print = Some(Arc::clone(&part.sound.fingerprint));
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
    let plan = Plan::new(&sounding, settings.kinds.has(FileKind::Wav));
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

/// What there is to say of the tracks for which nothing has to be done.
fn there(run: &Run<'_>, parts: &[Part<'_>]) -> Result<Vec<Option<Finished>>, RenderFailure> {
    let placed = parts.iter().enumerate().map(|(number, part)| Placed {
        number,
        folder: part.folder,
        track: &part.track,
        after: vec![],
        takes: &[],
    });
    run.unchanged(&placed.collect::<Vec<_>>())
}

/// The others, each after those that it copies from.
fn missing<'p, 't>(
    parts: &'p [Part<'t>],
    there: &[Option<Finished>],
    copies: &'p [Copies],
) -> Vec<Placed<'p, 't>> {
    let mut places = vec![0; parts.len()];
    let mut placed: Vec<Placed<'p, 't>> = vec![];
    for (number, part) in parts.iter().enumerate() {
        if there[number].is_some() {
            continue;
        }
        places[number] = placed.len();
        placed.push(Placed {
            number,
            folder: part.folder,
            track: &part.track,
            after: copies[number].after.iter().map(|n| places[*n]).collect(),
            takes: &copies[number].takes,
        });
    }
    placed
}
