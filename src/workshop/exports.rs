//! The workshop as a few functions on numbers and addresses, for WebAssembly: those of the engine's `exports` that are about
//! requests.

// `no_mangle` counts as unsafe; there is no unsafe block here.
#![allow(unsafe_code)]

use super::Workshop;
use std::cell::RefCell;
use std::panic;

#[derive(Default)]
struct Counter {
    request: Vec<u8>,
    answer: String,
}

thread_local! {
    static COUNTER: RefCell<Counter> = RefCell::default();
    static LAST_WORDS: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Allocates room for a request of `bytes` bytes of UTF-8 and returns its address.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    panic::set_hook(Box::new(|info| {
        let said = info.to_string();
        // Nothing panics while it is read.
        LAST_WORDS.with_borrow_mut(|words| *words = said);
    }));
    COUNTER.with_borrow_mut(|counter| {
        counter.request.clear();
        counter.request.resize(bytes, 0);
        counter.request.as_mut_ptr()
    })
}

/// Answers the request and returns the length of the response.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    COUNTER.with_borrow_mut(|counter| {
        let request = std::mem::take(&mut counter.request);
        counter.answer = Workshop.ask(&String::from_utf8_lossy(&request));
        counter.answer.len()
    })
}

/// Address of the response.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    COUNTER.with_borrow(|counter| counter.answer.as_ptr())
}

/// Address of the message of a panic.
#[unsafe(no_mangle)]
pub extern "C" fn last_words() -> *const u8 {
    LAST_WORDS.with_borrow(|words| words.as_ptr())
}

/// Length of that message; 0 if there was no panic.
#[unsafe(no_mangle)]
pub extern "C" fn last_words_length() -> usize {
    LAST_WORDS.with_borrow(String::len)
}
