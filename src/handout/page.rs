//! The page of a handout: it plays each track and jumps to each line, opened from a folder or from a server,
//! with or without its script.
//!
//! Everything that comes from a routine goes through [`escape`].

use super::{escape, policy};
use crate::brass::caution;
use crate::render::RenderFailure;
use crate::render::growing::Growing;
use crate::routine::{Line, On, Routine};
use crate::score::{Score, ScoreLine};
use num_traits::ToPrimitive;
use std::fs;
use std::io::Write;
use std::path::Path;

/// Its name in its folder.
pub const NAME: &str = "index.html";

const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");

/// Stands at the head of every page of ours, and tells it from somebody else's.
const MARK: &str = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
    <meta name=\"generator\" content=\"leadpipe\">\n";

/// What a page is made from.
pub struct Page<'a> {
    /// The routine.
    pub routine: &'a Routine,
    /// Whose it is, where it is one player's own.
    pub whose: Option<&'a str>,
    /// Its takes, in the order of practice.
    pub takes: Vec<Take<'a>>,
    /// Name of the list of its tracks, in the same folder.
    pub list: &'a str,
}

/// A take on a page.
pub struct Take<'a> {
    /// What it is called.
    pub title: String,
    /// Name of its file, in the same folder.
    pub file: String,
    /// What is played when.
    pub score: Score<'a>,
}

/// Why a page could not be written.
#[derive(Debug)]
pub enum PageFailure {
    /// A page of somebody else's stands there.
    NotOurs(std::path::PathBuf),
    /// It could not be written.
    Unwritten(RenderFailure),
}

impl Page<'_> {
    /// Writes the page into `folder`, unless it stands there already.
    ///
    /// # Errors
    /// Where it cannot be written, or would replace what is not ours.
    pub fn write(&self, folder: &Path) -> Result<(), PageFailure> {
        let path = folder.join(NAME);
        let html = self.html();
        match fs::read(&path) {
            Ok(there) if there == html.as_bytes() => return Ok(()),
            Ok(there) if !there.starts_with(MARK.as_bytes()) => {
                return Err(PageFailure::NotOurs(path));
            }
            _ if path.is_dir() => {
                return Err(PageFailure::Unwritten(RenderFailure::FolderInTheWay(path)));
            }
            _ => {}
        }
        let written = || {
            let mut file = Growing::begin(folder, vec![])?;
            file.sink().write_all(html.as_bytes())?;
            file.complete(b"")?;
            file.finish(&path)
        };
        let written = written().map_err(RenderFailure::at(&path));
        written.map(drop).map_err(PageFailure::Unwritten)
    }

    /// The page.
    pub fn html(&self) -> String {
        let routine = self.routine;
        let title = escape::html(&routine.title);
        let title = match self.whose {
            Some(player) => format!("{}: {title}", escape::html(player)),
            None => title,
        };
        let policy = escape::html(&policy::of(STYLE, SCRIPT));
        let mut html = MARK.to_owned();
        html += &format!(
            "<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta name=\"color-scheme\" content=\"light dark\">\n\
             <link rel=\"icon\" href=\"data:,\">\n\
             <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        );
        html += &format!("<header>\n<h1>{title}</h1>\n");
        if let Some(purpose) = &routine.purpose {
            html += &format!("<p>{}</p>\n", escape::html(purpose));
        }
        html += &format!(
            "<p class=\"soft\">For the {}, easy up to {}.</p>\n</header>\n<main>\n",
            escape::html(routine.instrument.name),
            escape::html(&routine.comfortable_top.to_string())
        );
        html += &format!(
            "<section class=\"caution\" aria-labelledby=\"before\">\n<h2 id=\"before\">Before you play</h2>\n\
             <p>{}</p>\n<details>\n<summary>More on playing safely</summary>\n",
            escape::html(caution::SHORT)
        );
        for paragraph in caution::LONG {
            html += &format!("<p>{}</p>\n", escape::html(paragraph));
        }
        html += "</details>\n</section>\n";
        for (number, take) in (1..).zip(&self.takes) {
            html += &self.take(number, take);
        }
        html += &format!(
            "</main>\n<footer>\n<p class=\"soft\"><a href=\"{}\">The list of all tracks</a>, for a player \
             that opens lists.</p>\n</footer>\n<script>{SCRIPT}</script>\n</body>\n</html>\n",
            escape::address(self.list)
        );
        html
    }

    fn take(&self, number: usize, take: &Take<'_>) -> String {
        let title = escape::html(&take.title);
        let file = escape::address(&take.file);
        let length = duration(take.score.seconds.to_f64().unwrap_or(0.0));
        let count = match take.score.lines.len() {
            1 => "The line".to_owned(),
            n => format!("The {n} lines"),
        };
        // The first is what most pupils want; the others are a tap away.
        let open = if number == 1 { " open" } else { "" };
        let mut html = format!(
            "<section class=\"take\" aria-labelledby=\"take{number}\">\n\
             <h2 id=\"take{number}\">{title}</h2>\n\
             <p class=\"soft\">{length} · <a href=\"{file}\" download>Save this track<span hidden>: {title}\
             </span></a></p>\n\
             <div class=\"player\"><audio controls preload=\"metadata\" src=\"{file}\" \
             aria-labelledby=\"take{number}\"></audio></div>\n\
             <details{open}>\n<summary>{count}</summary>\n<ol>\n"
        );
        for line in &take.score.lines {
            html += &self.line(&file, line);
        }
        html += "</ol>\n</details>\n</section>\n";
        html
    }

    fn line(&self, file: &str, played: &ScoreLine) -> String {
        let line: &Line = &self.routine.lines[played.index];
        let number = played.index + 1;
        let name = escape::html(&line.name);
        let mut html = format!("<li>\n<h3>{number}. {name}</h3>\n");
        if let Some(purpose) = &line.purpose {
            html += &format!("<p>For: {}</p>\n", escape::html(purpose));
        }
        if let Some(say) = &line.say {
            html += &format!("<p>{}</p>\n", escape::html(say));
        }
        let start = seconds(&played.start);
        let length = played.total_seconds().to_f64().unwrap_or(0.0);
        html += &format!("<p class=\"soft\">{}</p>\n", facts(line, played, length));
        html += &format!(
            "<a class=\"jump\" href=\"{file}#t={start}\" data-start=\"{start}\"><span>Play from line \
             {number}</span> <span>{}</span></a>\n</li>\n",
            duration(start.parse().unwrap_or(0.0))
        );
        html
    }
}

/// How it is played, how long it takes, and the rest after it.
fn facts(line: &Line, played: &ScoreLine, length: f64) -> String {
    let mut facts = match line.on {
        On::Horn => vec![],
        On::Mouthpiece => vec!["On the mouthpiece.".to_owned()],
        On::Air => vec!["Breathing, without the horn.".to_owned()],
    };
    let times = played.passes.len();
    facts.push(match times {
        1 => format!("Lasts {}.", duration(length)),
        times => format!("{times} times through, {}.", duration(length)),
    });
    facts.push(match &played.rest {
        Some(rest) => {
            let rest = duration(rest.seconds.to_f64().unwrap_or(0.0));
            format!("Then rest for {rest}.")
        }
        None => "Then you have done it.".to_owned(),
    });
    facts.join(" ")
}

/// Seconds with three digits after the point.
fn seconds(exact: &num_rational::BigRational) -> String {
    format!("{:.3}", exact.to_f64().unwrap_or(0.0))
}

/// A length of time as on a player.
fn duration(seconds: f64) -> String {
    let whole = seconds.round() as u64;
    let (hours, minutes, seconds) = (whole / 3600, whole / 60 % 60, whole % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}
