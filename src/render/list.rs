//! The list of a folder's tracks that players open: M3U8, in the order of practice.
//!
//! UTF-8; `#EXTM3U` at its head, then for each track its length in whole seconds and its title, and the name
//! of its file.

use super::failure::RenderFailure;
use super::file_kind::FileKind;
use super::files;
use super::part::Part;
use super::reuse::record::Record;
use crate::edition::name;
use std::path::Path;

/// Its name in its folder.
pub const NAME: &str = "practice.m3u8";

/// A track in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Name of its file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// Its length, rounded.
    pub seconds: u64,
}

impl Entry {
    /// The entry of the track called `name`, as its record in `folder` tells; none where there is no
    /// record, or no file. Of several kinds of file the smallest is taken.
    pub fn of(folder: &Path, name: &str) -> Option<Self> {
        let record = Record::load(folder, name)?;
        let file = FileKind::ALL.iter().rev().find_map(|kind| {
            let file = Part::Mix.file_name(name, *kind);
            let recorded = record
                .file(Part::Mix, *kind)
                .is_some_and(|f| f.name == file);
            (recorded && folder.join(&file).is_file()).then_some(file)
        })?;
        let rate = u64::from(record.sample_rate).max(1);
        Some(Self {
            file,
            title: record.title.clone(),
            seconds: (record.frames + rate / 2) / rate,
        })
    }
}

/// Every track that `folder` has a record of, in the order of practice: that of their names.
pub fn of_folder(folder: &Path) -> Vec<Entry> {
    let mut names = Record::tracks(folder);
    names.sort_by(|a, b| name::order(a, b));
    let entries = names.iter().map(|name| Entry::of(folder, name));
    entries.flatten().collect()
}

/// Writes the list of `entries` into `folder`, unless it stands there already.
///
/// # Errors
/// Where it cannot be written.
pub fn write(folder: &Path, entries: &[Entry]) -> Result<(), RenderFailure> {
    files::put(folder, NAME, text(entries).as_bytes()).map(drop)
}

fn text(entries: &[Entry]) -> String {
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
        let entry = |file: &str, title: &str, seconds| Entry {
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
