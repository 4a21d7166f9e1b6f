//! Base64, for binary data in a page.

/// RFC 4648, section 4.
pub fn base64(bytes: &[u8]) -> String {
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

/// The bytes that are written so; `None` where it is not written so.
#[cfg(feature = "workshop")]
pub fn bytes(letters: &str) -> Option<Vec<u8>> {
    let letters = letters.trim_end_matches('=');
    let mut out = Vec::with_capacity(letters.len() / 4 * 3 + 2);
    let (mut number, mut bits) = (0_u32, 0);
    for letter in letters.bytes() {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => return None,
        };
        number = (number << 6 | u32::from(value)) & 0xffff;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push((number >> bits & 0xff) as u8);
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10.
    #[test]
    fn letters_are_those_published() {
        for (text, expected) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(text.as_bytes()), expected);
            #[cfg(feature = "workshop")]
            assert_eq!(bytes(expected).as_deref(), Some(text.as_bytes()));
        }
    }

    #[cfg(feature = "workshop")]
    #[test]
    fn letters_are_read_as_they_are_written() {
        let all: Vec<u8> = (0..=255).collect();
        assert_eq!(bytes(&base64(&all)), Some(all));
        assert_eq!(bytes("Zm9v Zm"), None);
    }
}
