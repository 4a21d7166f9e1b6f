//! What a browser may run of a page: its own style and script, and nothing else (W3C Content Security
//! Policy). Should a routine's text ever get past the escaping, it would still not run.

use super::base64::base64;
use super::engine;
use sha2::{Digest, Sha256};

/// The policy for a page with this style and this script.
///
/// Everything is this page's own: what it loads lies beside it, and there is nobody else it may talk to. Opened
/// from a folder, `'self'` means nothing to some browsers, so `file:` stands beside it for what lies there.
pub fn of(style: &str, script: &str) -> String {
    format!(
        "default-src 'none'; script-src '{}' {}; style-src '{}'; img-src 'self' file:; media-src 'self' file: blob:; \
         manifest-src 'self' file:; worker-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'",
        source(script),
        engine::SCRIPT_SOURCE,
        source(style)
    )
}

fn source(text: &str) -> String {
    format!("sha256-{}", base64(&Sha256::digest(text.as_bytes())))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-2, appendix B.1.
    #[test]
    fn hashes_are_written_as_published() {
        assert_eq!(
            source("abc"),
            "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="
        );
    }
}
