//! What the page's script must know, as data that no browser runs.

use super::Page;
use super::lines::Strips;
use crate::handout::escape;
use crate::sheet::course;

/// The takes with their courses, and where the notes of every strip are.
pub fn html(page: &Page<'_>, strips: &[Strips]) -> String {
    let takes: Vec<String> = page
        .takes
        .iter()
        .map(|take| {
            format!(
                "{{\"title\":{},\"file\":{},\"key\":{},\"lines\":{}}}",
                escape::json(&take.title),
                escape::json(&escape::address(&take.file)),
                take.score.take.key,
                course::course(&take.score, |index| take.of[index])
            )
        })
        .collect();
    let keys: Vec<String> = strips
        .iter()
        .map(|strips| {
            let lines: Vec<String> = strips
                .lines
                .iter()
                .map(|strip| match strip {
                    Some(strip) => format!("[{}]", strip.places.join(",")),
                    None => "null".to_owned(),
                })
                .collect();
            format!("\"{}\":[{}]", strips.key, lines.join(","))
        })
        .collect();
    format!(
        "<script type=\"application/json\" id=\"course\">{{\"takes\":[{}],\"places\":{{{}}}}}</script>\n",
        takes.join(","),
        keys.join(",")
    )
}
