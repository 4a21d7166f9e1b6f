//! Renders one track: finds which files are up to date, and writes the others.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::finished::{Finished, FinishedFile, TrackOutcome};
use super::part::TrackPart;
use super::reuse::earlier::Earlier;
use super::reuse::fingerprint::Fingerprint;
use super::reuse::record::{FileRecord, Record};
use super::shared::Shared;
use super::sounding::{Rendering, is_line};
use super::track::Track;
use super::writing::{WrittenFiles, write};
use std::sync::Arc;

/// The result of a track that is up to date: nothing has to be done for it. `None` unless its fingerprint is
/// known.
pub(super) fn unchanged(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Option<Finished>, RenderFailure> {
    let Some(fingerprint) = &track.fingerprint else {
        return Ok(None);
    };
    let earlier = Earlier::look(shared, track, fingerprint, &labels(track))?;
    Ok(is_there(shared, number, track, &earlier))
}

/// Renders one track, unless it is up to date.
pub(super) fn render(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Finished, RenderFailure> {
    shared.go_on()?;
    let labels = labels(track);
    let look = |fingerprint: Arc<Fingerprint>| {
        let earlier = Earlier::look(shared, track, &fingerprint, &labels)?;
        Ok((fingerprint, earlier))
    };
    let known = track
        .fingerprint
        .as_ref()
        .map(|fingerprint| look(Arc::clone(fingerprint)));
    let known = known.transpose()?;
    let there = known
        .as_ref()
        .and_then(|(_, earlier)| is_there(shared, number, track, earlier));
    if let Some(finished) = there {
        return Ok(finished);
    }
    let timeline = (track.timeline)();
    let (fingerprint, earlier) = match known {
        Some(known) => known,
        None => {
            let known = look(Arc::new(Fingerprint::of(&timeline)))?;
            if let Some(finished) = is_there(shared, number, track, &known.1) {
                return Ok(finished);
            }
            known
        }
    };
    let rendering = Rendering {
        shared,
        number,
        track,
        timeline: &timeline,
        fingerprint: &fingerprint,
        earlier: &earlier,
    };
    make(&rendering, &labels)
}

/// The hash of a track's labels.
fn labels(track: &Track<'_>) -> String {
    track.labels.fingerprint().to_hex().to_string()
}

/// Writes the missing files of a track, and its record.
fn make(of: &Rendering<'_>, labels: &str) -> Result<Finished, RenderFailure> {
    let Rendering {
        shared,
        number,
        track,
        timeline,
        earlier,
        ..
    } = *of;
    shared.watch.began(number, timeline.frames);
    let lines = timeline.units.iter().filter(|u| is_line(u)).count();
    let missing: Vec<_> = earlier.missing().collect();
    let WrittenFiles {
        files: new,
        copied,
        rendered,
    } = write(of, &missing, labels)?;
    let made = if missing.is_empty() {
        TrackOutcome::Unchanged
    } else if earlier.existed {
        TrackOutcome::Again {
            rendered,
            lines,
            altered: earlier.altered,
        }
    } else {
        TrackOutcome::New
    };
    let files = listed(shared, earlier, &new, &copied);
    let current = earlier
        .wanted
        .iter()
        .filter_map(|file| file.current.clone());
    let files_now = current.chain(new).collect();
    let title = track.labels.title();
    Record::new(
        shared.settings,
        &title,
        track.origin.as_deref(),
        timeline,
        of.fingerprint,
        files_now,
    )
    .save(shared.folder, &track.name)?;
    Ok(Finished {
        track: number,
        frames: timeline.frames,
        files,
        made,
        lines,
        rendered,
    })
}

/// The result of a track if it is up to date.
fn is_there(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
    earlier: &Earlier,
) -> Option<Finished> {
    let record = earlier.unchanged(&track.labels.title())?;
    shared.watch.began(number, record.frames());
    Some(Finished {
        track: number,
        frames: record.frames(),
        files: listed(shared, earlier, &[], &[]),
        made: TrackOutcome::Unchanged,
        lines: record.lines(),
        rendered: 0,
    })
}

/// The wanted files in order: existing and new ones.
fn listed(
    shared: &Shared<'_>,
    earlier: &Earlier,
    new: &[FileRecord],
    copied: &[(TrackPart, FileKind)],
) -> Vec<FinishedFile> {
    let files = earlier.wanted.iter().filter_map(|wanted| {
        let written = wanted.current.is_none();
        let which = (wanted.part, wanted.kind);
        let same = |file: &&FileRecord| (file.part, file.kind) == which;
        let file = wanted.current.as_ref().or_else(|| new.iter().find(same))?;
        let packed = written && !copied.contains(&which);
        Some(FinishedFile {
            path: shared.folder.join(&file.name),
            bytes: file.bytes,
            written,
            packed: wanted.kind.is_labelled().then_some(packed),
        })
    });
    files.collect()
}
