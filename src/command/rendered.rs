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
use crate::words::{count, duration, size};
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
        console.say(format!(
            "Another routine called “{}” has tracks in {}: those of {} are called {stem}.",
            opened.edition.played().title,
            folder.display(),
            opened.routine.name
        ));
    }
    plan.name(&stem, names);
    Ok(())
}

/// Renders tracks into a folder and shows the progress.
pub fn write(
    tracks: &[Track<'_>],
    folder: &Path,
    settings: &RenderSettings,
    stop: &AtomicBool,
) -> End {
    let bars = progress::Bars::new(tracks.iter().map(|t| (t.name.clone(), t.frames)));
    let end = batch::render(tracks, folder, settings, stop, &bars);
    bars.clear();
    end
}

/// Writes the list of tracks, and says what was done.
pub fn close(console: &mut Console, end: &End, sample_rate: u32) -> Outcome {
    cleared(console, end.cleared);
    if !end.finished.is_empty() {
        console.data(&listing(&end.finished, sample_rate))?;
        console.say(&done(&end.finished));
    }
    ended(
        console,
        end.failure.as_ref(),
        "Stopped; unfinished tracks were taken away.",
    )
}

/// Says how many files of interrupted runs were removed.
pub fn cleared(console: &mut Console, files: usize) {
    if files > 0 {
        let files = count(files, "unfinished file", "unfinished files");
        console.say(format!("Cleared away {files} of an earlier run."));
    }
}

/// Says why tracks were not finished.
pub fn ended(console: &mut Console, failure: Option<&RenderFailure>, stopped: &str) -> Outcome {
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

fn listing(finished: &[Finished], rate: u32) -> String {
    let mut table = Table::new(&[
        ("Track", false),
        ("Length", true),
        ("Size", true),
        ("", false),
    ]);
    for track in finished {
        for file in &track.files {
            table.row(vec![
                file.path.display().to_string(),
                duration(track.frames as f64 / f64::from(rate)),
                size(file.bytes),
                match track.made {
                    _ if !file.written => "unchanged",
                    TrackOutcome::Unchanged => "unchanged",
                    TrackOutcome::New => "new",
                    TrackOutcome::Again { .. } => "again",
                }
                .to_owned(),
            ]);
        }
    }
    table.lines()
}

/// `3 tracks unchanged, 1 rendered again: 2 of 9 lines.`
fn done(finished: &[Finished]) -> String {
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
    let mut parts = Vec::new();
    let mut part = |n: usize, what: &str| {
        if n > 0 {
            let number = if parts.is_empty() {
                count(n, "track", "tracks")
            } else {
                n.to_string()
            };
            parts.push(format!("{number} {what}"));
        }
    };
    part(unchanged, "unchanged");
    part(new, "rendered");
    let lines = count(all_lines, "line", "lines");
    part(
        again,
        &format!("rendered again: {rendered_lines} of {lines}"),
    );
    let mut said = parts.join(", ");
    if altered > 0 {
        let files = count(altered, "track", "tracks");
        said += &format!("; {files} no longer as rendered before");
    }
    said + "."
}
