//! What a page is made from.

use crate::edition::Edition;
use crate::score::Score;

/// What a page is made from.
pub struct HandoutPage<'a> {
    /// The pupil's version: the teacher's lines are the page's, and the pupil's marks are drawn over them.
    pub edition: &'a Edition,
    /// The text of the routine's file.
    pub text: &'a str,
    /// The text of the pencil's file.
    pub pencil_text: Option<&'a str>,
    /// The player's name, if the page is made for one player.
    pub whose: Option<&'a str>,
    /// Its takes, in the order of practice.
    pub takes: Vec<PageTake<'a>>,
    /// Sheets to print.
    pub sheets: Vec<PageSheet>,
    /// Name of the list of its tracks, in the same folder; `None` for a page of one file, which has no tracks and plays what
    /// its engine renders.
    pub list: Option<&'a str>,
}

/// A take on a page.
pub struct PageTake<'a> {
    /// Its title.
    pub title: String,
    /// Name of its file, in the same folder; empty on a page of one file.
    pub file: String,
    /// What is played when, in the pupil's version.
    pub score: &'a Score<'a>,
    /// A value that changes when the file changes.
    pub state: String,
    /// For each line of that version, its index in the teacher's routine.
    pub of: &'a [usize],
}

/// A sheet beside a page.
pub struct PageSheet {
    /// Its title.
    pub title: String,
    /// Name of its file, in the same folder.
    pub file: String,
    /// The content of the file.
    pub content: Vec<u8>,
}
