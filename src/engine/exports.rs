//! The session as functions on numbers and addresses, for WebAssembly.
//!
//! The caller writes a request to the address that [`room`] returns and calls [`ask`]. [`fill`] and [`mix`] render frames
//! of a performance; [`stem`] and [`steps`] return their addresses. A buffer stays valid until the next call.

// `no_mangle` counts as unsafe; there is no unsafe block here.
#![allow(unsafe_code)]

use super::{MOST_FRAMES, Session};
use std::cell::RefCell;
use std::panic;

#[derive(Default)]
struct Desk {
    session: Session,
    request: Vec<u8>,
    answer: String,
    stems: [Vec<f32>; 3],
    steps: Vec<i16>,
}

thread_local! {
    static DESK: RefCell<Desk> = RefCell::default();
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
    DESK.with_borrow_mut(|desk| {
        desk.request.clear();
        desk.request.resize(bytes, 0);
        desk.request.as_mut_ptr()
    })
}

/// Answers the request and returns the length of the response.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    DESK.with_borrow_mut(|desk| {
        let request = std::mem::take(&mut desk.request);
        desk.answer = desk.session.ask(&String::from_utf8_lossy(&request));
        desk.answer.len()
    })
}

/// Address of the response.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    DESK.with_borrow(|desk| desk.answer.as_ptr())
}

/// Renders the next frames of a performance as guide, click and drone. Returns their number, 0 at the end.
#[unsafe(no_mangle)]
pub extern "C" fn fill(performance: u32, frames: usize) -> usize {
    DESK.with_borrow_mut(|desk| {
        let frames = frames.min(MOST_FRAMES);
        desk.session.fill(performance, frames, &mut desk.stems)
    })
}

/// Address of the frames of guide (0), click (1) or drone (2).
#[unsafe(no_mangle)]
pub extern "C" fn stem(voice: usize) -> *const f32 {
    DESK.with_borrow(|desk| desk.stems[voice.min(2)].as_ptr())
}

/// Renders the next frames of a performance as 16-bit samples. Returns their number, 0 at the end.
#[unsafe(no_mangle)]
pub extern "C" fn mix(performance: u32, frames: usize) -> usize {
    DESK.with_borrow_mut(|desk| {
        let frames = frames.min(MOST_FRAMES);
        desk.session.mix(performance, frames, &mut desk.steps)
    })
}

/// Address of the samples.
#[unsafe(no_mangle)]
pub extern "C" fn steps() -> *const i16 {
    DESK.with_borrow(|desk| desk.steps.as_ptr())
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
