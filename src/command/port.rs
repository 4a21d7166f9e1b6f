//! A port as it is typed.

/// Reads a port.
pub(super) fn read(text: &str) -> Result<u16, String> {
    let port = text.trim().parse().ok().filter(|port| *port > 0);
    port.ok_or_else(|| "a port is a whole number from 1 to 65535".to_owned())
}
