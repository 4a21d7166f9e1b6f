//! Compressed MusicXML (`.mxl`): a ZIP file whose `META-INF/container.xml` names the score in it.
//!
//! Nothing is extracted to disk: a path in the file only names another entry of the same file.

use super::{document, text};
use crate::exchange::other_files;
use crate::problem::Problem;
use std::io::{Cursor, Read};
use zip::ZipArchive;
use zip::result::ZipError;

/// The most entries that a file may have.
const MOST_ENTRIES: usize = 1000;

/// The most places that look like the end of the list of entries: one is, and chance may add a few.
const MOST_ENDS: usize = 16;

/// The most bytes of the entry that names the score.
const LARGEST_CONTAINER: usize = 1 << 20;

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
    let (entries, ends) = signatures(bytes);
    if entries > MOST_ENTRIES {
        return Err(Problem::error(format!(
            "it is packed from more than {MOST_ENTRIES} files, so it is no score"
        )));
    }
    if ends > MOST_ENDS {
        return Err(damaged(ZipError::FileNotFound));
    }
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(damaged)?;
    let name = match entry(&mut archive, CONTAINER, LARGEST_CONTAINER)? {
        Some(container) => root_file(&text::decode(container)?)?,
        // Some programs omit the container; then there is one score.
        None => lone_score(&archive)?,
    };
    match entry(&mut archive, &name, text::LARGEST)? {
        Some(score) => Ok(score),
        None => Err(Problem::error(format!(
            "it says that its music is in {name}, and there is no such entry in it"
        ))
        .hint("export it once more, or as uncompressed MusicXML")),
    }
}

/// How many entries and ends of lists of entries there can be: each has its signature. The list is read whole, and
/// every end of one is tried, so that both are counted before.
fn signatures(bytes: &[u8]) -> (usize, usize) {
    let count = |signature: &[u8]| bytes.windows(4).filter(|four| *four == signature).count();
    (count(b"PK\x01\x02"), count(b"PK\x05\x06"))
}

/// The content of an entry, if it exists.
fn entry(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    name: &str,
    most: usize,
) -> Result<Option<Vec<u8>>, Problem> {
    let file = match archive.by_name(name) {
        Ok(file) => file,
        Err(ZipError::FileNotFound) => return Ok(None),
        Err(error) => return Err(damaged(error)),
    };
    let most = most as u64;
    let mut content = vec![];
    // The declared size of the entry may be wrong, so the output is counted.
    file.take(most + 1)
        .read_to_end(&mut content)
        .map_err(|error| damaged(ZipError::Io(error)))?;
    if content.len() as u64 > most {
        return Err(Problem::error(format!(
            "unpacked, {} is larger than {} MiB, which no warm-up needs",
            if name == CONTAINER {
                CONTAINER
            } else {
                "its music"
            },
            most >> 20
        )));
    }
    Ok(Some(content))
}

/// The path of the first score that a container names.
fn root_file(container: &str) -> Result<String, Problem> {
    let within =
        |problem: Problem| Problem::error(format!("its {CONTAINER} cannot be used: {problem}"));
    let document = document::parse(container).map_err(within)?;
    let mut files = document
        .descendants()
        .filter(|n| n.has_tag_name("rootfile"));
    // The first is the score, whatever its type; others are renderings of it.
    let path = files.find_map(|n| n.attribute("full-path"));
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
        (Some(_), Some(_)) => Err(Problem::error("it is packed from several scores")
            .hint("export each alone, as MusicXML")),
        (None, _) => {
            let names: Vec<_> = archive.file_names().filter_map(Result::ok).collect();
            Err(other_files::packed(names.iter().map(|name| &**name)))
        }
    }
}

fn damaged(error: ZipError) -> Problem {
    let what = match error {
        ZipError::UnsupportedArchive(_) => "it is packed in a way that scores are not",
        _ => "it is cut short or damaged, so it cannot be unpacked",
    };
    Problem::error(what).hint("export it once more, or as uncompressed MusicXML")
}
