//! What the page's script must know, as data that no browser runs.

use super::Page;
use super::bare::bare;
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
                "{{\"title\":{},\"file\":{},\"tempo\":\"{}\",\"key\":{},\"guide\":\"{}\",\"lines\":{}}}",
                escape::json(&take.title),
                escape::json(&escape::address(&take.file)),
                take.score.take.tempo,
                take.score.take.key,
                take.score.take.guide,
                course::course(take.score, |index| take.of[index])
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
        "<script type=\"application/json\" id=\"course\">{{\"title\":{},\"tempo\":{},\"player\":{},\"routine\":{},\"pencil\":{},\
         \"takes\":[{}],\"places\":{{{}}}}}</script>\n",
        escape::json(&page.edition.teacher().title),
        page.edition.teacher().tempo,
        page.whose.map_or("null".to_owned(), escape::json),
        escape::json(&bare(page.text)),
        page.pencil_text.map_or("null".to_owned(), escape::json),
        takes.join(","),
        keys.join(",")
    )
}
