//! A report of the bits that leadpipe's core gives for `lines.toml`, the same text from a native build
//! and from WebAssembly if they give the same sound.

mod hash;
mod report;

pub use report::report;

/// The routine that is rendered.
pub const LINES: &str = include_str!("../lines.toml");

#[cfg(target_arch = "wasm32")]
mod exports {
    use std::cell::RefCell;

    thread_local! {
        static TEXT: RefCell<String> = const { RefCell::new(String::new()) };
    }

    /// Makes the report for a take moved by `key` half steps; returns its length in bytes.
    #[unsafe(no_mangle)]
    pub extern "C" fn make_report(key: i32) -> usize {
        TEXT.with_borrow_mut(|text| {
            *text = super::report(key);
            text.len()
        })
    }

    /// Where the report made last stands in memory.
    #[unsafe(no_mangle)]
    pub extern "C" fn report_text() -> *const u8 {
        TEXT.with_borrow(|text| text.as_ptr())
    }
}
