//! Ctrl-C, and being asked to end by the system: the first time the running batch of a study is finished and kept, a search
//! finishes the frame in hand, and a script ends at its next step; the second time the program ends at once.

use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};

/// The exit code of a script or study that was stopped: what shells give a program that Ctrl-C ended.
pub(crate) const EXIT: u8 = 130;

static ASKED: AtomicU32 = AtomicU32::new(0);
static WATCHED: OnceLock<bool> = OnceLock::new();

/// Watches for Ctrl-C from now on. Where the system refuses, Ctrl-C ends the program as ever: the journal is whole anyway.
pub(crate) fn watch() {
    WATCHED.get_or_init(|| {
        ctrlc::set_handler(|| {
            if ASKED.fetch_add(1, Ordering::SeqCst) > 0 {
                std::process::exit(i32::from(EXIT));
            }
        })
        .is_ok()
    });
}

/// Whether somebody asked to stop.
pub(crate) fn asked() -> bool {
    ASKED.load(Ordering::SeqCst) > 0
}
