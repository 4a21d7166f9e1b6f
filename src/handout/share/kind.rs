//! The media type of a file (IANA), by the extension of its name.

use std::path::Path;

/// The media type of a file.
pub fn of(path: &Path) -> &'static str {
    const KINDS: [(&str, &str); 22] = [
        ("html", "text/html; charset=utf-8"),
        ("htm", "text/html; charset=utf-8"),
        ("css", "text/css; charset=utf-8"),
        ("js", "text/javascript; charset=utf-8"),
        ("mjs", "text/javascript; charset=utf-8"),
        ("txt", "text/plain; charset=utf-8"),
        ("md", "text/plain; charset=utf-8"),
        ("toml", "text/plain; charset=utf-8"),
        ("json", "application/json"),
        ("wasm", "application/wasm"),
        ("pdf", "application/pdf"),
        ("svg", "image/svg+xml"),
        ("png", "image/png"),
        ("jpg", "image/jpeg"),
        ("ico", "image/x-icon"),
        ("mp3", "audio/mpeg"),
        ("flac", "audio/flac"),
        ("wav", "audio/wav"),
        ("mid", "audio/midi"),
        ("m3u8", "application/vnd.apple.mpegurl"),
        ("musicxml", "application/vnd.recordare.musicxml+xml"),
        ("xml", "application/xml"),
    ];
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or("");
    let known = KINDS.iter().find(|(e, _)| ending.eq_ignore_ascii_case(e));
    known.map_or("application/octet-stream", |(_, kind)| kind)
}
