//! The content security policy of a page (W3C): a browser applies only the page's own style and script. A routine's text
//! could not run even if its escaping failed.

use super::base64::base64;
use super::engine;
use sha2::{Digest, Sha256};

/// The policy for a page with this style and these scripts.
///
/// The page loads only files beside it and connects to no other server. Some browsers ignore `'self'` for a page opened
/// from a folder, so the policy also allows `file:`.
pub fn of(style: &str, scripts: &[&str]) -> String {
    let scripts: Vec<String> = scripts
        .iter()
        .map(|script| format!("'{}'", source(script)))
        .collect();
    format!(
        "default-src 'none'; script-src {} {}; style-src '{}'; img-src 'self' file:; media-src 'self' file: blob:; \
         manifest-src 'self' file:; worker-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'",
        scripts.join(" "),
        engine::SCRIPT_SOURCE,
        source(style)
    )
}

/// The policy for a page of one file: it asks nobody for anything.
pub fn alone(style: &str, scripts: &[&str]) -> String {
    let scripts: Vec<String> = scripts
        .iter()
        .map(|script| format!("'{}'", source(script)))
        .collect();
    format!(
        "default-src 'none'; script-src {} {}; style-src '{}'; img-src data:; media-src blob:; worker-src blob:; \
         base-uri 'none'; form-action 'none'",
        scripts.join(" "),
        engine::SCRIPT_SOURCE,
        source(style)
    )
}

/// The hash of a style or a script, as a policy names it.
pub fn source(text: &str) -> String {
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
