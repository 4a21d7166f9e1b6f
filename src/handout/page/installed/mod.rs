//! Files that make a handout installable on a phone: a manifest (W3C Web Application Manifest), icons and a service
//! worker (W3C Service Workers). Browsers use them only on https and on localhost.

use crate::handout::escape;
use sha2::{Digest, Sha256};

/// Name of the manifest.
pub const MANIFEST: &str = "leadpipe.webmanifest";
/// Name of the service worker. Its scope is the folder it is in.
pub const WORKER: &str = "leadpipe-worker.js";
/// Names of the icons and their widths in pixels.
pub const ICONS: [(&str, u32, &[u8]); 2] = [
    ("leadpipe-192.png", 192, include_bytes!("leadpipe-192.png")),
    ("leadpipe-512.png", 512, include_bytes!("leadpipe-512.png")),
];

const SCRIPT: &str = include_str!("service-worker.js");

/// The manifest of a handout called `title`.
pub fn manifest(title: &str) -> String {
    let icons: Vec<String> = ICONS
        .iter()
        .map(|(name, dots, _)| {
            format!(
                "{{\"src\":\"{name}\",\"sizes\":\"{dots}x{dots}\",\"type\":\"image/png\",\"purpose\":\"any maskable\"}}"
            )
        })
        .collect();
    let title = escape::json(title);
    format!(
        "{{\n\"name\":{title},\n\"short_name\":{title},\n\"start_url\":\"./\",\n\"scope\":\"./\",\n\
         \"display\":\"standalone\",\n\"background_color\":\"#14181b\",\n\"theme_color\":\"#14181b\",\n\
         \"icons\":[{}]\n}}\n",
        icons.join(",")
    )
}

/// The service worker for a page and its files. `page` and `sheets` are names with contents; `tracks` are names with a
/// value that changes when the track changes.
pub fn worker(page: &[(&str, &[u8])], sheets: &[(&str, &[u8])], tracks: &[(&str, &str)]) -> String {
    let mut hash = Sha256::new();
    let files = page.iter().chain(sheets).copied();
    let all = files.chain(tracks.iter().map(|(name, state)| (*name, state.as_bytes())));
    for (name, content) in all {
        hash.update((name.len() as u64).to_le_bytes());
        hash.update(name);
        hash.update((content.len() as u64).to_le_bytes());
        hash.update(content);
    }
    hash.update(SCRIPT);
    let state: String = hash.finalize()[..8]
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    let list = |names: &mut dyn Iterator<Item = &str>| {
        names
            .map(|name| escape::json(&escape::address(name)))
            .collect::<Vec<_>>()
            .join(",")
    };
    let mut names = page.iter().map(|(name, _)| *name);
    let page = format!("\"./\",{}", list(&mut names));
    let sheets = list(&mut sheets.iter().map(|(name, _)| *name));
    let tracks = list(&mut tracks.iter().map(|(name, _)| *name));
    format!(
        "// Written by leadpipe.\nconst NAME = `leadpipe ${{registration.scope}} {state}`;\n\
         const FILES = {{ page: [{page}], sheets: [{sheets}], tracks: [{tracks}] }};\n\n{SCRIPT}"
    )
}
