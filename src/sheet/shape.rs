//! The routine's shape: pitch against time. Notes are bars, in greys and forms by how far they lie from
//! what is comfortable; rests are shaded; what is played on one breath is marked beneath; under it stands
//! for each line how long it is played and how long is rest.

use super::letters::{ABOVE, Face};
use super::page::{Bounds, DrawnKind, DrawnMark, OutlineStep, Page, Role, Shape, SheetBlock};
use super::shape_rows::{Rows, Stretch};
use super::sizes::Sizes;
use crate::brass::{Band, comfort};
use crate::music::{Seconds, Whole, WrittenPitch};
use crate::routine::On;
use crate::score::{Joined, Played, Score, ScoreLine, ScoreNote};
use crate::words::{Language, duration, say};
use num_traits::ToPrimitive;

/// Greys, dark enough to tell apart on any printer.
const REST: u8 = 0xe6;
const EASY: u8 = 0x8c;
const GRID: u8 = 0xc8;

/// A note in the picture.
struct Bar {
    from: f64,
    to: f64,
    pitch: WrittenPitch,
    band: Band,
}

/// All that is drawn, in seconds.
#[derive(Default)]
struct Course {
    bars: Vec<Bar>,
    breaths: Vec<(f64, f64)>,
    /// When the player has nothing to do.
    rests: Vec<(f64, f64)>,
    lines: Vec<Stretch>,
    seconds: f64,
}

/// How it is drawn.
#[derive(Clone, Copy)]
struct Style {
    /// Size of its words.
    words: f64,
    /// Where time begins, right of the names of pitches.
    left: f64,
    /// Where it ends.
    right: f64,
    /// Where pitches end.
    floor: f64,
    sizes: Sizes,
}

impl Style {
    fn grey(&self, shade: u8) -> u8 {
        self.sizes.grey(shade)
    }
}

/// The picture on a page of its own.
pub fn page(score: &Score<'_>, width: f64, height: f64) -> Page {
    const BORDER: f64 = 10.0;
    let sizes = Sizes {
        small: 9.0,
        shape: height - 2.0 * BORDER,
        ..Sizes::NORMAL
    };
    let block = block(score, width - 2.0 * BORDER, &sizes);
    Page {
        width,
        height: block.height + 2.0 * BORDER,
        blocks: vec![block.moved(1.0, BORDER, BORDER)],
    }
}

/// The picture as a block.
pub fn block(score: &Score<'_>, width: f64, sizes: &Sizes) -> SheetBlock {
    const BREATHS: f64 = 8.0;
    let course = course(score);
    let mut block = SheetBlock::new(Role::Figure(described(score, &course)));
    let words = sizes.small;
    let left = 3.2 * words;
    let grey = sizes.grey(GRID);
    let language = score.routine.words_in;
    let rows = Rows::new(&course.lines, course.seconds, (left, width), words, grey);
    // From above: pitches, breath stretches, time, names and figures of the lines, the key to the greys.
    let under = BREATHS + rows.height() + words + 2.0;
    // Pitches keep a third of the height: very many lines make the picture higher.
    let floor = (sizes.shape - under).max(sizes.shape * 0.35);
    block.height = floor + under;
    let style = Style {
        words,
        left,
        right: width,
        floor,
        sizes: *sizes,
    };
    let x = |seconds: f64| rows.x(seconds);
    pitches(&mut block, &course, style, &x, score);
    breaths(&mut block, &course, floor, &x);
    rows.draw(language, &mut block, floor + BREATHS);
    key(language, &mut block, &course, style);
    block
}

fn seconds(seconds: Seconds) -> f64 {
    seconds.to_f64().unwrap_or(0.0)
}

fn course(score: &Score<'_>) -> Course {
    let mut course = Course {
        seconds: score.seconds.to_f64().unwrap_or(0.0),
        ..Course::default()
    };
    let mut played_to = 0.0;
    let count = score.lines.len();
    for (index, line) in score.lines.iter().enumerate() {
        let start = line.start.to_f64().unwrap_or(0.0);
        let first = start + seconds(line.seconds(line.count_in));
        let end = first + seconds(line.seconds(line.length));
        let next = if index + 1 < count {
            end + line.rest.map_or(0.0, |rest| seconds(rest.seconds))
        } else {
            course.seconds
        };
        let playing = seconds(line.played);
        let resting = (next - first - playing).max(0.0);
        course.lines.push(Stretch {
            from: if index == 0 { 0.0 } else { first },
            number: line.index + 1,
            playing,
            resting: if index + 1 < count {
                resting
            } else {
                end - first - playing
            },
        });
        for pass in &line.passes {
            let turn = if pass.turn { pass.length } else { Whole::ZERO };
            let at = |moment: Whole| first + seconds(line.seconds(pass.start + turn + moment));
            course.rests.push((played_to, at(Whole::ZERO)));
            played_to = at(pass.length);
            for note in &pass.notes {
                let (from, to) = (at(note.start), at(note.start + note.length));
                if let Played::Pitch { written, .. } = note.played {
                    let band = band(score, line, note, written);
                    course.bars.push(Bar {
                        from,
                        to,
                        pitch: written,
                        band,
                    });
                    breath(&mut course.breaths, note, from, to);
                }
            }
        }
    }
    course.rests.push((played_to, course.seconds));
    course.rests.retain(|(from, to)| to - from > 0.05);
    course
}

fn band(score: &Score<'_>, line: &ScoreLine, note: &ScoreNote, pitch: WrittenPitch) -> Band {
    let routine = score.routine;
    let tube = match note.played {
        Played::Pitch { tube, partial, .. }
            if line.on == On::Horn && note.joined != Joined::Bent =>
        {
            tube.zip(partial)
        }
        _ => None,
    };
    let (top, reach) = (routine.comfortable_top, routine.reach);
    comfort::band(routine.instrument, top, reach, pitch, tube)
}

/// Lengthens the stretch that is played on one breath, or begins another: after a breath, and after any
/// silence.
fn breath(breaths: &mut Vec<(f64, f64)>, note: &ScoreNote, from: f64, to: f64) {
    let taken = note.breath.map_or(0.0, seconds);
    let end = to - taken;
    match breaths.last_mut() {
        Some(last) if (from - last.1).abs() < 0.01 => last.1 = end,
        _ => breaths.push((from, end)),
    }
}

fn pitches(
    block: &mut SheetBlock,
    course: &Course,
    style: Style,
    x: &impl Fn(f64) -> f64,
    score: &Score<'_>,
) {
    let floor = style.floor;
    for (from, to) in &course.rests {
        let area = Bounds {
            left: x(*from),
            top: 0.0,
            right: x(*to),
            bottom: floor,
        };
        block
            .marks
            .push(DrawnMark::rectangle(DrawnKind::Picture, area).shaded(REST));
    }
    let numbers = || course.bars.iter().map(|b| b.pitch.number());
    let low = numbers().min().unwrap_or(60) - 1;
    let high = numbers().max().unwrap_or(67) + 1;
    let half_step = floor / f64::from(high - low + 1);
    let y = |number: i32| floor - half_step * (f64::from(number - low) + 0.5);
    named(block, course, style, score, (low, high), &y);
    for bar in &course.bars {
        // A thin gap between consecutive notes.
        let right = (x(bar.to) - 0.4).max(x(bar.from) + 0.9);
        note(
            block,
            (x(bar.from), right),
            y(bar.pitch.number()),
            half_step,
            bar.band,
            style,
        );
    }
}

/// Lines at the open notes, and their names: every player knows them.
fn named(
    block: &mut SheetBlock,
    course: &Course,
    style: Style,
    score: &Score<'_>,
    (low, high): (i32, i32),
    y: &impl Fn(i32) -> f64,
) {
    let words = style.words;
    let instrument = score.instrument();
    let open = crate::brass::partials::of_tube(instrument, instrument.open());
    let mut named: Vec<WrittenPitch> = open.map(|(_, pitch)| pitch).collect();
    named.retain(|pitch| pitch.number() > low && pitch.number() < high);
    named.extend(lowest(course));
    let mut taken: Vec<f64> = vec![];
    for pitch in named {
        let at = y(pitch.number());
        let ends = ((style.left, at), (style.right, at));
        let line = DrawnMark::line(DrawnKind::Picture, ends.0, ends.1, 0.4);
        block.marks.push(line.shaded(style.grey(GRID)));
        if taken.iter().any(|t| (t - at).abs() < words) {
            continue;
        }
        taken.push(at);
        let text = score.routine.names.of(pitch);
        let left = style.left - 4.0 - Face::Regular.width(&text, words);
        let base = (left.max(0.0), at + ABOVE * words / 2.0);
        let name = DrawnMark::text(DrawnKind::Text, base, Face::Regular, words, text);
        block.marks.push(name);
    }
}

fn lowest(course: &Course) -> Option<WrittenPitch> {
    let pitches = course.bars.iter().map(|b| b.pitch);
    pitches.min_by_key(|pitch| pitch.number())
}

/// Easy: a grey bar. Reached for: black, with pointed ends. Beyond: a hollow box taller than the others.
fn note(
    block: &mut SheetBlock,
    (left, right): (f64, f64),
    y: f64,
    half_step: f64,
    band: Band,
    style: Style,
) {
    let half = (half_step * 0.5).clamp(1.3, 3.0);
    let area = Bounds {
        left,
        top: y - half,
        right,
        bottom: y + half,
    };
    match band {
        Band::Comfortable => {
            block
                .marks
                .push(DrawnMark::rectangle(DrawnKind::Picture, area).shaded(style.grey(EASY)));
        }
        Band::Reach => {
            // Wide enough for its points to be seen.
            let right = right.max(left + 3.0);
            let point = (half * 1.2).min((right - left) / 2.0);
            let steps = vec![
                OutlineStep::Move((left, y)),
                OutlineStep::Line((left + point, y - half)),
                OutlineStep::Line((right - point, y - half)),
                OutlineStep::Line((right, y)),
                OutlineStep::Line((right - point, y + half)),
                OutlineStep::Line((left + point, y + half)),
                OutlineStep::Close,
            ];
            block
                .marks
                .push(DrawnMark::new(DrawnKind::Picture, Shape::Area(steps)));
        }
        Band::Beyond => {
            let tall = half * 1.5;
            let corners = [
                (left, y - tall),
                (right, y - tall),
                (right, y + tall),
                (left, y + tall),
            ];
            for (index, from) in corners.iter().enumerate() {
                let to = corners[(index + 1) % 4];
                block
                    .marks
                    .push(DrawnMark::line(DrawnKind::Picture, *from, to, 0.8));
            }
        }
    }
}

fn breaths(block: &mut SheetBlock, course: &Course, floor: f64, x: &impl Fn(f64) -> f64) {
    let y = floor + 4.0;
    for (from, to) in &course.breaths {
        let (left, right) = (x(*from), (x(*to) - 0.6).max(x(*from) + 0.3));
        block.marks.push(DrawnMark::line(
            DrawnKind::Picture,
            (left, y),
            (right, y),
            1.6,
        ));
    }
}

/// What the greys and forms mean: those that occur.
fn key(language: Language, block: &mut SheetBlock, course: &Course, style: Style) {
    let size = style.words;
    let y = block.height - 2.0;
    let middle = y - 0.34 * size;
    let mut x = style.left;
    let words = [
        (Band::Comfortable, say::shape_easy(language)),
        (Band::Reach, say::shape_stretch(language)),
        (Band::Beyond, say::shape_beyond(language)),
    ];
    let say = |block: &mut SheetBlock, x: &mut f64, text: &str| {
        let at = (*x + 17.0, y);
        let mark = DrawnMark::text(DrawnKind::Text, at, Face::Regular, size, text);
        block.marks.push(mark);
        *x = at.0 + Face::Regular.width(text, size) + 14.0;
    };
    for (band, text) in words {
        if course.bars.iter().any(|bar| bar.band == band) {
            note(block, (x, x + 14.0), middle, 6.0, band, style);
            say(block, &mut x, text);
        }
    }
    let area = Bounds {
        left: x,
        top: middle - 3.0,
        right: x + 14.0,
        bottom: middle + 3.0,
    };
    let rest = DrawnMark::rectangle(DrawnKind::Picture, area);
    block.marks.push(rest.shaded(REST));
    say(block, &mut x, say::shape_rest(language));
    let (from, to) = ((x, middle), (x + 14.0, middle));
    block
        .marks
        .push(DrawnMark::line(DrawnKind::Picture, from, to, 1.6));
    say(block, &mut x, say::shape_one_breath(language));
}

fn described(score: &Score<'_>, course: &Course) -> String {
    let language = score.routine.words_in;
    let lines: Vec<String> = course
        .lines
        .iter()
        .map(|l| say::shape_line(language, l.number, duration(l.playing), duration(l.resting)))
        .collect();
    let pitches = course.bars.iter().map(|b| b.pitch);
    let high = pitches.max_by_key(|pitch| pitch.number());
    let length = duration(course.seconds);
    let length = match lowest(course).zip(high) {
        Some((low, high)) => {
            let names = score.routine.names;
            say::shape_range(language, length, names.of(low), names.of(high))
        }
        None => length,
    };
    say::shape_described(language, &score.routine.title, length, lines.join("; "))
}
