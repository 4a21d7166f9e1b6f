//! One track: what of it is there already, and making the rest.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::finished::{Finished, FinishedFile, Made};
use super::part::Part;
use super::reuse::earlier::Earlier;
use super::reuse::fingerprint::Fingerprint;
use super::reuse::record::{FileRecord, Record};
use super::shared::Shared;
use super::sounding::{Rendering, is_line};
use super::track::Track;
use super::writing::{Written, write};
use std::sync::Arc;

/// A track that is there as it should be: nothing has to be done for it. Only told of one whose sound is known.
pub(super) fn unchanged(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Option<Finished>, RenderFailure> {
    let Some(print) = &track.print else {
        return Ok(None);
    };
    let earlier = Earlier::look(shared, track, print, &labels(track))?;
    Ok(is_there(shared, number, track, &earlier))
}

/// Renders one track, or finds that it need not.
pub(super) fn render(
    shared: &Shared<'_>,
    number: usize,
    track: &Track<'_>,
) -> Result<Finished, RenderFailure> {
    shared.go_on()?;
    let labels = labels(track);
    let look = |print: Arc<Fingerprint>| {
        let earlier = Earlier::look(shared, track, &print, &labels)?;
        Ok((print, earlier))
    };
    let known = track.print.as_ref().map(|print| look(Arc::clone(print)));
    let known = known.transpose()?;
    let there = known
        .as_ref()
        .and_then(|(_, earlier)| is_there(shared, number, track, earlier));
    if let Some(finished) = there {
        return Ok(finished);
    }
    let timeline = (track.timeline)();
    let (print, earlier) = match known {
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
        print: &print,
        earlier: &earlier,
    };
    make(&rendering, &labels)
}

/// The hash of what labels a track.
fn labels(track: &Track<'_>) -> String {
    track.labels.print().to_hex().to_string()
}

/// Makes what is missing of a track, and its record.
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
    let Written {
        files: new,
        copied,
        rendered,
    } = write(of, &missing, labels)?;
    let made = if missing.is_empty() {
        Made::Unchanged
    } else if earlier.existed {
        Made::Again {
            rendered,
            lines,
            altered: earlier.altered,
        }
    } else {
        Made::New
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
        of.print,
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

/// What there is to say of a track if it was there already.
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
        made: Made::Unchanged,
        lines: record.lines(),
        rendered: 0,
    })
}

/// The wanted files in order: those that were there, and the new ones.
fn listed(
    shared: &Shared<'_>,
    earlier: &Earlier,
    new: &[FileRecord],
    copied: &[(Part, FileKind)],
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
