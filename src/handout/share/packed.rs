//! Text sent compressed with gzip to clients that accept it (RFC 9110, sections 8.4.1.3 and 12.5.3): the page is mostly text, and a
//! class opens it at the same moment.

use flate2::{Compression, GzBuilder};
use hyper::HeaderMap;
use hyper::header;
use std::fs::File;
use std::io::{self, Read, Write};

/// The largest file that is compressed, in bytes: it is held in memory.
const LARGEST: u64 = 8 << 20;

/// True for a file that is worth compressing.
pub fn pays(kind: &str, length: u64) -> bool {
    let text = kind.starts_with("text/")
        || matches!(
            kind,
            "application/json"
                | "application/xml"
                | "application/vnd.recordare.musicxml+xml"
                | "image/svg+xml"
        );
    text && (1024..=LARGEST).contains(&length)
}

/// True if the client accepts gzip.
pub fn accepted(fields: &HeaderMap) -> bool {
    let listed = fields.get_all(header::ACCEPT_ENCODING).into_iter();
    let listed = listed.filter_map(|value| value.to_str().ok());
    let mut any = false;
    for coding in listed.flat_map(|list| list.split(',')) {
        let mut parts = coding.split(';').map(str::trim);
        let name = parts.next().unwrap_or_default();
        let weight = parts.find_map(|part| part.strip_prefix("q=").or(part.strip_prefix("Q=")));
        let wanted = weight.is_none_or(|q| q.parse::<f32>().is_ok_and(|q| q > 0.0));
        if ["gzip", "x-gzip"]
            .iter()
            .any(|gzip| name.eq_ignore_ascii_case(gzip))
        {
            return wanted;
        }
        any |= name == "*" && wanted;
    }
    any
}

/// The content of a file of this length, compressed: the same bytes for the same content.
pub fn pack(file: &File, length: u64) -> io::Result<Vec<u8>> {
    let mut content = Vec::new();
    file.take(length).read_to_end(&mut content)?;
    if content.len() as u64 != length {
        return Err(io::ErrorKind::UnexpectedEof.into());
    }
    let mut packer = GzBuilder::new().write(Vec::new(), Compression::new(6));
    packer.write_all(&content)?;
    packer.finish()
}

#[cfg(test)]
mod tests {
    use super::*;
    use hyper::header::HeaderValue;

    /// RFC 9110, section 12.5.3: its examples and rules.
    #[test]
    fn gzip_is_accepted_where_it_is_said() {
        let said = |text: &str| {
            let mut fields = HeaderMap::new();
            let value = HeaderValue::from_str(text).expect("it is a field");
            fields.insert(header::ACCEPT_ENCODING, value);
            accepted(&fields)
        };
        for yes in [
            "compress, gzip",
            "*",
            "compress;q=0.5, gzip;q=1.0",
            "br, x-gzip",
            "GZIP; Q=0.001",
        ] {
            assert!(said(yes), "{yes}");
        }
        for no in [
            "",
            "br",
            "gzip;q=0",
            "gzip;q=0.000, *",
            "*;q=0",
            "identity",
            "gzip;q=x",
            "gzipped",
        ] {
            assert!(!said(no), "{no}");
        }
        assert!(!accepted(&HeaderMap::new()));
    }
}
