//! What a browser may run of a page: its own style and script, and nothing else (W3C Content Security
//! Policy). Should a routine's text ever get past the escaping, it would still not run.

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

/// RFC 4648, section 4.
pub(super) fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::new();
    for three in bytes.chunks(3) {
        let number = [0, 1, 2].map(|i| u32::from(three.get(i).copied().unwrap_or(0)));
        let number = number[0] << 16 | number[1] << 8 | number[2];
        for i in 0..4 {
            out.push(if i <= three.len() {
                char::from(LETTERS[(number >> (18 - 6 * i) & 63) as usize])
            } else {
                '='
            });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10; FIPS 180-2, appendix B.1.
    #[test]
    fn hashes_are_written_as_published() {
        for (text, expected) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(text.as_bytes()), expected);
        }
        assert_eq!(
            source("abc"),
            "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="
        );
    }
}
