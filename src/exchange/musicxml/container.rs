//! Compressed MusicXML (`.mxl`): a ZIP file whose `META-INF/container.xml` names the score in it.
//!
//! Nothing is extracted to disk: a path in the file only names another entry of the same file.

use super::text;
use crate::problem::Problem;
use roxmltree::{Document, ParsingOptions};
use std::io::{Cursor, Read};
use zip::ZipArchive;
use zip::result::ZipError;

/// The most entries that a file may have.
const MOST_ENTRIES: usize = 1000;

/// The entry in which the standard requires the score to be named.
const CONTAINER: &str = "META-INF/container.xml";

/// True for the first bytes of a ZIP file.
pub fn is_packed(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// The score in a compressed file, as bytes.
///
/// # Errors
/// If the file is damaged, names no score, or is too large.
pub fn unpack(bytes: &[u8]) -> Result<Vec<u8>, Problem> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(damaged)?;
    if archive.len() > MOST_ENTRIES {
        return Err(Problem::error(format!(
            "it is packed from more than {MOST_ENTRIES} files, so it is no score"
        )));
    }
    let name = match entry(&mut archive, CONTAINER)? {
        Some(container) => root_file(&text::decode(&container)?)?,
        // Some programs omit the container; then there is one score.
        None => lone_score(&archive)?,
    };
    match entry(&mut archive, &name)? {
        Some(score) => Ok(score),
        None => Err(Problem::error(format!(
            "it says that its music is in {name}, and there is no such entry in it"
        ))
        .hint("export it once more, or as uncompressed MusicXML")),
    }
}

/// The content of an entry, if it exists.
fn entry(archive: &mut ZipArchive<Cursor<&[u8]>>, name: &str) -> Result<Option<Vec<u8>>, Problem> {
    let file = match archive.by_name(name) {
        Ok(file) => file,
        Err(ZipError::FileNotFound) => return Ok(None),
        Err(error) => return Err(damaged(error)),
    };
    let most = text::LARGEST as u64;
    let mut content = vec![];
    // The declared size of the entry may be wrong, so the output is counted.
    file.take(most + 1)
        .read_to_end(&mut content)
        .map_err(|error| damaged(ZipError::Io(error)))?;
    if content.len() as u64 > most {
        return Err(Problem::error(format!(
            "unpacked, its music is larger than {} MiB, which no warm-up needs",
            most >> 20
        )));
    }
    Ok(Some(content))
}

/// The path of the first score that a container names.
fn root_file(container: &str) -> Result<String, Problem> {
    const MOST_NODES: u32 = 10_000;
    let options = ParsingOptions {
        allow_dtd: true,
        nodes_limit: MOST_NODES,
        ..ParsingOptions::default()
    };
    let document = Document::parse_with_options(container, options).ok();
    let path = document.as_ref().and_then(|document| {
        let mut files = document
            .descendants()
            .filter(|n| n.has_tag_name("rootfile"));
        // The first is the score, whatever its type; others are renderings of it.
        files.find_map(|n| n.attribute("full-path"))
    });
    path.map(str::to_owned)
        .ok_or_else(|| Problem::error(format!("its {CONTAINER} names no music")))
}

fn lone_score(archive: &ZipArchive<Cursor<&[u8]>>) -> Result<String, Problem> {
    let names = archive.file_names().filter_map(Result::ok);
    let mut scores = names.filter(|name| {
        let name = name.to_lowercase();
        !name.starts_with("meta-inf/") && (name.ends_with(".xml") || name.ends_with(".musicxml"))
    });
    match (scores.next(), scores.next()) {
        (Some(name), None) => Ok(name.into_owned()),
        _ => Err(Problem::error("it is a packed file, but not of one score")
            .hint("a score is exported as MusicXML, compressed (.mxl) or not (.musicxml)")),
    }
}

fn damaged(error: ZipError) -> Problem {
    let what = match error {
        ZipError::UnsupportedArchive(_) => "it is packed in a way that scores are not",
        _ => "it is cut short or damaged, so it cannot be unpacked",
    };
    Problem::error(what).hint("export it once more, or as uncompressed MusicXML")
}
