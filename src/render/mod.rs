//! Takes become files: the batch, the writers of WAV, FLAC and MP3, and the record of what was rendered.
//!
//! A [`Track`] names a take and says how to come by its timeline; [`batch::render`] renders many in
//! parallel into one folder. Each track appears under its name whole or not at all, and a second run
//! renders only what changed.
//!
//! Every file is written by [`files`]; [`formats`] says what stands in it, [`reuse`] what need not be done again.
//!
//! ```
//! use leadpipe::edition::{Edition, Judge, Wanted, name::Names};
//! use leadpipe::render::{Bits, Settings, batch, planned};
//! use leadpipe::timeline::compile;
//! use std::sync::atomic::AtomicBool;
//!
//! # const TEXT: &str = "format = 1\ntitle = \"One note\"\ninstrument = \"trumpet in B-flat\"\n\
//! #     comfortable_top = \"G4\"\ntempo = 120\nmeter = \"4/4\"\n[[line]]\nname = \"One\"\nnotes = \"G4:whole\"\n";
//! let folder = tempfile::tempdir()?;
//! let edition = Edition::read(TEXT, None).expect("it has no faults");
//! let mut plan = edition.plan(&Wanted::default().takes(), &Judge::default()).expect("it can be played");
//! plan.name("one-note", &mut Names::default());
//! let compiled = compile::Settings { sample_rate: 44_100, signs: true };
//! let tracks = planned::tracks(&plan, None, None, &compiled);
//! let settings = Settings::new(44_100, Bits::Sixteen);
//! let end = batch::render(&tracks, folder.path(), &settings, &AtomicBool::new(false), &());
//! assert!(end.failure.is_none());
//! assert!(folder.path().join("one-note 120 key-0 together.wav").is_file());
//! # Ok::<(), std::io::Error>(())
//! ```

pub mod batch;
pub mod failure;
pub mod file_kind;
pub mod files;
pub mod finished;
pub mod formats;
pub mod lazy_engine;
pub mod list;
pub mod part;
pub mod planned;
mod render_track;
pub mod reuse;
pub mod settings;
mod shared;
pub mod sharing;
pub mod single;
mod sounding;
pub mod together;
pub mod track;
pub mod watch;
mod writer;
mod writing;

pub use batch::End;
pub use failure::RenderFailure;
pub use file_kind::{FileKind, FileKinds};
pub use finished::{Finished, FinishedFile, Made};
pub use formats::{Bits, Channels, Format, Labels};
pub use lazy_engine::LazyEngine;
pub use part::Part;
pub use settings::Settings;
pub use track::Track;
pub use watch::Watch;
