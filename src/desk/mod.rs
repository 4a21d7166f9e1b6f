//! The desk: the page on which a teacher writes, hears, prints and hands out routines.
//!
//! It is one HTML file with the engine in it, and works from a folder, a memory stick or a server. Served by
//! `leadpipe desk FOLDER` it also opens and saves the routines of that folder. The text of a routine is the one truth: the
//! page shows what the engine makes of it, and every change is a new text.

#[cfg(feature = "share")]
mod site;
pub mod words;

#[cfg(feature = "share")]
pub use site::{DeskSite, secret};

use crate::brass::caution;
use crate::handout::base64::base64;
use crate::handout::{engine, escape, policy};
use crate::words::{Language, say};
use serde::Serialize;
use std::sync::LazyLock;

const STYLE: &str = concat!(
    include_str!("style/page.css"),
    include_str!("style/start.css"),
    include_str!("style/sheet.css"),
    include_str!("style/tools.css"),
    include_str!("style/print.css"),
);

/// Each file may use the files before it; the first ones are the pupil's page's.
const OWN_SCRIPT: &str = concat!(
    include_str!("../handout/page/script/elements.js"),
    include_str!("../handout/page/script/place.js"),
    include_str!("script/data.js"),
    include_str!("script/words.js"),
    include_str!("script/entries.js"),
    include_str!("script/store.js"),
    include_str!("script/steps.js"),
    include_str!("script/folder.js"),
    include_str!("script/book.js"),
    include_str!("script/heard.js"),
    include_str!("script/notes.js"),
    include_str!("script/drawn.js"),
    include_str!("script/pen.js"),
    include_str!("script/tools.js"),
    include_str!("script/controls.js"),
    include_str!("script/card.js"),
    include_str!("script/pencil.js"),
    include_str!("script/sheet.js"),
    include_str!("script/text.js"),
    include_str!("script/findings.js"),
    include_str!("script/wave.js"),
    include_str!("script/handing.js"),
    include_str!("script/make.js"),
    include_str!("script/saving.js"),
    include_str!("script/bar.js"),
    include_str!("script/first.js"),
    include_str!("script/adopting.js"),
    include_str!("script/start.js"),
);

/// The page's script, a module: the engine's part and the desk's own.
static SCRIPT: LazyLock<String> = LazyLock::new(|| format!("{}{OWN_SCRIPT}", engine::script()));

/// What the page's script is told; `script/data.js` declares it.
#[derive(Serialize)]
struct Data<'a> {
    /// Name of the folder, if the page is served with one.
    folder: Option<&'a str>,
    words: std::collections::BTreeMap<&'static str, &'static str>,
    version: &'static str,
}

/// The page; `folder` is the name of the folder whose files it is served with.
pub fn html(folder: Option<&str>) -> String {
    let data = Data {
        folder,
        words: words::WORDS.into_iter().collect(),
        version: env!("CARGO_PKG_VERSION"),
    };
    let data = serde_json::to_string(&data).expect("texts can be written");
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"generator\" content=\"leadpipe\">\n\
         <link rel=\"icon\" href=\"data:,\">\n<title>{}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n\
         <noscript><p>{}</p></noscript>\n<main id=\"desk\"></main>\n{}\
         <script type=\"application/json\" id=\"data\">{}</script>\n{}\
         <script type=\"module\">{}</script>\n</body>\n</html>\n",
        escape::html(&policy_of(folder.is_some())),
        escape::html(words::word("title")),
        escape::html(words::word("no script")),
        caution_for_players(),
        escape::data(&data),
        format_args!("{}{}", engine::data_block(), workshop_block()),
        *SCRIPT
    )
}

/// The module with what the desk asks for beyond the engine, compressed with gzip: `.ci/engine --update` makes it.
const WORKSHOP: &[u8] = include_bytes!("workshop.wasm.gz");

/// The element that holds it as data.
fn workshop_block() -> String {
    let letters = base64(WORKSHOP);
    format!("<script type=\"application/wasm\" id=\"leadpipe-workshop\">{letters}</script>\n")
}

/// What every player reads before playing. It is printed under the lines, too.
fn caution_for_players() -> String {
    let language = Language::En;
    let mut footer = format!(
        "<footer class=\"caution\">\n<h2>{}</h2>\n",
        escape::html(say::before_you_play(language))
    );
    for paragraph in caution::long(language) {
        footer += &format!("<p>{}</p>\n", escape::html(paragraph));
    }
    footer + "</footer>\n"
}

/// The policy of the page (W3C, Content Security Policy): its own script and style, and no request to anywhere but, where it
/// is served with files, to its own server.
fn policy_of(served: bool) -> String {
    let connect = if served { "'self'" } else { "'none'" };
    format!(
        "default-src 'none'; script-src '{}' {}; style-src '{}'; img-src data: blob:; media-src blob:; \
         worker-src blob:; connect-src {connect}; base-uri 'none'; form-action 'none'",
        policy::source(&SCRIPT),
        engine::SCRIPT_SOURCE,
        policy::source(STYLE)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_asks_nobody_for_anything() {
        let alone = html(None);
        assert!(alone.contains("connect-src &#39;none&#39;"));
        assert!(html(Some("lessons")).contains("connect-src &#39;self&#39;"));
        // What a browser would fetch by itself.
        for asked in ["src=\"", "href=\"http", "@import", "url(", "https://"] {
            let page = alone.replace("www.w3.org", "");
            assert!(!page.contains(asked), "{asked}");
        }
    }

    #[test]
    fn the_caution_stands_on_it() {
        let page = html(None);
        for paragraph in caution::long(Language::En) {
            assert!(page.contains(&escape::html(paragraph)), "{paragraph}");
        }
    }

    #[test]
    fn the_script_ends_no_element() {
        assert!(!SCRIPT.contains("</"), "it would end there");
        assert!(!SCRIPT.contains("<!--"));
        assert!(!STYLE.contains("</"));
    }

    #[test]
    fn a_name_of_a_folder_is_only_shown() {
        let page = html(Some("</script><script>alert(1)</script>"));
        assert!(!page.contains("<script>alert"));
    }

    /// The words that the script asks for.
    fn asked() -> std::collections::BTreeSet<&'static str> {
        let calls = OWN_SCRIPT.match_indices("t(\"");
        // Not the end of another name, such as `split("`.
        let own = calls.filter(|(at, _)| {
            let before = OWN_SCRIPT[..*at].chars().next_back();
            before.is_none_or(|c| !c.is_alphanumeric())
        });
        own.filter_map(|(at, call)| OWN_SCRIPT[at + call.len()..].split('"').next())
            .collect()
    }

    #[test]
    fn every_word_that_the_page_asks_for_is_in_the_table() {
        let known = words::WORDS.map(|(key, _)| key);
        for word in asked() {
            assert!(known.contains(&word), "“{word}” has no words");
        }
    }

    #[test]
    fn no_word_is_idle() {
        for (key, _) in words::WORDS {
            let of_page = ["title", "no script"].contains(&key);
            let field = key.strip_prefix("field ").unwrap_or(key);
            assert!(
                of_page
                    || OWN_SCRIPT.contains(&format!("key: \"{field}\""))
                    || OWN_SCRIPT.contains(&format!("\"{key}\"")),
                "{key} is idle"
            );
        }
    }
}
