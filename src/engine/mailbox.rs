//! How a module takes requests and gives answers in WebAssembly, and the last words of one that breaks down.

// `no_mangle` counts as unsafe; there is no unsafe block here.
#![allow(unsafe_code)]

use std::cell::RefCell;
use std::panic;

thread_local! {
    static LAST_WORDS: RefCell<String> = const { RefCell::new(String::new()) };
}

/// A request on its way in, and the answer to the one before it.
#[derive(Default)]
pub struct Mailbox {
    request: Vec<u8>,
    answer: String,
}

impl Mailbox {
    /// Allocates room for a request of `bytes` bytes of UTF-8 and returns its address.
    pub fn room(&mut self, bytes: usize) -> *mut u8 {
        panic::set_hook(Box::new(|info| {
            let said = info.to_string();
            // Nothing panics while it is read.
            LAST_WORDS.with_borrow_mut(|words| *words = said);
        }));
        self.request.clear();
        self.request.resize(bytes, 0);
        self.request.as_mut_ptr()
    }

    /// Answers the request and returns the length of the answer.
    pub fn ask(&mut self, answer: impl FnOnce(&str) -> String) -> usize {
        let request = std::mem::take(&mut self.request);
        self.answer = answer(&String::from_utf8_lossy(&request));
        self.answer.len()
    }

    /// Address of the answer.
    pub fn answer(&self) -> *const u8 {
        self.answer.as_ptr()
    }
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
