//! The requests of the desk.

use crate::engine::request::TakeRequest;
use serde::Deserialize;

/// A request.
#[derive(Debug, Deserialize)]
#[serde(tag = "do", rename_all = "camelCase", deny_unknown_fields)]
pub enum Request {
    /// Be ready.
    Start {},
    /// Check a routine.
    Judge(JudgeRequest),
    /// Offer what would mend its problems.
    Mend(JudgeRequest),
    /// List the built-in routines.
    Shelf(ShelfRequest),
    /// Choose a built-in routine for a player.
    Choose(ChooseRequest),
    /// Take the text of a built-in routine.
    TakeDown(TakeDownRequest),
    /// Make the pupil's page, as one file.
    Page(PageRequest),
    /// Write a routine for another program.
    Export(ExportRequest),
    /// Make a routine of another program's file.
    Adopt(AdoptRequest),
    /// Write a mark of a pencil into a routine.
    TakeMark(TakeMarkRequest),
}

/// Check a routine at some takes, or offer what would mend it there.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JudgeRequest {
    pub routine: String,
    #[serde(default)]
    pub takes: Vec<TakeRequest>,
    pub age: Option<String>,
}

/// List the built-in routines for an instrument.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShelfRequest {
    pub instrument: Option<String>,
}

/// Choose a built-in routine for a player.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChooseRequest {
    pub instrument: Option<String>,
    pub highest: String,
    pub lowest: Option<String>,
    pub age: Option<String>,
}

/// Take the text of a built-in routine, carried to an instrument.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakeDownRequest {
    pub name: String,
    pub instrument: Option<String>,
}

/// Make the pupil's page of a routine, as one file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PageRequest {
    pub routine: String,
    #[serde(default)]
    pub take: TakeRequest,
    /// Whose page it is.
    pub player: Option<String>,
}

/// Write a routine for another program.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExportRequest {
    pub routine: String,
    #[serde(default)]
    pub take: TakeRequest,
    pub to: Format,
}

/// A kind of file of other programs.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Format {
    /// MusicXML 4.0.
    MusicXml,
    /// Standard MIDI File 1.0.
    Midi,
}

/// Make a routine of another program's file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdoptRequest {
    /// Name of the file, with its ending.
    pub name: String,
    /// Its bytes, in base64.
    pub data: String,
    pub instrument: Option<String>,
    /// Whose part, or which tune: its number or its name.
    pub part: Option<String>,
    /// True takes the notes as they sound.
    #[serde(default)]
    pub concert: bool,
}

/// Write a mark of a pencil into a routine.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakeMarkRequest {
    pub routine: String,
    pub pencil: String,
    /// Which mark of it, from 0.
    pub index: usize,
}
