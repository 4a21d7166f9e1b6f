//! The playlist of a folder's tracks: M3U8, in practice order.
//!
//! UTF-8; `#EXTM3U` at the top, then for each track its length in whole seconds, its title, and its file name.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::files::{self, Replace};
use super::part::TrackPart;
use super::reuse::record::Record;
use crate::edition::name;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// File name of the playlist.
pub const NAME: &str = "practice.m3u8";

/// A track in a playlist.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListEntry {
    /// Its file name.
    pub file: String,
    /// Its title.
    pub title: String,
    /// Its length in seconds, rounded.
    pub seconds: u64,
}

impl ListEntry {
    /// The entry of the track called `name`, from its record in `folder`; `None` if there is no record or no
    /// file. Of several kinds of file the smallest is chosen.
    ///
    /// # Errors
    /// If there is a record that cannot be read, or a file that the system says nothing of.
    pub fn of(folder: &Path, name: &str) -> Result<Option<Self>, RenderFailure> {
        let Some(record) = Record::load(folder, name)? else {
            return Ok(None);
        };
        for kind in FileKind::ALL.iter().rev() {
            let file = TrackPart::Mix.file_name(name, *kind);
            let recorded = record.file(TrackPart::Mix, *kind);
            if recorded.is_some_and(|recorded| recorded.name == file) && is_there(folder, &file)? {
                return Ok(Some(Self::from_record(file, &record)));
            }
        }
        Ok(None)
    }

    fn from_record(file: String, record: &Record) -> Self {
        let rate = u64::from(record.sample_rate).max(1);
        Self {
            file,
            title: record.title.clone(),
            // Whoever edits a record may write any number.
            seconds: record.frames.saturating_add(rate / 2) / rate,
        }
    }
}

/// True if there is such a file.
fn is_there(folder: &Path, file: &str) -> Result<bool, RenderFailure> {
    let path = folder.join(file);
    match fs::metadata(&path) {
        Ok(metadata) => Ok(metadata.is_file()),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(RenderFailure::reading(&path)(error)),
    }
}

/// Every track that `folder` has a record of, in practice order, which is the order of names.
///
/// # Errors
/// If a record cannot be read: a list without its track would look complete.
pub fn of_folder(folder: &Path) -> Result<Vec<ListEntry>, RenderFailure> {
    let mut names = Record::tracks(folder)?;
    names.sort_by(|a, b| name::order(a, b));
    let entries = names
        .iter()
        .filter_map(|name| ListEntry::of(folder, name).transpose());
    entries.collect()
}

/// Writes the playlist of `entries` into `folder`, if it changed.
///
/// # Errors
/// If it cannot be written, or somebody's own file is in its way.
pub fn write(folder: &Path, entries: &[ListEntry], replace: Replace) -> Result<(), RenderFailure> {
    files::put(folder, NAME, text(entries).as_bytes(), replace).map(drop)
}

/// The text of the playlist.
pub fn text(entries: &[ListEntry]) -> String {
    let mut text = "#EXTM3U\n".to_owned();
    for entry in entries {
        // A line end in a title would end the entry.
        let title = entry.title.replace(char::is_control, " ");
        text += &format!("#EXTINF:{},{title}\n{}\n", entry.seconds, entry.file);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_in_words_that_players_read() {
        let entry = |file: &str, title: &str, seconds| ListEntry {
            file: file.to_owned(),
            title: title.to_owned(),
            seconds,
        };
        let entries = [
            entry("a 060 key-0 together.mp3", "Übung, 60 clicks a minute", 61),
            entry("b.wav", "two\nrows", 0),
        ];
        assert_eq!(
            text(&entries),
            "#EXTM3U\n#EXTINF:61,Übung, 60 clicks a minute\na 060 key-0 together.mp3\n\
             #EXTINF:0,two rows\nb.wav\n"
        );
    }
}
