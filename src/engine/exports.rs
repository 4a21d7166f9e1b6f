//! The session as functions on numbers and addresses, for WebAssembly.
//!
//! The caller writes a request to the address that [`room`] returns and calls [`ask`]. [`fill`] and [`mix`] render frames
//! of a performance; [`stem`] and [`steps`] return their addresses. A buffer stays valid until the next call.

// `no_mangle` counts as unsafe; there is no unsafe block here.
#![allow(unsafe_code)]

use super::mailbox::Mailbox;
use super::{MOST_FRAMES, Session};
use std::cell::RefCell;

#[derive(Default)]
struct Module {
    session: Session,
    mailbox: Mailbox,
    stems: [Vec<f32>; 3],
    steps: Vec<i16>,
}

thread_local! {
    static MODULE: RefCell<Module> = RefCell::default();
}

/// Allocates room for a request of `bytes` bytes of UTF-8 and returns its address.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    MODULE.with_borrow_mut(|module| module.mailbox.room(bytes))
}

/// Answers the request and returns the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    MODULE.with_borrow_mut(|module| {
        let session = &mut module.session;
        module.mailbox.ask(|request| session.ask(request))
    })
}

/// Address of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    MODULE.with_borrow(|module| module.mailbox.answer())
}

/// Renders the next frames of a performance as guide, click and drone. Returns their number, 0 at the end.
#[unsafe(no_mangle)]
pub extern "C" fn fill(performance: u32, frames: usize) -> usize {
    MODULE.with_borrow_mut(|module| {
        let frames = frames.min(MOST_FRAMES);
        module.session.fill(performance, frames, &mut module.stems)
    })
}

/// Address of the frames of guide (0), click (1) or drone (2).
#[unsafe(no_mangle)]
pub extern "C" fn stem(voice: usize) -> *const f32 {
    MODULE.with_borrow(|module| module.stems[voice.min(2)].as_ptr())
}

/// Renders the next frames of a performance as 16-bit samples. Returns their number, 0 at the end.
#[unsafe(no_mangle)]
pub extern "C" fn mix(performance: u32, frames: usize) -> usize {
    MODULE.with_borrow_mut(|module| {
        let frames = frames.min(MOST_FRAMES);
        module.session.mix(performance, frames, &mut module.steps)
    })
}

/// Address of the samples.
#[unsafe(no_mangle)]
pub extern "C" fn steps() -> *const i16 {
    MODULE.with_borrow(|module| module.steps.as_ptr())
}
