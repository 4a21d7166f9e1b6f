//! The workshop as a few functions on numbers and addresses, for WebAssembly: those of the engine's `exports` that are about
//! requests.

// `no_mangle` counts as unsafe; there is no unsafe block here.
#![allow(unsafe_code)]

use super::Workshop;
use crate::engine::mailbox::Mailbox;
use std::cell::RefCell;

thread_local! {
    static MAILBOX: RefCell<Mailbox> = RefCell::default();
}

/// Allocates room for a request of `bytes` bytes of UTF-8 and returns its address.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    MAILBOX.with_borrow_mut(|mailbox| mailbox.room(bytes))
}

/// Answers the request and returns the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    MAILBOX.with_borrow_mut(|mailbox| mailbox.ask(|request| Workshop.ask(request)))
}

/// Address of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    MAILBOX.with_borrow(Mailbox::answer)
}
