//! The secret in the address of a desk.

use std::io;

/// Bits of it: nobody guesses them.
const BYTES: usize = 16;

/// A new secret, as letters and digits.
///
/// # Errors
/// If the system has no random numbers to give.
pub fn secret() -> io::Result<String> {
    let mut bytes = [0; BYTES];
    getrandom::fill(&mut bytes).map_err(io::Error::other)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_secrets_are_alike() {
        let (one, other) = (secret().unwrap(), secret().unwrap());
        assert_eq!(one.len(), 2 * BYTES);
        assert!(one.bytes().all(|byte| byte.is_ascii_hexdigit()));
        assert_ne!(one, other);
    }
}
