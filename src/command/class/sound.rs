//! Everybody's tracks, with what they have in common rendered and packed once.

use super::roster::{Planned, Ready};
use super::share::{Copies, Plan, Sounding};
use crate::command::{labels, progress};
use crate::render::batch::{End, Placed, Run};
use crate::render::reuse::shelf::Shelf;
use crate::render::{FileKind, Finished, LazyEngine, RenderFailure, Settings, Track};
use crate::score::unroll;
use crate::timeline::compile::{self, compile};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// How a class's takes are compiled.
pub fn settings(sample_rate: u32) -> compile::Settings {
    compile::Settings {
        sample_rate,
        signs: true,
    }
}

/// Renders every track that is not there as it should be.
pub fn render(ready: &[&Ready], settings: &Settings, stop: &AtomicBool) -> End {
    let takes: Vec<(&Ready, usize)> = ready
        .iter()
        .copied()
        .flat_map(|player| (0..player.takes.len()).map(move |take| (player, take)))
        .collect();
    let mut tracks: Vec<Track<'_>> = ready
        .iter()
        .flat_map(|player| tracks_of(player, settings.sample_rate))
        .collect();
    let bars = progress::Bars::new(tracks.iter().map(|t| (t.name.clone(), t.frames)));
    let engine = LazyEngine::new(settings.sample_rate);
    let run = Run {
        settings,
        engine: &engine,
        shelf: None,
        stop,
        watch: &bars,
    };
    let there = match there(&run, &takes, &tracks) {
        Ok(there) => there,
        Err(failure) => {
            bars.clear();
            return End {
                finished: vec![],
                cleared: 0,
                failure: Some(failure),
            };
        }
    };
    let sounding: Vec<Sounding<'_>> = takes
        .iter()
        .zip(&there)
        .map(|((player, take), there)| {
            let sound = &player.takes[*take].sound;
            Sounding {
                whole: sound.print.sound,
                lines: &sound.lines,
                there: there.is_some(),
            }
        })
        .collect();
    let plan = Plan::new(&sounding, settings.kinds.has(FileKind::Wav));
    let place = |number: usize| -> (PathBuf, String) {
        let (player, take) = takes[number];
        (player.folder.clone(), player.takes[take].name.clone())
    };
    for (track, copies) in tracks.iter_mut().zip(&plan.copies) {
        track.twin = copies.twin.map(place);
        track.like = copies.like.iter().map(|number| place(*number)).collect();
    }
    let shelf = Shelf::new(plan.shelved);
    let run = Run {
        shelf: (!settings.kinds.has(FileKind::Wav)).then_some(&shelf),
        ..run
    };
    let mut end = run.render(&missing(&takes, &tracks, &there, &plan.copies));
    bars.clear();
    end.finished.extend(there.into_iter().flatten());
    end.finished.sort_by_key(|f| f.track);
    end
}

fn tracks_of<'t>(player: &Ready, sample_rate: u32) -> Vec<Track<'t>> {
    let numbers = labels::numbers(player.takes.iter().map(|take| take.name.as_str()));
    let track = |(planned, number): (&Planned, u32)| {
        let (version, take) = (Arc::clone(&player.version), planned.take);
        let (routine, of) = (&version.routine, player.takes.len());
        Track {
            name: planned.name.clone(),
            labels: labels::of(routine, Some(&player.name), &take, number, of),
            frames: planned.frames,
            like: vec![],
            twin: None,
            print: Some(Arc::clone(&planned.sound.print)),
            timeline: Box::new(move || {
                let score = unroll(&version.routine, &take)
                    .expect("the same take was unrolled when it was checked");
                compile(&score, &settings(sample_rate))
            }),
        }
    };
    player.takes.iter().zip(numbers).map(track).collect()
}

/// What there is to say of the tracks for which nothing has to be done.
fn there(
    run: &Run<'_>,
    takes: &[(&Ready, usize)],
    tracks: &[Track<'_>],
) -> Result<Vec<Option<Finished>>, RenderFailure> {
    let placed = takes.iter().zip(tracks).enumerate();
    let placed = placed.map(|(number, ((player, _), track))| Placed {
        number,
        folder: &player.folder,
        track,
        after: vec![],
        takes: &[],
    });
    run.unchanged(&placed.collect::<Vec<_>>())
}

/// The others, each after those that it copies from.
fn missing<'p, 't>(
    takes: &[(&'p Ready, usize)],
    tracks: &'p [Track<'t>],
    there: &[Option<Finished>],
    copies: &'p [Copies],
) -> Vec<Placed<'p, 't>> {
    let mut places = vec![0; tracks.len()];
    let mut placed: Vec<Placed<'p, 't>> = vec![];
    for (number, track) in tracks.iter().enumerate() {
        if there[number].is_some() {
            continue;
        }
        places[number] = placed.len();
        placed.push(Placed {
            number,
            folder: &takes[number].0.folder,
            track,
            after: copies[number].after.iter().map(|n| places[*n]).collect(),
            takes: &copies[number].takes,
        });
    }
    placed
}
