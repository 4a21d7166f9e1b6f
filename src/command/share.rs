//! `leadpipe share`: a folder to listen to on a phone.

use super::console::Console;
use super::render::stop_on_ctrl_c;
use super::{Exit, Failure, Outcome, port};
use crate::handout::share::{Folder, Server, lan_address};
use crate::render::failure::system_words;
use crate::words::count;
use clap::Args;
use qrcode::render::unicode::Dense1x2;
use qrcode::{EcLevel, QrCode};
use std::io::{self, ErrorKind};
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::PathBuf;

/// The default port; another one is used if it is taken.
const PORT: u16 = 8642;

/// Files are counted up to here.
const MANY: usize = 10_000;

/// Show a folder to browsers: on this computer, or on phones in the same network
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe share anna          open it in a browser on this computer
  leadpipe share anna --lan    open it on phones in the same network

It can be read and not changed; nothing outside the folder and nothing hidden is shown. Ctrl-C ends it.")]
pub struct Share {
    /// The folder: a handout, or any other
    #[arg(value_name = "DIR")]
    folder: PathBuf,

    /// Let others on the same network read it, too
    #[arg(long)]
    lan: bool,

    /// Port to be reached at [default: 8642, or another that is free]
    #[arg(long, value_name = "N", value_parser = super::port::read)]
    port: Option<u16>,
}

impl Share {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let stop = stop_on_ctrl_c();
        let folder = Folder::new(&self.folder).map_err(|error| self.no_folder(&error))?;
        let files = folder.count(MANY);
        let host = if self.lan {
            lan_address().ok_or_else(|| {
                Failure::error("this computer is in no network that phones could be in")
                    .hint("join a network first, or leave --lan out")
            })?
        } else {
            IpAddr::V4(Ipv4Addr::LOCALHOST)
        };
        let server = self.open(folder.clone(), host)?;
        let port = server.address()?.port();
        let address = format!("http://{host}:{port}/");
        console.data(&format!("{address}\n"))?;
        if self.lan {
            console.data(&format!("\n{}\n", square(&address)))?;
        }
        let files = if files >= MANY {
            format!("the more than {MANY} files")
        } else {
            format!("the {}", count::files(files))
        };
        let root = folder.root().display();
        console.say(&if self.lan {
            format!(
                "Everybody in the same network as this computer can now read {files} in {root}, without a \
                 password, but not change them. Nobody else can, and nothing outside that folder is shown."
            )
        } else {
            format!(
                "Only this computer can read {files} in {root} there. With --lan phones in the same network \
                 can, too."
            )
        });
        if self.lan && !is_private(host) {
            console.warn(
                "this computer's address is a public one: whoever knows it may be able to read them, too",
                Some("use a network behind a router, or leave --lan out".into()),
            );
        }
        console.say("Ctrl-C ends it.");
        server.run(stop).map_err(|error| {
            let said = system_words(&error);
            Failure::error(format!("the folder could not be shared: {said}"))
        })?;
        console.say("Ended; the folder is shared no more.");
        Ok(Exit::Stopped)
    }

    fn no_folder(&self, error: &io::Error) -> Failure {
        let shown = self.folder.display();
        match error.kind() {
            ErrorKind::NotADirectory => {
                Failure::usage(format!("{shown} is a file, and only folders can be shared"))
                    .hint("name the folder it is in")
            }
            ErrorKind::NotFound => Failure::usage(format!("there is no folder called {shown}"))
                .hint("leadpipe handout makes one"),
            _ => Failure::error(format!("{shown} cannot be read: {}", system_words(error))),
        }
    }

    /// Opens the given port, or else the default one or any free one.
    fn open(&self, folder: Folder, host: IpAddr) -> Result<Server, Failure> {
        let at = |port| Server::open(folder.clone(), SocketAddr::new(host, port));
        let opened = match self.port {
            Some(port) => at(port),
            None => at(PORT).or_else(|_| at(0)),
        };
        opened.map_err(|error| port::refused(self.port.unwrap_or(PORT), &error))
    }
}

/// True for addresses that are not reached from outside their network (RFC 1918, 3927 and 6598).
fn is_private(host: IpAddr) -> bool {
    match host {
        IpAddr::V4(host) => {
            let [first, second, ..] = host.octets();
            let shared = first == 100 && (64..128).contains(&second);
            host.is_private() || host.is_link_local() || shared
        }
        IpAddr::V6(host) => host.is_unique_local() || host.is_unicast_link_local(),
    }
}

/// The address as a QR code, dark on light in every terminal.
fn square(address: &str) -> String {
    let code = QrCode::with_error_correction_level(address, EcLevel::L)
        .expect("an address is shorter than what a code can hold");
    let drawn = code.render::<Dense1x2>().build();
    let rows = drawn
        .lines()
        .map(|row| format!("\u{1b}[30;107m{row}\u{1b}[0m\n"));
    rows.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn public_addresses_are_told_from_private_ones() {
        for (address, private) in [
            ("192.168.1.7", true),
            ("10.1.2.3", true),
            ("172.31.0.1", true),
            ("169.254.1.1", true),
            ("100.64.0.1", true),
            ("172.32.0.1", false),
            ("100.128.0.1", false),
            ("203.0.113.9", false),
            ("fd00::1", true),
            ("2001:db8::1", false),
        ] {
            assert_eq!(is_private(address.parse().unwrap()), private, "{address}");
        }
    }
}
