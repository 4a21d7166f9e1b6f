//! The report of a class: a page for the teacher, to print or to keep. Problems come first.

use super::escape;
use crate::words::{Language, Words, tell};

/// What is told of a class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassReport {
    /// The language of its words.
    pub language: Language,
    /// The class.
    pub title: String,
    /// What is wrong, one sentence each.
    pub problems: Vec<String>,
    /// Who might play something else, one sentence each.
    pub suggestions: Vec<String>,
    /// The players in order.
    pub rows: Vec<PlayerRow>,
}

/// A player in the table.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct PlayerRow {
    pub name: String,
    pub routine: String,
    pub marks: String,
    pub tracks: String,
    pub length: String,
}

const STYLE: &str = "body{font:16px/1.5 Georgia,serif;margin:2rem auto;max-width:48rem;padding:0 1rem}\
h1{font-size:1.6rem}h2{font-size:1.2rem;margin-top:1.5rem}table{border-collapse:collapse;width:100%}\
th,td{text-align:left;padding:.25rem .6rem .25rem 0;border-bottom:1px solid #999;vertical-align:top}\
.figure{text-align:right}tr{break-inside:avoid}@media print{body{margin:0;max-width:none}}";

impl ClassReport {
    /// The page. It holds its own style and asks nothing of any other place.
    pub fn html(&self) -> String {
        let title = escape::html(&self.title);
        let mut page = format!(
            "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n\
             <style>{STYLE}</style>\n</head>\n<body>\n<h1>{title}</h1>\n",
            self.language.tag()
        );
        page += &sentences(self.said(&tell::to_look_at()), &self.problems);
        page += &sentences(self.said(&tell::suggestions()), &self.suggestions);
        page += &self.table();
        page + "</body>\n</html>\n"
    }

    fn said<'w>(&self, words: &'w Words) -> &'w str {
        words.in_language(self.language)
    }

    fn table(&self) -> String {
        if self.rows.is_empty() {
            return String::new();
        }
        let mut table = format!(
            "<h2>{}</h2>
<table>
<thead><tr><th>{}</th><th>{}</th><th class=\"figure\">{}</th>\
             <th class=\"figure\">{}</th><th class=\"figure\">{}</th></tr></thead>
<tbody>
",
            self.said(&tell::who_plays_what()),
            self.said(&tell::heading_player()),
            self.said(&tell::heading_routine()),
            self.said(&tell::pencil_marks()),
            self.said(&tell::heading_tracks()),
            self.said(&tell::heading_length())
        );
        for row in &self.rows {
            let words = [&row.name, &row.routine].map(|w| format!("<td>{}</td>", escape::html(w)));
            let figures = [&row.marks, &row.tracks, &row.length]
                .map(|f| format!("<td class=\"figure\">{}</td>", escape::html(f)));
            table += &format!("<tr>{}{}</tr>\n", words.concat(), figures.concat());
        }
        table + "</tbody>\n</table>\n"
    }
}

/// A heading and a list; nothing where there is nothing to say.
fn sentences(heading: &str, all: &[String]) -> String {
    if all.is_empty() {
        return String::new();
    }
    let items = all
        .iter()
        .map(|one| format!("<li>{}</li>\n", escape::html(one)));
    format!(
        "<h2>{heading}</h2>\n<ul>\n{}</ul>\n",
        items.collect::<String>()
    )
}
