//! The files of a track, from their passing names to their own.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::part::Part;
use super::reuse::earlier;
use super::reuse::record::FileRecord;
use super::sounding::{Cut, Rendering};
use super::writer::{NewFile, PartWriter};
use std::path::Path;

/// What was written of a track.
#[derive(Default)]
pub(super) struct Written {
    pub files: Vec<FileRecord>,
    /// Those of them whose sound was copied as it is packed in another track's file.
    pub copied: Vec<(Part, FileKind)>,
    /// How many lines were rendered.
    pub rendered: usize,
}

/// Writes these files of a track, then gives them their names.
pub(super) fn write(
    of: &Rendering<'_>,
    missing: &[(Part, FileKind)],
    labels: &str,
) -> Result<Written, RenderFailure> {
    let (folder, settings) = (of.shared.folder, of.shared.settings);
    let Some(first) = missing.first() else {
        return Ok(Written::default());
    };
    let path = |(part, kind): &(Part, FileKind)| folder.join(part.file_name(&of.track.name, *kind));
    if let Some(path) = missing.iter().map(path).find(|path| path.is_dir()) {
        return Err(RenderFailure::FolderInTheWay(path));
    }
    // What the system refuses is said of the track, not of the passing names.
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
    // The last moment to turn back: from here on the tracks as they were are replaced.
    of.shared.go_on()?;
    let mut done = Vec::new();
    for file in files {
        let (part, kind, name) = (file.part, file.kind, file.name.clone());
        let look = file.finish()?;
        let labels = kind.is_labelled().then(|| labels.to_owned());
        done.push(FileRecord::new(part, kind, labels, name, look));
    }
    Ok(Written {
        files: done,
        copied,
        rendered,
    })
}

/// Fills the files whose sound is packed already in those of the track's twin, and says which.
fn copy_from_twin(
    of: &Rendering<'_>,
    files: &mut [NewFile],
    path: &Path,
) -> Result<Vec<(Part, FileKind)>, RenderFailure> {
    let settings = of.shared.settings;
    let mut copied = vec![];
    for file in files {
        let which = (file.part, file.kind);
        if let Some(packed) = earlier::packed(of.shared, of.track, of.print, which) {
            let go_on = || of.shared.go_on().map_err(Cut::Failure);
            file.copy(packed, settings, &of.track.labels, of.timeline, go_on)
                .map_err(|cut| cut.at(path))?;
            copied.push(which);
        }
    }
    Ok(copied)
}

/// Fills the other files, and says how many lines were rendered for them.
fn render(
    of: &Rendering<'_>,
    files: &mut [NewFile],
    copied: &[(Part, FileKind)],
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
