//! The score of a group: on paper for whoever conducts, and as MusicXML.

use super::room::Room;
use crate::command::Failure;
use crate::edition::name;
use crate::render::files::{self, Replace};
use crate::score::{Score, Take};
use crate::sheet::Paper;

/// Writes the score of a room into its folder, once for each key.
///
/// # Errors
/// If a file cannot be written, or somebody's own file is in its way.
pub fn write(room: &Room<'_, '_>, paper: Paper, replace: Replace) -> Result<(), Failure> {
    let mut all: Vec<(String, Vec<u8>)> = vec![];
    for key in room.keys() {
        let take = Take {
            key,
            ..Take::default()
        };
        let scores = room.editions().map(|edition| edition.printed(&take));
        // A part may have no line in a key.
        let Ok(scores) = scores.collect::<Result<Vec<Score<'_>>, _>>() else {
            continue;
        };
        let scores: Vec<&Score<'_>> = scores.iter().collect();
        let stem = match key {
            0 => "score".to_owned(),
            key => format!("score {}", name::key(key)),
        };
        if let Some(content) = pdf(&scores, &room.title(), paper)? {
            all.push((format!("{stem}.pdf"), content));
        }
        if let Some(content) = musicxml(&scores) {
            all.push((format!("{stem}.musicxml"), content));
        }
    }
    let files = all.iter();
    let files = files.map(|(name, content)| (name.as_str(), content.as_slice()));
    files::put_all(&room.folder, files, replace)?;
    Ok(())
}

#[cfg(feature = "pdf")]
fn pdf(scores: &[&Score<'_>], title: &str, paper: Paper) -> Result<Option<Vec<u8>>, Failure> {
    use crate::sheet::{SheetOptions, engrave_full_score};
    let options = SheetOptions {
        paper,
        ..SheetOptions::default()
    };
    let Some(sheet) = engrave_full_score(scores, title, &options) else {
        return Ok(None);
    };
    let pdf = crate::print::pdf::pdf(&sheet);
    let pdf =
        pdf.map_err(|why| Failure::error(format!("the score could not be made a PDF: {why}")))?;
    Ok(Some(pdf))
}

#[cfg(not(feature = "pdf"))]
fn pdf(_: &[&Score<'_>], _: &str, _: Paper) -> Result<Option<Vec<u8>>, Failure> {
    Ok(None)
}

#[cfg(feature = "exchange")]
fn musicxml(scores: &[&Score<'_>]) -> Option<Vec<u8>> {
    use crate::exchange::musicxml::{FingeredNotes, write_parts};
    Some(write_parts(scores, FingeredNotes::Unusual).into_bytes())
}

#[cfg(not(feature = "exchange"))]
fn musicxml(_: &[&Score<'_>]) -> Option<Vec<u8>> {
    None
}
