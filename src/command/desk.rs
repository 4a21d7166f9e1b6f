//! `leadpipe desk`: the desk in a browser, or as a file.

use super::console::Console;
use super::output;
use super::{Exit, Failure, Outcome};
use crate::desk;
use crate::render::files::Replace;
use clap::Args;
use std::path::{Path, PathBuf};

/// Write, hear, print and hand out routines in the browser
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe desk                    with the routines of this folder
  leadpipe desk lessons            with those of another
  leadpipe desk --out desk.html    as one file, which needs no program and no network

Only this computer can open it, at an address that nobody guesses. Ctrl-C ends it; what was written stays in
the folder, and what was not saved stays in the browser.")]
pub struct Desk {
    /// The folder whose routines are opened and saved [default: this one]
    #[arg(value_name = "FOLDER", conflicts_with = "out")]
    folder: Option<PathBuf>,

    /// Write the desk as one HTML file, to be opened in any browser
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,

    /// Replace a file that leadpipe did not write
    #[arg(long, requires = "out")]
    force: bool,

    /// Port to be reached at [default: any that is free]
    #[arg(long, value_name = "N", value_parser = super::port::read, conflicts_with = "out")]
    port: Option<u16>,

    /// Show the address, and open no browser
    #[arg(long, conflicts_with = "out")]
    no_browser: bool,
}

impl Desk {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        match &self.out {
            Some(out) => write(console, out, self.force),
            None => self.serve(console),
        }
    }

    #[cfg(not(feature = "share"))]
    fn serve(&self, _: &mut Console) -> Outcome {
        let _ = (&self.folder, self.port, self.no_browser);
        Err(
            Failure::usage("this leadpipe was built without what serves a folder (share)")
                .hint("leadpipe desk --out desk.html writes the desk as a file"),
        )
    }
}

/// Writes the desk as a file.
fn write(console: &mut Console, out: &Path, force: bool) -> Outcome {
    let name = out.file_name().and_then(|name| name.to_str());
    let (Some(name), false) = (name, out.is_dir()) else {
        let shown = out.display();
        return Err(Failure::usage(format!("{shown} is no name for a file"))
            .hint("name the file to be written: --out desk.html"));
    };
    let folder = match out.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let replace = Replace::forced(force);
    output::put(folder, name, desk::html(None).as_bytes(), replace)?;
    let shown = out.display();
    console.say(format!("{shown} is the desk: open it in a browser."));
    Ok(Exit::Done)
}

#[cfg(feature = "share")]
mod served {
    use super::*;
    use crate::command::port;
    use crate::command::render::stop_on_ctrl_c;
    use crate::desk::DeskSite;
    use crate::handout::share::{Folder, Server};
    use crate::render::failure::system_words;
    use std::ffi::OsStr;
    use std::io::{self, ErrorKind};
    use std::net::{Ipv4Addr, SocketAddr};
    use std::process::{Command, Stdio};

    impl Desk {
        /// Serves the desk until Ctrl-C.
        pub(super) fn serve(&self, console: &mut Console) -> Outcome {
            let stop = stop_on_ctrl_c();
            let path = self.folder.as_deref().unwrap_or(Path::new("."));
            let folder = Folder::new(path).map_err(|error| no_folder(path, &error))?;
            let root = folder.root().to_owned();
            let secret = desk::secret().map_err(|error| {
                let said = system_words(&error);
                Failure::error(format!("the system gives no random numbers: {said}"))
            })?;
            let address = SocketAddr::new(Ipv4Addr::LOCALHOST.into(), self.port.unwrap_or(0));
            let site = |bound| {
                let shown = root.file_name().map(OsStr::to_string_lossy);
                let html = desk::html(Some(&shown.unwrap_or_default()));
                DeskSite::new(folder, bound, &secret, html)
            };
            let server = Server::with(address, site)
                .map_err(|error| port::refused(self.port.unwrap_or_default(), &error))?;
            let port = server.address()?.port();
            let address = format!("http://127.0.0.1:{port}/{secret}/");
            console.data(&format!("{address}\n"))?;
            console.say(format!(
                "The desk, with the routines in {}. Only this computer can open it, by that address.",
                root.display()
            ));
            if !self.no_browser && !open(&address) {
                console.say("Open that address in a browser.");
            }
            console.say("Ctrl-C ends it.");
            server.run(stop).map_err(|error| {
                let said = system_words(&error);
                Failure::error(format!("the desk could not be served: {said}"))
            })?;
            console.say("Ended; what was saved is in the folder.");
            Ok(Exit::Stopped)
        }
    }

    fn no_folder(path: &Path, error: &io::Error) -> Failure {
        let shown = path.display();
        match error.kind() {
            ErrorKind::NotADirectory => {
                Failure::usage(format!("{shown} is a file, and the desk opens a folder"))
                    .hint("name the folder it is in")
            }
            ErrorKind::NotFound => Failure::usage(format!("there is no folder called {shown}"))
                .hint("make it first, or leave it out: the desk then opens this one"),
            _ => Failure::error(format!("{shown} cannot be read: {}", system_words(error))),
        }
    }

    /// Has the system open an address in its browser. False where it has none, as on a machine without a screen.
    fn open(address: &str) -> bool {
        let mut opener = if cfg!(target_os = "macos") {
            Command::new("open")
        } else if cfg!(windows) {
            Command::new("explorer")
        } else if ["DISPLAY", "WAYLAND_DISPLAY"]
            .iter()
            .any(|name| std::env::var_os(name).is_some())
        {
            Command::new("xdg-open")
        } else {
            return false;
        };
        opener.arg(address);
        opener.stdin(Stdio::null());
        opener.stdout(Stdio::null());
        opener.stderr(Stdio::null());
        // Whether it succeeds is seen on the screen; nobody waits for it.
        opener.spawn().is_ok()
    }
}
