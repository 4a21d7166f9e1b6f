//! Exchange with other programs through open standards: MusicXML 4.0 (W3C), Standard MIDI Files 1.0 and, read only, ABC
//! notation 2.1.
//!
//! [`musicxml::write()`] and [`midi::write()`] turn a [`Score`](crate::score::Score) into the content of a
//! file. [`musicxml::read()`], [`midi::read()`] and [`abc::read()`] turn the content of a file into an [`ImportedPiece`], music
//! in bars. [`adopt()`] turns a piece into the text of a routine and reports what could not be kept. This
//! module opens no files: it takes and returns text and bytes.
//!
//! ```
//! use leadpipe::brass::INSTRUMENTS;
//! use leadpipe::exchange::{AdoptOptions, adopt, musicxml};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let text = musicxml::write(&score, musicxml::FingeredNotes::Unusual);
//! let piece = musicxml::read(&text, None)?;
//! let options = AdoptOptions {
//!     instrument: &INSTRUMENTS[0],
//!     concert: false,
//!     title: "Warm-up".to_owned(),
//!     source: "warm-up.musicxml".to_owned(),
//! };
//! let adopted = adopt(&piece, &options)?;
//! assert!(leadpipe::routine::read(&adopted.text).is_ok());
//! # Ok::<(), leadpipe::problem::Problem>(())
//! ```

pub mod abc;
pub mod adopt;
mod clefs;
pub mod file;
pub mod midi;
pub mod musicxml;
mod other_files;
pub mod piece;

pub use adopt::{AdoptOptions, Adopted, adopt};
pub use piece::ImportedPiece;
