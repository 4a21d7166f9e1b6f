//! The page of a handout: the routine's printed lines and players for its takes. It works from a folder or a server,
//! with or without its script.
//!
//! All text of a routine passes through [`escape`].

mod bare;
mod card;
mod choices;
mod content;
mod data;
mod installed;
mod lines;
mod stand;
mod takes;

use super::{engine, escape, policy};
use crate::sheet::inline;
use crate::words::say;
pub use content::{HandoutPage, PageSheet, PageTake};
use lines::KeyStrips;
use std::sync::LazyLock;

/// Name of the page in its folder.
pub const NAME: &str = "index.html";

const STYLE: &str = concat!(
    include_str!("style/page.css"),
    include_str!("style/lines.css"),
    include_str!("style/pencil.css"),
    include_str!("style/stand.css"),
    include_str!("style/loop.css"),
);
/// Each file may use the files before it.
const OWN_SCRIPT: &str = concat!(
    include_str!("script/older.js"),
    include_str!("script/elements.js"),
    include_str!("script/data.js"),
    include_str!("script/memory.js"),
    include_str!("script/tracks.js"),
    include_str!("script/place.js"),
    include_str!("script/awake.js"),
    include_str!("script/session.js"),
    include_str!("script/shown.js"),
    include_str!("script/more.js"),
    include_str!("script/stand.js"),
    include_str!("script/card.js"),
    include_str!("script/keep.js"),
    include_str!("script/drawing.js"),
    include_str!("script/rendered.js"),
    include_str!("script/settings.js"),
    include_str!("script/kept.js"),
    include_str!("script/pencil.js"),
    include_str!("script/zoomed.js"),
    include_str!("script/marks.js"),
    include_str!("script/whole.js"),
    include_str!("script/looped.js"),
    include_str!("script/opening.js"),
    include_str!("script/pencilled.js"),
    include_str!("script/start.js"),
);

/// The page's script, a module: the engine's part and the page's own.
static SCRIPT: LazyLock<String> = LazyLock::new(|| format!("{}{OWN_SCRIPT}", engine::script()));

/// Draws all lines where the script above cannot be read or has failed.
const UNFOLD: &str = include_str!("unfold.js");

impl HandoutPage<'_> {
    /// The page and the files for installing it, with their names. The page is the last, because it names the others.
    pub fn files(&self) -> Vec<(String, Vec<u8>)> {
        let html = self.html();
        let manifest = installed::manifest(&self.title());
        let mut kept: Vec<(&str, &[u8])> = vec![
            (NAME, html.as_bytes()),
            (installed::MANIFEST, manifest.as_bytes()),
        ];
        kept.extend(installed::ICONS.map(|(name, _, content)| (name, content)));
        let tracks: Vec<(&str, &str)> = self
            .takes
            .iter()
            .map(|take| (take.file.as_str(), take.state.as_str()))
            .collect();
        let sheets = self.sheets.iter();
        let sheets: Vec<(&str, &[u8])> = sheets
            .map(|sheet| (sheet.file.as_str(), sheet.content.as_slice()))
            .collect();
        let worker = installed::worker(&kept, &sheets, &tracks);
        let page = kept.remove(0);
        kept.extend([(installed::WORKER, worker.as_bytes()), page]);
        let files = kept.into_iter();
        files
            .map(|(name, content)| (name.to_owned(), content.to_owned()))
            .collect()
    }

    /// Its title: the routine's, and the player's name.
    fn title(&self) -> String {
        match self.whose {
            Some(player) => format!("{player}: {}", self.edition.teacher().title),
            None => self.edition.teacher().title.clone(),
        }
    }

    /// True for a page of one file, without tracks beside it.
    pub fn is_alone(&self) -> bool {
        self.list.is_none()
    }

    /// The page.
    pub fn html(&self) -> String {
        let [before, after] = self.around_engine();
        format!("{before}{}{after}", engine::letters())
    }

    /// What stands before and behind the letters of its engine, for those who have these already.
    pub fn around_engine(&self) -> [String; 2] {
        let strips: Vec<KeyStrips> = self
            .keys()
            .into_iter()
            .map(|key| KeyStrips::draw(self.edition, key))
            .collect();
        let [open, close] = engine::DATA_ENDS;
        let before = self.head(&strips) + &self.body(&strips) + open;
        let after = format!(
            "{close}<script type=\"module\">{}</script>\n<script>{UNFOLD}</script>\n</body>\n</html>\n",
            *SCRIPT
        );
        [before, after]
    }

    /// From the beginning to where its body begins.
    fn head(&self, strips: &[KeyStrips]) -> String {
        let routine = self.edition.teacher();
        let title = escape::html(&self.title());
        let scripts = [SCRIPT.as_str(), UNFOLD];
        let policy = escape::html(&match self.is_alone() {
            true => policy::alone(STYLE, &scripts),
            false => policy::of(STYLE, &scripts),
        });
        let language = routine.words_in;
        let mut html = format!(
            "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"generator\" content=\"leadpipe\">\n",
            language.tag()
        );
        html += &format!(
            "<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta name=\"color-scheme\" content=\"light dark\">\n\
             {}<title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n",
            self.links()
        );
        html + &inline::definitions(strips.iter().flat_map(KeyStrips::pages))
    }

    /// The files for installing it, and its icon.
    fn links(&self) -> String {
        if self.is_alone() {
            return "<link rel=\"icon\" href=\"data:,\">\n".to_owned();
        }
        let icon = installed::ICONS[0].0;
        format!(
            "<link rel=\"manifest\" href=\"{}\">\n<link rel=\"icon\" href=\"{icon}\">\n\
             <link rel=\"apple-touch-icon\" href=\"{icon}\">\n",
            installed::MANIFEST
        )
    }

    /// What is read, and the data for its script.
    fn body(&self, strips: &[KeyStrips]) -> String {
        let routine = self.edition.teacher();
        let title = escape::html(&self.title());
        let language = routine.words_in;
        let lang = escape::language(routine.language.as_deref());
        let mut html = format!("<header>\n<h1{lang}>{title}</h1>\n");
        if let Some(purpose) = &routine.purpose {
            html += &format!("<p{lang}>{}</p>\n", escape::html(purpose));
        }
        html += &format!(
            "<p class=\"soft\">{}</p>\n</header>\n<main>\n",
            escape::html(&say::for_the_instrument(
                language,
                routine.instrument.name_in(language),
                routine.names.of(routine.comfortable_top)
            ))
        );
        html += &card::html(language);
        html += &takes::html(self);
        html += &lines::html(self, strips);
        html += &stand::html(language);
        html += &format!("</main>\n{}", self.foot());
        html + &data::html(self, strips)
    }

    /// The keys of the takes, each once, in order.
    fn keys(&self) -> Vec<i32> {
        let mut keys: Vec<i32> = vec![];
        for take in &self.takes {
            if !keys.contains(&take.score.take.key) {
                keys.push(take.score.take.key);
            }
        }
        keys
    }

    fn foot(&self) -> String {
        let language = self.edition.teacher().words_in;
        let link = |file: &str| format!("<a href=\"{}\">", escape::address(file));
        let mut html = format!(
            "<footer>\n<div id=\"kept\" hidden>\n<p class=\"soft\"></p>\n\
             <button type=\"button\" class=\"quiet\" hidden>{}</button>\n</div>\n",
            say::home_screen(language)
        );
        for PageSheet { title, file, .. } in &self.sheets {
            let words = say::sheet_to_print(language, link(file), escape::html(title), "</a>");
            html += &format!("<p>{words}</p>\n");
        }
        if let Some(list) = self.list {
            let words = say::list_of_tracks(language, link(list), "</a>");
            html += &format!("<p class=\"soft\">{words}</p>\n");
        }
        html + "</footer>\n"
    }
}
