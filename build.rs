//! Puts revisions into the program: `LEADPIPE_SOUND_REVISION`, by which a record of rendered takes knows when it is out
//! of date, and others; what decides each of them is said in `build/revision.rs`.
//!
//! Also picks what the printed sheet needs of two fonts, outlines of music glyphs and widths of letters, and makes
//! functions of the words of every language.

#[path = "build/catalogue.rs"]
mod catalogue;
#[path = "build/letters.rs"]
mod letters;
#[path = "build/outlines.rs"]
mod outlines;
#[path = "build/pattern.rs"]
mod pattern;
#[path = "build/revision.rs"]
mod revision;

use std::{env, fs, path::Path};

fn main() {
    for source in ["Cargo.lock", "Cargo.toml", catalogue::FOLDER] {
        println!("cargo:rerun-if-changed={source}");
    }
    for revision in revision::ALL {
        for file in revision.files(Path::new("")) {
            println!("cargo:rerun-if-changed={file}");
        }
        println!(
            "cargo:rustc-env=LEADPIPE_{}_REVISION={:016x}",
            revision.name,
            revision.hash(Path::new(""))
        );
    }
    make_sources();
}

/// Writes `catalogue.rs`, `tell.rs`, `glyphs.rs`, `letters.rs` and the faces of the text font to where cargo wants made files.
fn make_sources() {
    let folder = env::var_os("OUT_DIR").expect("cargo names a folder");
    let put = |name: &str, content: &[u8]| {
        fs::write(Path::new(&folder).join(name), content)
            .expect("cargo's folder can be written to");
    };
    let (catalogue, tell) = catalogue::sources(Path::new(""));
    put("catalogue.rs", catalogue.as_bytes());
    put("tell.rs", tell.as_bytes());
    let fonts = verovioxide_data::resource_dir();
    let text_of = |path: &str| {
        let file = fonts
            .get_file(path)
            .unwrap_or_else(|| panic!("{path} is there"));
        file.contents_utf8().expect("it is text").to_owned()
    };
    let list = text_of("Bravura.xml");
    let glyphs = outlines::table(&list, |code| text_of(&format!("Bravura/{code}.xml")));
    put("glyphs.rs", glyphs.as_bytes());
    let (letters, faces) = letters::tables(typst_assets::fonts());
    put("letters.rs", letters.as_bytes());
    for (name, data) in faces {
        put(&name, data);
    }
}
