//! A routine for notation programs and sequencers, as `leadpipe export` writes it.

use super::request::{ExportRequest, Format};
use crate::edition::Edition;
use crate::engine::answer::{In, ProblemAnswer};
use crate::engine::opened::refused;
use crate::exchange::{midi, musicxml};
use crate::handout::base64::base64;
use crate::words::Language;
use serde::Serialize;

/// The content of a file.
#[derive(Debug, Serialize)]
pub struct Exported {
    ok: bool,
    data: String,
}

/// Writes a routine at a take.
pub fn export(request: &ExportRequest) -> Result<Exported, Vec<ProblemAnswer>> {
    let (take, _) = request.take.take()?;
    let text = &request.routine;
    let edition = Edition::read(text, None)
        .map_err(|problems| ProblemAnswer::problems(Language::En, In::Routine, text, &problems))?;
    let score = edition
        .score(&take)
        .map_err(|unplayable| refused(Language::En, unplayable))?;
    let content = match request.to {
        Format::MusicXml => musicxml::write(&score, musicxml::FingeredNotes::Unusual).into_bytes(),
        Format::Midi => midi::write(&score),
    };
    Ok(Exported {
        ok: true,
        data: base64(&content),
    })
}
