//! The lines of a page: the purpose of each, how to play it, its music, and when each take plays it.

use super::content::{HandoutPage, PageTake};
use crate::edition::Edition;
use crate::handout::escape;
use crate::pencil::{Pencil, lay, words};
use crate::routine::Routine;
use crate::score::{self, ScoreLine};
use crate::sheet::inline::Places;
use crate::sheet::{self, SheetOptions, inline, strip, timetable};
use crate::words::{duration, key, say};
use num_traits::ToPrimitive;

/// Widths that the music of a line is engraved to, in points: broken to few notes a system for a phone held
/// upright, where a staff space is then 9 of its pixels, and for wider screens.
pub const WIDTHS: [(&str, f64); 2] = [("strip narrow", 190.0), ("strip wide", 380.0)];

/// How many lines stand in the page as they are drawn. What follows is drawn when it comes into view: a browser that runs scripts takes
/// what is inside `noscript` for text, which costs a slow phone next to nothing.
const DRAWN_AT_ONCE: usize = 6;

/// A line of music in every width, with the positions of its moments.
pub struct Strip {
    pages: Vec<sheet::Page>,
    /// The position of every moment, for each width.
    pub places: Vec<Places>,
}

/// The music of all lines in one key.
pub struct KeyStrips {
    /// Half steps by which lines of pitches are moved.
    pub key: i32,
    /// One for each line of the teacher's routine; `None` if the line is left out in this key.
    pub lines: Vec<Option<Strip>>,
}

impl KeyStrips {
    /// Engraves the teacher's lines with the pencil's marks.
    pub fn draw(edition: &Edition, key: i32) -> Self {
        let lines = edition.teacher().lines.iter();
        let mut lines: Vec<Option<Strip>> = lines.map(|_| None).collect();
        let take = score::Take {
            key,
            ..score::Take::default()
        };
        // A key in which no line can be played has no take either.
        let score = edition.printed(&take).ok();
        let played = score.iter().flat_map(|s| s.lines.iter().enumerate());
        for (index, line) in played.filter(|(_, line)| line.rung == 0) {
            let score = score.as_ref().expect("its lines are gone through");
            let pages: Vec<sheet::Page> = WIDTHS
                .iter()
                .map(|(_, width)| {
                    strip(
                        score,
                        index,
                        &SheetOptions::default(),
                        edition.pencil(),
                        *width,
                    )
                })
                .collect();
            let places = pages
                .iter()
                .map(|page| inline::places(page, line, score))
                .collect();
            lines[line.index] = Some(Strip { pages, places });
        }
        Self { key, lines }
    }

    /// All drawings.
    pub fn pages(&self) -> impl Iterator<Item = &sheet::Page> {
        self.lines.iter().flatten().flat_map(|strip| &strip.pages)
    }
}

impl Strip {
    fn html(&self) -> String {
        let widths = WIDTHS.iter().zip(&self.pages);
        widths
            .map(|((class, _), page)| inline::strip(page, class))
            .collect()
    }
}

/// The lines in order.
pub fn html(page: &HandoutPage<'_>, strips: &[KeyStrips]) -> String {
    let mut html =
        "<section id=\"music\" aria-labelledby=\"lines-title\">\n<h2 id=\"lines-title\">"
            .to_owned();
    let teacher = page.edition.teacher();
    html += &say::the_lines(teacher.words_in, teacher.lines.len());
    html += "</h2>\n<ol id=\"lines\">\n";
    for index in 0..page.edition.teacher().lines.len() {
        html += &line(page, strips, index);
    }
    html + "</ol>\n</section>\n"
}

fn line(page: &HandoutPage<'_>, strips: &[KeyStrips], index: usize) -> String {
    let line = &page.edition.teacher().lines[index];
    let language = page.edition.teacher().words_in;
    let number = index + 1;
    let name = escape::html(&line.name);
    let lang = escape::language(page.edition.teacher().language.as_deref());
    let mut html = format!("<li data-line=\"{index}\">\n<h3{lang}>{number}. {name}</h3>\n");
    if let Some(purpose) = &line.purpose {
        html += &format!(
            "<p class=\"purpose\">{}</p>\n",
            escape::html(&say::purpose_of_a_line(language, purpose))
        );
    }
    if let Some(say) = &line.say {
        html += &format!("<p{lang}>{}</p>\n", escape::html(say));
    }
    let pencilled = page
        .edition
        .pencil()
        .map(|p| marks(p, page.edition.teacher(), index));
    let pencilled = escape::html(&pencilled.unwrap_or_default());
    html += &format!("<p class=\"pencilled\">{pencilled}</p>\n");
    for drawn in strips {
        let Some(strip) = &drawn.lines[index] else {
            continue;
        };
        html += &format!("<div class=\"music\" data-key=\"{}\">\n", drawn.key);
        if strips.len() > 1 {
            let key = escape::html(&key::moved(language, drawn.key));
            html += &format!("<p class=\"soft key\">{key}</p>\n");
        }
        if index < DRAWN_AT_ONCE {
            html += &strip.html();
        } else {
            html += &format!("<noscript>{}</noscript>\n", strip.html());
        }
        html += "</div>\n";
    }
    let mut played = false;
    for (at, take) in page.takes.iter().enumerate() {
        let here = take.score.lines.iter().find(|l| take.of[l.index] == index);
        if let Some(score_line) = here {
            html += &plays(page, number, (at, take), score_line);
            played = true;
        }
    }
    if !played {
        html += &format!("<p class=\"soft\">{}</p>\n", say::not_played_here(language));
    }
    html + "</li>\n"
}

/// The pencil's words beside a line, as on the sheet.
fn marks(pencil: &Pencil, teacher: &Routine, index: usize) -> String {
    let own = pencil
        .marks
        .iter()
        .filter(|mark| lay::find_line(&mark.target, teacher) == Ok(Some(index)));
    let said: Vec<String> = own
        .map(|mark| words::mark(teacher.words_in, mark))
        .collect();
    said.join(" · ")
}

/// When a take plays a line.
fn plays(
    page: &HandoutPage<'_>,
    number: usize,
    (at, take): (usize, &PageTake<'_>),
    played: &ScoreLine,
) -> String {
    let language = take.score.routine.words_in;
    let start = format!("{:.3}", played.start.to_f64().unwrap_or(0.0));
    let which = match page.takes.len() {
        1 => String::new(),
        _ => format!(
            "<span class=\"which\">, {}</span>",
            escape::html(&take.title)
        ),
    };
    // On a page of one file nothing plays without the script, which makes a button of it.
    let to = match page.is_alone() {
        true => "hidden".to_owned(),
        false => format!("href=\"{}#t={start}\"", escape::address(&take.file)),
    };
    format!(
        "<div class=\"play\" data-take=\"{at}\">\n<p class=\"soft\">{}</p>\n\
         <a class=\"jump\" {to} data-start=\"{start}\"><span>{}</span> \
         <span>{}</span></a>\n</div>\n",
        timetable::facts(language, played),
        say::play_from_line(language, number, which),
        duration(start.parse().unwrap_or(0.0))
    )
}
