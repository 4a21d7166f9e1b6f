//! The session behind functions of numbers and addresses, for WebAssembly.
//!
//! A request goes where [`room`] says and is answered by [`ask`]; frames of a performance are asked for by [`fill`] or
//! [`mix`] and lie where [`stem`] or [`steps`] say. What lies there holds until the next call.

// Functions with a name of their own count as unsafe; nothing here is.
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

/// Makes room for a request of that many bytes of UTF-8, and says where.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    panic::set_hook(Box::new(|info| {
        let said = info.to_string();
        // While it is read nothing panics.
        LAST_WORDS.with_borrow_mut(|words| *words = said);
    }));
    DESK.with_borrow_mut(|desk| {
        desk.request.clear();
        desk.request.resize(bytes, 0);
        desk.request.as_mut_ptr()
    })
}

/// Answers the request, and says how long the answer is.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    DESK.with_borrow_mut(|desk| {
        let request = std::mem::take(&mut desk.request);
        desk.answer = desk.session.ask(&String::from_utf8_lossy(&request));
        desk.answer.len()
    })
}

/// Where the answer lies.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    DESK.with_borrow(|desk| desk.answer.as_ptr())
}

/// The next frames of a performance as guide, click and drone; says how many there are, 0 when it is over.
#[unsafe(no_mangle)]
pub extern "C" fn fill(performance: u32, frames: usize) -> usize {
    DESK.with_borrow_mut(|desk| {
        let frames = frames.min(MOST_FRAMES);
        desk.session.fill(performance, frames, &mut desk.stems)
    })
}

/// Where the frames of guide (0), click (1) or drone (2) lie.
#[unsafe(no_mangle)]
pub extern "C" fn stem(voice: usize) -> *const f32 {
    DESK.with_borrow(|desk| desk.stems[voice.min(2)].as_ptr())
}

/// The next frames of a performance as steps of 16 bits; says how many there are, 0 when it is over.
#[unsafe(no_mangle)]
pub extern "C" fn mix(performance: u32, frames: usize) -> usize {
    DESK.with_borrow_mut(|desk| {
        let frames = frames.min(MOST_FRAMES);
        desk.session.mix(performance, frames, &mut desk.steps)
    })
}

/// Where the steps lie.
#[unsafe(no_mangle)]
pub extern "C" fn steps() -> *const i16 {
    DESK.with_borrow(|desk| desk.steps.as_ptr())
}

/// Where what a panic said lies.
#[unsafe(no_mangle)]
pub extern "C" fn last_words() -> *const u8 {
    LAST_WORDS.with_borrow(|words| words.as_ptr())
}

/// How long that is; 0 if there was none.
#[unsafe(no_mangle)]
pub extern "C" fn last_words_length() -> usize {
    LAST_WORDS.with_borrow(String::len)
}
