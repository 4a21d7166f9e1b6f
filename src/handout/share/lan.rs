//! The address of this machine on its local network.

use std::net::{IpAddr, Ipv4Addr, UdpSocket};

/// The address at which others on the network reach this machine; `None` without a network.
pub fn lan_address() -> Option<IpAddr> {
    // The system chooses the source address for a destination reserved for documentation (RFC 5737). Nothing is sent.
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let address = socket.local_addr().ok()?.ip();
    (!address.is_loopback() && !address.is_unspecified()).then_some(address)
}

/// True if the host of a request, without its port, is an IP address or a name that no public registry assigns. Any other
/// name could be a foreign page that resolves its name to this machine (DNS rebinding) to read what only this network should.
pub fn is_ours(host: &str) -> bool {
    if let Some(rest) = host.strip_prefix('[') {
        return rest.strip_suffix(']').is_some_and(is_number);
    }
    let name = host.trim_end_matches('.').to_ascii_lowercase();
    let local = [".local", ".localhost", ".lan", ".home.arpa", ".internal"];
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._".contains(&b);
    !name.is_empty()
        && name.bytes().all(plain)
        && (is_number(&name) || !name.contains('.') || local.iter().any(|end| name.ends_with(end)))
}

fn is_number(text: &str) -> bool {
    text.parse::<IpAddr>().is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_a_stranger_could_own_are_not_ours() {
        for ours in [
            "192.168.1.7",
            "127.0.0.1",
            "localhost",
            "[::1]",
            "studio.local",
            "STUDIO",
        ] {
            assert!(is_ours(ours), "{ours}");
        }
        for other in [
            "example.org",
            "192.168.1.7.example.org",
            "",
            ".",
            "a,b",
            "a%2eb",
            "[x]",
            "[::1",
        ] {
            assert!(!is_ours(other), "{other}");
        }
    }
}
