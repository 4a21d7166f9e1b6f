//! Writes the files of a track under temporary names, then renames them.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::files::Replace;
use super::part::TrackPart;
use super::reuse::earlier;
use super::reuse::record::FileRecord;
use super::sounding::{Cut, Rendering};
use super::writer::{NewFile, PartWriter};
use std::path::Path;

/// What was written of a track.
#[derive(Default)]
pub(super) struct WrittenFiles {
    pub files: Vec<FileRecord>,
    /// The files whose encoded sound was copied from another track's file.
    pub copied: Vec<(TrackPart, FileKind)>,
    /// How many lines were rendered.
    pub rendered: usize,
}

/// Writes these files of a track, then renames them to their own names.
pub(super) fn write(
    of: &Rendering<'_>,
    missing: &[(TrackPart, FileKind)],
    labels: &str,
) -> Result<WrittenFiles, RenderFailure> {
    let (folder, settings) = (of.shared.folder, of.shared.settings);
    let Some(first) = missing.first() else {
        return Ok(WrittenFiles::default());
    };
    let path =
        |(part, kind): &(TrackPart, FileKind)| folder.join(part.file_name(&of.track.name, *kind));
    // I/O errors are reported at the track's path, not at a temporary one.
    let first = path(first);
    let at = || RenderFailure::at(&first);
    let mut files = missing
        .iter()
        .map(|file| NewFile::begin(folder, &of.track.name, *file, settings, of.timeline))
        .collect::<Result<Vec<_>, _>>()
        .map_err(at())?;
    let copied = copy_from_twin(of, &mut files, &first)?;
    let rendered = render(of, &mut files, &copied, &first)?;
    for file in &mut files {
        file.complete(settings, of.timeline).map_err(at())?;
    }
    // The last chance to stop: from here on the existing files are replaced.
    of.shared.go_on()?;
    of.earlier.claim(folder)?;
    let replace = Replace::forced(settings.force);
    let mut done = Vec::new();
    for file in files {
        let (part, kind, name) = (file.part, file.kind, file.name.clone());
        let look = file.finish(replace)?;
        let labels = kind.is_labelled().then(|| labels.to_owned());
        done.push(FileRecord::new(part, kind, labels, name, look));
    }
    Ok(WrittenFiles {
        files: done,
        copied,
        rendered,
    })
}

/// Copies encoded sound from the files of the track's twin, and returns which files were filled.
fn copy_from_twin(
    of: &Rendering<'_>,
    files: &mut [NewFile],
    path: &Path,
) -> Result<Vec<(TrackPart, FileKind)>, RenderFailure> {
    let settings = of.shared.settings;
    let mut copied = vec![];
    for file in files {
        let which = (file.part, file.kind);
        if let Some(packed) = earlier::packed(of.shared, of.track, of.fingerprint, which) {
            let go_on = || of.shared.go_on().map_err(Cut::Failure);
            file.copy(packed, settings, &of.track.labels, of.timeline, go_on)
                .map_err(|cut| cut.at(path))?;
            copied.push(which);
        }
    }
    Ok(copied)
}

/// Renders the other files, and returns how many lines were rendered.
fn render(
    of: &Rendering<'_>,
    files: &mut [NewFile],
    copied: &[(TrackPart, FileKind)],
    path: &Path,
) -> Result<usize, RenderFailure> {
    let to_render = files
        .iter_mut()
        .filter(|file| !copied.contains(&(file.part, file.kind)));
    let settings = of.shared.settings;
    let mut writers = PartWriter::begin(to_render, settings, &of.track.labels, of.timeline)?;
    let rendered = if writers.is_empty() {
        of.shared.watch.moved(of.number, of.timeline.frames);
        0
    } else {
        of.sound(&mut writers, path)?
    };
    for writer in writers {
        writer.end().map_err(RenderFailure::at(path))?;
    }
    Ok(rendered)
}
