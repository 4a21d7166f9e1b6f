//! Rendering tracks into a folder, and the messages about it.

use super::console::Console;
use super::edition::LoadedEdition;
use super::table::Table;
use super::{Exit, Outcome, progress};
use crate::edition::Plan;
use crate::edition::name::{self, Names};
use crate::render::batch::{self, End};
use crate::render::reuse::origin;
use crate::render::{Finished, RenderFailure, RenderSettings, Track, TrackOutcome, planned};
use crate::timeline::compile;
use crate::words::{Language, Words, count, duration, size, tell};
use std::path::Path;
use std::sync::atomic::AtomicBool;

/// The tracks of a plan. Lines that a player's pencil leaves as they are may be copied from the teacher's own tracks
/// in the folder `teachers`.
pub fn tracks<'p>(
    opened: &LoadedEdition,
    plan: &'p Plan<'_>,
    settings: &compile::Settings,
    folder: &Path,
    teachers: Option<&Path>,
) -> Vec<Track<'p>> {
    let whose = opened.whose();
    let origin = opened.routine.origin(folder);
    let mut tracks = planned::tracks(plan, whose.as_deref(), Some(&origin), settings);
    if let (Some(_), Some(folder)) = (whose, teachers) {
        let stem = opened.routine.stem(&opened.edition.teacher().title);
        for (track, planned) in tracks.iter_mut().zip(&plan.takes) {
            let like = name::of(&stem, planned.tempo, &planned.take);
            track.like = vec![(folder.to_owned(), like)];
        }
    }
    tracks
}

/// Names the takes of a plan for `folder`. To avoid replacing a track of another routine, the names get a number, which
/// is reported.
///
/// # Errors
/// If the record of a track in the folder cannot be read.
pub fn name(
    console: &mut Console,
    opened: &LoadedEdition,
    plan: &mut Plan<'_>,
    folder: &Path,
    names: &mut Names,
) -> Result<(), RenderFailure> {
    let origin = opened.routine.origin(folder);
    let wanted = opened.stem();
    let within_run = names.clone().give(&wanted);
    let stem = origin::free_name(names, &wanted, plan, folder, &origin)?;
    if stem != within_run {
        console.say(tell::another_routine(
            &opened.edition.played().title,
            folder.display().to_string(),
            &opened.routine.name,
            &stem,
        ));
    }
    plan.name(&stem, names);
    Ok(())
}

/// Renders tracks into a folder and shows the progress.
pub fn write(
    language: Language,
    tracks: &[Track<'_>],
    folder: &Path,
    settings: &RenderSettings,
    stop: &AtomicBool,
) -> End {
    let bars = progress::Bars::new(language, tracks.iter().map(|t| (t.name.clone(), t.frames)));
    let end = batch::render(tracks, folder, settings, stop, &bars);
    bars.clear();
    end
}

/// Writes the list of tracks, and says what was done.
pub fn close(console: &mut Console, end: &End, sample_rate: u32) -> Outcome {
    cleared(console, end.cleared);
    if !end.finished.is_empty() {
        console.data(&listing(console.language(), &end.finished, sample_rate))?;
        console.say(done(&end.finished));
    }
    ended(console, end.failure.as_ref(), tell::stopped_tracks())
}

/// Says how many files of interrupted runs were removed.
pub fn cleared(console: &mut Console, files: usize) {
    if files > 0 {
        let files = count::unfinished_files(files);
        console.say(tell::cleared_away(&files));
    }
}

/// Says why tracks were not finished.
pub fn ended(console: &mut Console, failure: Option<&RenderFailure>, stopped: Words) -> Outcome {
    match failure {
        None => Ok(Exit::Done),
        Some(RenderFailure::Stopped) => {
            console.say(stopped);
            Ok(Exit::Stopped)
        }
        Some(failure) => {
            console.complain(failure.to_string(), failure.hint().map(Into::into));
            Ok(Exit::Errors)
        }
    }
}

fn listing(language: Language, finished: &[Finished], rate: u32) -> String {
    let mut table = Table::new(&[
        (tell::heading_track(), false),
        (tell::heading_length(), true),
        (tell::heading_size(), true),
        (Words::default(), false),
    ]);
    for track in finished {
        for file in &track.files {
            table.row(vec![
                file.path.display().to_string().into(),
                duration(track.frames as f64 / f64::from(rate)).into(),
                Words::of(|language| language.number(size(file.bytes))),
                match track.made {
                    _ if !file.written => tell::made_unchanged(),
                    TrackOutcome::Unchanged => tell::made_unchanged(),
                    TrackOutcome::New => tell::made_new(),
                    TrackOutcome::Again { .. } => tell::made_again(),
                },
            ]);
        }
    }
    table.lines(language)
}

/// `3 tracks unchanged, 1 rendered again: 2 of 9 lines.`
fn done(finished: &[Finished]) -> Words {
    let (mut unchanged, mut new, mut again, mut altered) = (0, 0, 0, 0);
    let (mut rendered_lines, mut all_lines) = (0, 0);
    for track in finished {
        match track.made {
            TrackOutcome::Unchanged => unchanged += 1,
            TrackOutcome::New => new += 1,
            TrackOutcome::Again {
                rendered,
                lines,
                altered: was_altered,
            } => {
                again += 1;
                rendered_lines += rendered;
                all_lines += lines;
                altered += usize::from(was_altered);
            }
        }
    }
    let lines = count::lines(all_lines);
    let said = |of: &dyn Fn(Words) -> Words, n: usize, first: bool| match n {
        0 => None,
        // The first number says what is counted.
        n if first => Some(of(count::tracks(n))),
        n => Some(of(n.to_string().into())),
    };
    let mut parts: Vec<Words> = Vec::new();
    parts.extend(said(&|n| tell::tracks_unchanged(n), unchanged, true));
    parts.extend(said(&|n| tell::tracks_rendered(n), new, parts.is_empty()));
    let all_again = |n| tell::tracks_again(n, rendered_lines, &lines);
    parts.extend(said(&all_again, again, parts.is_empty()));
    let done = Words::joined(&parts, ", ");
    let done = match altered {
        0 => done,
        altered => done.then(tell::no_longer_as_rendered(count::tracks(altered))),
    };
    done.then(".")
}
