//! The picture that music players show beside a track: routine, tempo and key, large enough to read in a list.

use super::labels::Labels;
use ab_glyph::{Font, FontRef, PxScale, ScaleFont, point};
use png::{BitDepth, ColorType};
use std::io;

/// Its side in pixels.
pub const SIDE: u32 = 480;
/// Bits of a pixel.
pub const BITS_A_PIXEL: u32 = 4;
/// Its colours: steps from background to ink.
pub const COLOURS: u32 = 1 << BITS_A_PIXEL;

/// Red, green, blue. Ink on background has a contrast of 12 to 1.
const GROUND: [u8; 3] = [0x12, 0x34, 0x4d];
const INK: [u8; 3] = [0xff, 0xff, 0xff];

/// Width of the margin.
const MARGIN: f32 = 22.0;
const WIDTH: f32 = SIDE as f32 - 2.0 * MARGIN;

/// Sizes of letters in pixels, from the top of an ascender to the bottom of a descender.
const TITLE_SIZES: [f32; 6] = [96.0, 84.0, 74.0, 64.0, 56.0, 48.0];
const TITLE_ROOM: f32 = 176.0;
const TEMPO_SIZE: f32 = 210.0;
const KEY_SIZE: f32 = 88.0;

/// The picture as a PNG file.
pub fn png(labels: &Labels) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, SIDE, SIDE);
    encoder.set_color(ColorType::Indexed);
    encoder.set_depth(BitDepth::Four);
    encoder.set_palette(palette());
    let mut writer = encoder.write_header().map_err(io::Error::other)?;
    let drawn = Drawing::of(labels).packed();
    writer.write_image_data(&drawn).map_err(io::Error::other)?;
    writer.finish().map_err(io::Error::other)?;
    Ok(bytes)
}

fn palette() -> Vec<u8> {
    let last = COLOURS - 1;
    let mix = |step: u32, ground: u8, ink: u8| {
        ((u32::from(ground) * (last - step) + u32::from(ink) * step) / last) as u8
    };
    (0..COLOURS)
        .flat_map(|step| [0, 1, 2].map(|i| mix(step, GROUND[i], INK[i])))
        .collect()
}

/// How much ink is on each pixel, from 0 to 1.
struct Drawing {
    ink: Vec<f32>,
    font: FontRef<'static>,
}

impl Drawing {
    fn of(labels: &Labels) -> Self {
        let font = FontRef::try_from_slice(dejavu::sans::bold())
            .expect("a test reads the font that comes with the program");
        let mut this = Self {
            ink: vec![0.0; (SIDE * SIDE) as usize],
            font,
        };
        this.title(&labels.routine);
        let centre = 0.60 * SIDE as f32;
        this.centred(&labels.tempo, TEMPO_SIZE, centre);
        this.centred(&labels.key, KEY_SIZE, SIDE as f32 - MARGIN - KEY_SIZE / 2.0);
        this
    }

    /// As large as fits into its area, on as many rows as needed.
    fn title(&mut self, title: &str) {
        let known = self.known(title);
        let fitting = TITLE_SIZES.iter().find_map(|size| {
            let rows = self.rows(&known, *size);
            let fits = rows.len() as f32 * size <= TITLE_ROOM
                && rows.iter().all(|row| self.width(row, *size) <= WIDTH);
            fits.then_some((rows, *size))
        });
        let (rows, size) = fitting.unwrap_or_else(|| self.cut(&known));
        for (row, text) in rows.iter().enumerate() {
            self.centred(text, size, MARGIN + size * (row as f32 + 0.5));
        }
    }

    /// The part of a title that fits, in the smallest letters.
    fn cut(&self, title: &str) -> (Vec<String>, f32) {
        let size = TITLE_SIZES[TITLE_SIZES.len() - 1];
        let most = (TITLE_ROOM / size) as usize;
        let mut rows = self.rows(title, size);
        let whole = rows.len() <= most;
        rows.truncate(most);
        let last = rows.len().saturating_sub(1);
        for (i, row) in rows.iter_mut().enumerate() {
            let goes_on = i == last && !whole;
            while !row.is_empty() && self.width(&(row.clone() + "…"), size) > WIDTH {
                row.pop();
            }
            if goes_on {
                row.push('…');
            }
        }
        (rows, size)
    }

    /// The text without characters that the font lacks.
    fn known(&self, text: &str) -> String {
        let has = |c: &char| c.is_whitespace() || self.font.glyph_id(*c).0 != 0;
        text.chars().filter(has).collect()
    }

    /// The text broken into rows at spaces.
    fn rows(&self, text: &str, size: f32) -> Vec<String> {
        let mut rows: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            if let Some(row) = rows.last_mut() {
                let longer = format!("{row} {word}");
                if self.width(&longer, size) <= WIDTH {
                    *row = longer;
                    continue;
                }
            }
            rows.push(word.to_owned());
        }
        rows
    }

    fn width(&self, text: &str, size: f32) -> f32 {
        let font = self.font.as_scaled(PxScale::from(size));
        let letters = text.chars().map(|c| font.h_advance(font.glyph_id(c)));
        letters.sum()
    }

    /// Draws a row centred in the picture, the middle of its capitals `middle` pixels from the top; smaller if
    /// it would be too wide.
    fn centred(&mut self, text: &str, size: f32, middle: f32) {
        let text = self.known(text);
        let size = size * (WIDTH / self.width(&text, size)).min(1.0);
        let mut x = (SIDE as f32 - self.width(&text, size)) / 2.0;
        // A capital of this font is 0.729 of an em high, an em 0.859 of the size.
        let baseline = middle + size * 0.729 * 0.859 / 2.0;
        for c in text.chars() {
            let glyph = self
                .font
                .glyph_id(c)
                .with_scale_and_position(PxScale::from(size), point(x, baseline));
            let font = self.font.as_scaled(PxScale::from(size));
            x += font.h_advance(glyph.id);
            let Some(outline) = self.font.outline_glyph(glyph) else {
                continue;
            };
            let corner = outline.px_bounds().min;
            let ink = &mut self.ink;
            outline.draw(|dx, dy, covered| {
                let at = |corner: f32, d: u32| {
                    let at = corner as i64 + i64::from(d);
                    u32::try_from(at).ok().filter(|at| *at < SIDE)
                };
                if let (Some(x), Some(y)) = (at(corner.x, dx), at(corner.y, dy)) {
                    let pixel = &mut ink[(y * SIDE + x) as usize];
                    *pixel = (*pixel + covered).min(1.0);
                }
            });
        }
    }

    /// Two pixels to a byte, row by row.
    fn packed(&self) -> Vec<u8> {
        let step = |ink: f32| (ink * (COLOURS - 1) as f32).round() as u8;
        let (pairs, _) = self.ink.as_chunks::<2>();
        pairs
            .iter()
            .map(|[left, right]| step(*left) << 4 | step(*right))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels(routine: &str, tempo: &str, key: &str) -> Labels {
        Labels {
            routine: routine.to_owned(),
            tempo: tempo.to_owned(),
            key: key.to_owned(),
            ..Labels::default()
        }
    }

    /// Ink within these rows, as a fraction of full coverage.
    fn ink(drawing: &Drawing, rows: std::ops::Range<u32>) -> f32 {
        let (from, to) = ((rows.start * SIDE) as usize, (rows.end * SIDE) as usize);
        drawing.ink[from..to].iter().sum::<f32>() / (to - from) as f32
    }

    #[test]
    fn a_picture_tells_routine_tempo_and_key() {
        let whole = labels("Second steps", "61.2", "1 down");
        let drawing = Drawing::of(&whole);
        for other in [
            labels("Third steps", "61.2", "1 down"),
            labels("Second steps", "72", "1 down"),
            labels("Second steps", "61.2", "as written"),
        ] {
            assert!(Drawing::of(&other).packed() != drawing.packed());
            assert_ne!(png(&other).unwrap(), png(&whole).unwrap());
        }
        // A title at the top, a tempo a third of the height or so, a key at the bottom.
        for rows in [20..170, 230..345, 380..460] {
            assert!(ink(&drawing, rows.clone()) > 0.05, "{rows:?}");
        }
        assert!(png(&whole).unwrap().len() < 12_000);
    }

    #[test]
    fn any_title_leaves_the_edges_free() {
        let one_word = "Donaudampfschifffahrtsgesellschaftskapitänsmütze".repeat(10);
        for title in [
            "",
            "朝の練習",
            "\u{301}\u{301}",
            &one_word,
            &"long ".repeat(100),
        ] {
            let drawing = Drawing::of(&labels(title, "61.234", "24 down"));
            assert_eq!(ink(&drawing, 0..6), 0.0, "{title}");
            let (rows, _) = drawing.ink.as_chunks::<{ SIDE as usize }>();
            let edges = rows.iter().flat_map(|row| [row[4], row[SIDE as usize - 5]]);
            assert_eq!(edges.sum::<f32>(), 0.0, "{title}");
        }
    }
}
