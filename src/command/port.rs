//! A port as it is typed, and why it cannot be had.

/// Reads a port.
pub(super) fn read(text: &str) -> Result<u16, String> {
    let port = text.trim().parse().ok().filter(|port| *port > 0);
    port.ok_or_else(|| "a port is a whole number from 1 to 65535".to_owned())
}

/// Why nothing can be served at a port.
#[cfg(feature = "share")]
pub(super) fn refused(port: u16, error: &std::io::Error) -> super::Failure {
    use crate::render::failure::system_words;
    use std::io::ErrorKind;
    let (said, hint) = match error.kind() {
        ErrorKind::AddrInUse => ("is taken by another program".to_owned(), "leave --port out"),
        ErrorKind::PermissionDenied => (
            "may not be used by you".to_owned(),
            "ports from 1024 on may",
        ),
        _ => (
            format!("cannot be had: {}", system_words(error)),
            "leave --port out",
        ),
    };
    super::Failure::error(format!("port {port} {said}")).hint(hint)
}
