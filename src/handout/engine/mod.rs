//! The engine in the page: the core as a WebAssembly module, its worker, and the scripts that play it.
//!
//! The module is made by `.ci/engine --update` and kept beside this file, packed, so that building leadpipe needs no
//! compiler for WebAssembly; `engine.record.toml` says from which sources it was made and which sound it must give. How a
//! page takes it in stands at the head of `client.js`, everything it can be asked in `protocol.d.ts`, how it is played at
//! the head of `player.js`.

use crate::handout::base64::base64;
use std::sync::LazyLock;

/// The module, compressed with gzip.
const MODULE: &[u8] = include_bytes!("engine.wasm.gz");

const WORKER: &str = include_str!("worker.js");
/// Each file may use the files before it.
const SCRIPTS: &str = concat!(
    include_str!("client.js"),
    include_str!("timetable.js"),
    include_str!("states.js"),
    include_str!("stretch.js"),
    include_str!("loop.js"),
    include_str!("silence.js"),
    include_str!("sound.js"),
    include_str!("watch.js"),
    include_str!("chunks.js"),
    include_str!("player.js"),
);

/// The source that the page's policy needs in `script-src` in addition to the hash of its script.
pub const SCRIPT_SOURCE: &str = "'wasm-unsafe-eval'";

/// The beginning of the page's script, a module: `ENGINE_WORKER`, `Engine`, `Player` and what they need. It contains no
/// `</script>`.
pub fn script() -> &'static str {
    static SCRIPT: LazyLock<String> = LazyLock::new(|| {
        let worker = serde_json::to_string(WORKER).expect("a text can be written");
        let script = format!("const ENGINE_WORKER = {worker};\n{SCRIPTS}");
        script.replace("</", "<\\/")
    });
    &SCRIPT
}

/// The ends of the element that holds the module as data, which a browser does not run.
pub const DATA_ENDS: [&str; 2] = [
    "<script type=\"application/wasm\" id=\"leadpipe-engine\">",
    "</script>\n",
];

/// The module in letters, as it stands in that element.
pub fn letters() -> String {
    base64(MODULE)
}

/// That element.
pub fn data_block() -> String {
    let [open, close] = DATA_ENDS;
    format!("{open}{}{close}", letters())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_script_ends_no_element_and_the_module_is_packed() {
        assert!(!script().contains("</"), "it would end there");
        assert!(!script().contains("<!--"));
        // RFC 1952, section 2.3.1.
        assert_eq!(MODULE[..3], [0x1f, 0x8b, 8]);
    }
}
