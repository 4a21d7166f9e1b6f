//! The page as a picture: its size, and ink where the page has marks.

use super::{unroll, usual};
use leadpipe::print::png::{DOTS, Painter};
use leadpipe::sheet::{SheetOptions, engrave};
use resvg::tiny_skia::Pixmap;

#[test]
fn heads_are_black_where_the_page_says_and_the_border_is_white() {
    let (_, routine) = &usual()[3];
    let sheet = engrave(&unroll(routine), &SheetOptions::default());
    let page = &sheet.pages[0];
    let picture = Pixmap::decode_png(&Painter::default().png(page).unwrap()).unwrap();
    let scale = f64::from(DOTS) / 72.0;
    assert_eq!(picture.width(), (page.width * scale).ceil() as u32);
    let grey = |x: f64, y: f64| {
        let pixel = picture
            .pixel((x * scale) as u32, (y * scale) as u32)
            .unwrap();
        assert_eq!(pixel.alpha(), 255);
        pixel.red()
    };
    // Filled heads have two flags' worth of values; their middle is ink. Open ones have a light middle.
    let notes: Vec<_> = page.blocks.iter().flat_map(|b| &b.notes).collect();
    assert!(notes.len() > 10);
    let dark = notes.iter().filter(|n| grey(n.x, n.y) < 60).count();
    assert!(dark > 3, "{dark} of {}", notes.len());
    for y in 0..page.height as u32 {
        assert_eq!(grey(5.0, f64::from(y)), 255);
    }
}
