//! A page that lists the names in a folder that has no page of its own.

use super::folder;
use crate::handout::escape;
use std::fs;
use std::path::Path;

/// The most names that are shown.
const MOST: usize = 1000;

const STYLE: &str = ":root { color-scheme: light dark } body { font: 1.0625rem/1.5 system-ui, sans-serif; \
    max-width: 42rem; margin: 0 auto; padding: 1rem; overflow-wrap: anywhere } li { list-style: none } ul { padding: 0 } \
    a { display: inline-block; padding: .6rem 0 }";

/// The page for the folder at `path`; `top` is true for the shared folder itself.
pub fn page(path: &Path, top: bool) -> String {
    let mut names: Vec<(String, bool)> = fs::read_dir(path)
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|entry| {
            let kind = entry.file_type().ok()?;
            let name = entry.file_name().into_string().ok()?;
            let shown = folder::is_plain(&name) && (kind.is_file() || kind.is_dir());
            shown.then_some((name, kind.is_dir()))
        })
        .take(MOST)
        .collect();
    names.sort();
    let title = path.file_name().and_then(|n| n.to_str());
    let title = escape::html(title.unwrap_or("Folder"));
    let mut html = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" href=\"data:,\">\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n<ul>\n"
    );
    if !top {
        html += "<li><a href=\"../\">Up</a></li>\n";
    }
    for (name, folder) in names {
        let slash = if folder { "/" } else { "" };
        html += &format!(
            "<li><a href=\"{}{slash}\">{}{slash}</a></li>\n",
            escape::address(&name),
            escape::html(&name)
        );
    }
    html + "</ul>\n</main>\n</body>\n</html>\n"
}
