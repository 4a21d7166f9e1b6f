//! Signals of the system: stopping, and a file that has become as large as a file may be.

use super::Exit;
use std::sync::atomic::AtomicBool;
use std::sync::{Arc, OnceLock};

/// Becomes true at Ctrl-C. A second Ctrl-C does not wait.
///
/// To be called after everything that the user names was read: opening a pipe that nobody writes waits for ever, and until
/// then the signal itself ends the program, which has written nothing yet.
pub(super) fn stop_on_ctrl_c() -> &'static AtomicBool {
    static STOP: OnceLock<Arc<AtomicBool>> = OnceLock::new();
    STOP.get_or_init(|| {
        let stop = Arc::new(AtomicBool::new(false));
        listen(&stop);
        stop
    })
}

/// Has Ctrl-C, a request to end and a closed terminal set `stop`, without a thread: there may be none to be had.
///
/// A signal that cannot be listened to ends the run as the system does it, and the next run removes its temporary files.
#[cfg(unix)]
fn listen(stop: &Arc<AtomicBool>) {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::flag;
    let code = Exit::Stopped.code().into();
    for signal in [SIGINT, SIGTERM, SIGHUP] {
        // In this order: the first signal finds that it is the first.
        let second = flag::register_conditional_shutdown(signal, code, Arc::clone(stop));
        let first = flag::register(signal, Arc::clone(stop));
        if let (Ok(second), Err(_)) = (second, first) {
            signal_hook::low_level::unregister(second);
        }
    }
}

/// The same elsewhere.
#[cfg(not(unix))]
fn listen(stop: &Arc<AtomicBool>) {
    use std::sync::atomic::Ordering;
    let stop = Arc::clone(stop);
    let _ = ctrlc::set_handler(move || {
        if stop.swap(true, Ordering::Relaxed) {
            std::process::exit(Exit::Stopped.code().into());
        }
    });
}

/// Makes writing beyond the largest size of a file an error of that write, not the end of the program.
pub(super) fn let_writes_fail() {
    // A signal that is listened to no longer ends the program. If it cannot be, the system's way stays.
    #[cfg(unix)]
    let _ = signal_hook::flag::register(signal_hook::consts::SIGXFSZ, Arc::default());
}
