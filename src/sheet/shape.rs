//! The routine's shape: pitch against time. Notes are bars, in greys and forms by how far they lie from
//! what is comfortable; rests are shaded; what is played on one breath is marked beneath; under it stands
//! for each line how long it is played and how long is rest.

use super::letters::{ABOVE, Face};
use super::page::{Bounds, DrawnKind, DrawnMark, OutlineStep, Page, Role, Shape, SheetBlock};
use crate::brass::{Band, comfort};
use crate::music::{Seconds, Whole, WrittenPitch};
use crate::routine::On;
use crate::score::{Joined, Played, Score, ScoreLine, ScoreNote};
use crate::words::duration;
use num_traits::ToPrimitive;

/// Greys, dark enough to tell apart on any printer.
const REST: u8 = 0xe6;
const EASY: u8 = 0x8c;
const GRID: u8 = 0xc8;
const WORDS: f64 = 7.0;
/// Room for the names of pitches.
const LEFT: f64 = 22.0;

/// A note in the picture.
struct Bar {
    from: f64,
    to: f64,
    pitch: WrittenPitch,
    band: Band,
}

/// A line in the picture, in seconds from the start of the track.
struct Stretch {
    from: f64,
    number: usize,
    playing: f64,
    resting: f64,
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

/// The picture on a page of its own.
pub fn page(score: &Score<'_>, width: f64, height: f64) -> Page {
    const BORDER: f64 = 10.0;
    let inner = width - 2.0 * BORDER;
    let block = block(score, inner, height - 2.0 * BORDER);
    Page {
        width,
        height,
        blocks: vec![block.moved(1.0, BORDER, BORDER)],
    }
}

/// The picture as a block.
pub fn block(score: &Score<'_>, width: f64, height: f64) -> SheetBlock {
    let course = course(score);
    let mut block = SheetBlock::new(Role::Figure(described(score, &course)));
    block.height = height;
    let across = width - LEFT;
    let x = |seconds: f64| LEFT + across * seconds / course.seconds.max(1.0);
    // From above: pitches, breath stretches, names and figures of the lines, the key to the greys.
    let floor = height - 5.0 * WORDS - 12.0;
    pitches(&mut block, &course, floor, width, &x, score);
    breaths(&mut block, &course, floor, &x);
    figures(&mut block, &course, floor + 9.0, &x);
    key(&mut block, &course, height - 2.0);
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
        Played::Pitch {
            valves, partial, ..
        } if line.on == On::Horn && note.joined != Joined::Bent => valves.zip(partial),
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
    floor: f64,
    width: f64,
    x: &impl Fn(f64) -> f64,
    score: &Score<'_>,
) {
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
    // Only the open notes are named: every player knows them.
    let instrument = score.instrument();
    let open = crate::brass::partials::of_tube(instrument, crate::brass::Valves::OPEN);
    let mut named: Vec<WrittenPitch> = open.map(|(_, pitch)| pitch).collect();
    named.retain(|pitch| pitch.number() > low && pitch.number() < high);
    named.extend(lowest(course));
    let mut taken: Vec<f64> = vec![];
    for pitch in named {
        let at = y(pitch.number());
        let line = DrawnMark::line(DrawnKind::Picture, (LEFT, at), (width, at), 0.4);
        block.marks.push(line.shaded(GRID));
        if taken.iter().any(|t| (t - at).abs() < WORDS) {
            continue;
        }
        taken.push(at);
        let text = pitch.to_string();
        let left = LEFT - 4.0 - Face::Regular.width(&text, WORDS);
        let base = (left.max(0.0), at + ABOVE * WORDS / 2.0);
        block.marks.push(DrawnMark::text(
            DrawnKind::Text,
            base,
            Face::Regular,
            WORDS,
            text,
        ));
    }
    for bar in &course.bars {
        // A thin gap between consecutive notes.
        let right = (x(bar.to) - 0.4).max(x(bar.from) + 0.9);
        note(
            block,
            (x(bar.from), right),
            y(bar.pitch.number()),
            half_step,
            bar.band,
        );
    }
}

fn lowest(course: &Course) -> Option<WrittenPitch> {
    let pitches = course.bars.iter().map(|b| b.pitch);
    pitches.min_by_key(|pitch| pitch.number())
}

/// Easy: a grey bar. Reached for: black, with pointed ends. Beyond: a hollow box taller than the others.
fn note(block: &mut SheetBlock, (left, right): (f64, f64), y: f64, half_step: f64, band: Band) {
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
                .push(DrawnMark::rectangle(DrawnKind::Picture, area).shaded(EASY));
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

/// The number of each line, and under it how long it is played and rested.
fn figures(block: &mut SheetBlock, course: &Course, top: f64, x: &impl Fn(f64) -> f64) {
    let rows = [0, 1, 2].map(|n| top + ABOVE * WORDS + f64::from(n) * (WORDS + 1.5));
    for (name, y) in ["", "play", "rest"].iter().zip(rows) {
        block.marks.push(DrawnMark::text(
            DrawnKind::Text,
            (0.0, y),
            Face::Italic,
            WORDS,
            *name,
        ));
    }
    block
        .marks
        .retain(|m| !matches!(&m.shape, Shape::Text { text, .. } if text.is_empty()));
    let mut free = LEFT;
    for line in &course.lines {
        let left = x(line.from);
        block.marks.push(
            DrawnMark::line(DrawnKind::Picture, (left, top - 9.0), (left, rows[2]), 0.4)
                .shaded(GRID),
        );
        let texts = [
            (line.number.to_string(), Face::Bold),
            (duration(line.playing), Face::Regular),
            (duration(line.resting), Face::Regular),
        ];
        let wide = texts
            .iter()
            .map(|(t, f)| f.width(t, WORDS))
            .fold(0.0, f64::max);
        let at = left.max(LEFT) + 2.0;
        // Where lines are too short for their figures, those that have room are shown.
        if at < free || at + wide > x(course.seconds) {
            continue;
        }
        free = at + wide + 2.0;
        for ((text, face), y) in texts.into_iter().zip(rows) {
            block
                .marks
                .push(DrawnMark::text(DrawnKind::Text, (at, y), face, WORDS, text));
        }
    }
}

/// What the greys and forms mean: those that occur.
fn key(block: &mut SheetBlock, course: &Course, y: f64) {
    let mut x = LEFT;
    let words = [
        (Band::Comfortable, "easy"),
        (Band::Reach, "a stretch"),
        (Band::Beyond, "beyond"),
    ];
    let say = |block: &mut SheetBlock, x: &mut f64, text: &str| {
        block.marks.push(DrawnMark::text(
            DrawnKind::Text,
            (*x, y),
            Face::Regular,
            WORDS,
            text,
        ));
        *x += Face::Regular.width(text, WORDS) + 14.0;
    };
    for (band, text) in words {
        if course.bars.iter().any(|bar| bar.band == band) {
            note(block, (x, x + 14.0), y - 2.4, 6.0, band);
            x += 17.0;
            say(block, &mut x, text);
        }
    }
    let area = Bounds {
        left: x,
        top: y - 5.4,
        right: x + 14.0,
        bottom: y + 0.6,
    };
    block
        .marks
        .push(DrawnMark::rectangle(DrawnKind::Picture, area).shaded(REST));
    x += 17.0;
    say(block, &mut x, "rest");
    block.marks.push(DrawnMark::line(
        DrawnKind::Picture,
        (x, y - 2.4),
        (x + 14.0, y - 2.4),
        1.6,
    ));
    x += 17.0;
    say(block, &mut x, "on one breath");
}

fn described(score: &Score<'_>, course: &Course) -> String {
    let lines: Vec<String> = course
        .lines
        .iter()
        .map(|l| {
            format!(
                "line {} {} playing, {} rest",
                l.number,
                duration(l.playing),
                duration(l.resting)
            )
        })
        .collect();
    let pitches = course.bars.iter().map(|b| b.pitch);
    let high = pitches.max_by_key(|pitch| pitch.number());
    let range = lowest(course)
        .zip(high)
        .map_or(String::new(), |(low, high)| {
            format!(", from {low} to {high}")
        });
    format!(
        "Pitch against time of {}, {}{range}: {}",
        score.routine.title,
        duration(course.seconds),
        lines.join("; ")
    )
}
