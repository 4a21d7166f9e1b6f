//! Which path of which host a request is for (RFC 9112, section 3.2).

use super::lan;
use hyper::header::{self, HeaderValue};
use hyper::{HeaderMap, Uri, Version};

/// The port of an address that names none (RFC 9110, section 4.2.1).
const DEFAULT_PORT: u16 = 80;

/// A host with its port.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Host {
    /// The name or the address, in lower case; an IPv6 address in brackets.
    name: String,
    port: u16,
}

/// Why a request is for no path of this server.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misaddressed {
    /// The request is invalid, for this reason.
    Invalid(&'static str),
    /// It is for another server.
    Elsewhere,
}

impl Host {
    /// Reads `host` or `host:port`; `None` if it is neither (RFC 3986, section 3.2) or has no host.
    pub fn read(text: &str) -> Option<Self> {
        let (name, port) = if let Some(rest) = text.strip_prefix('[') {
            let (address, port) = rest.split_once(']')?;
            address.parse::<std::net::Ipv6Addr>().ok()?;
            (format!("[{address}]"), port)
        } else {
            let (name, port) = text.split_at(text.find(':').unwrap_or(text.len()));
            let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~%!$&'()*+,;=".contains(&b);
            if name.is_empty() || !name.bytes().all(plain) {
                return None;
            }
            (name.to_owned(), port)
        };
        let port = match port.strip_prefix(':') {
            None if port.is_empty() => DEFAULT_PORT,
            Some("") => DEFAULT_PORT,
            Some(digits) if digits.bytes().all(|b| b.is_ascii_digit()) => digits.parse().ok()?,
            _ => return None,
        };
        let name = name.to_ascii_lowercase();
        Some(Self { name, port })
    }
}

/// The host that the fields name; `None` if there is none and the version does not require one.
///
/// # Errors
/// If there is more than one, if it is not valid, or if a required one is missing.
pub fn of_fields(fields: &HeaderMap, version: Version) -> Result<Option<Host>, Misaddressed> {
    let mut hosts = fields.get_all(header::HOST).iter();
    let host = match (hosts.next(), hosts.next()) {
        (None, _) if version == Version::HTTP_10 => return Ok(None),
        (Some(host), None) => HeaderValue::to_str(host).ok().and_then(Host::read),
        (None, _) => None,
        (Some(_), Some(_)) => {
            return Err(Misaddressed::Invalid(
                "A request is for one host, not more.",
            ));
        }
    };
    let host = host.ok_or(Misaddressed::Invalid(
        "A request says which host it is for.",
    ))?;
    Ok(Some(host))
}

/// The path that a request for a file names, given the host of its fields.
///
/// The absolute form has a host of its own, which counts (section 3.2.2). A client must send the same one in the field Host
/// (section 3.2), so a request with two different ones is refused: something on the way may have judged the other one.
///
/// # Errors
/// If the target is not a path or the address of one, or if its host is not one of ours.
pub fn path(target: &Uri, named: Option<&Host>) -> Result<String, Misaddressed> {
    let host = match (target.scheme_str(), target.authority()) {
        (None, None) => named.cloned(),
        (Some(scheme), Some(authority)) => {
            let host = Host::read(authority.as_str()).ok_or(Misaddressed::Invalid(
                "The address of a request has a host and no user.",
            ))?;
            if named.is_some_and(|named| *named != host) {
                return Err(Misaddressed::Invalid(
                    "The address of a request and its host are not the same.",
                ));
            }
            if scheme != "http" {
                return Err(Misaddressed::Elsewhere);
            }
            Some(host)
        }
        _ => return Err(Misaddressed::Invalid("A file is requested by its path.")),
    };
    if host.is_some_and(|host| !lan::is_ours(&host.name)) {
        return Err(Misaddressed::Elsewhere);
    }
    let path = target.path();
    if !path.starts_with('/') {
        return Err(Misaddressed::Invalid("A file is requested by its path."));
    }
    Ok(path.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hosts_are_read_as_the_standard_says() {
        for (text, name, port) in [
            ("localhost", "localhost", 80),
            ("Studio.Local:8642", "studio.local", 8642),
            ("192.168.1.7:", "192.168.1.7", 80),
            ("[::1]", "[::1]", 80),
            ("[FE80::1]:65535", "[fe80::1]", 65535),
            ("a%20b", "a%20b", 80),
        ] {
            let name = name.to_owned();
            assert_eq!(Host::read(text), Some(Host { name, port }), "{text}");
        }
        for text in [
            "", ":", ":80", "a b", "a:b", "a:80:80", "a:65536", "a:+1", "a/", "a@b", "[::1", "[x]",
            "[::1]80", "::1", "ä",
        ] {
            assert_eq!(Host::read(text), None, "{text}");
        }
    }
}
