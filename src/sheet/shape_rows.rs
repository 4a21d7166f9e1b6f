//! Under the routine's shape: a time axis, the number of every line, and how long each is played and rested.

use super::letters::{ABOVE, Face};
use super::page::{DrawnKind, DrawnMark, SheetBlock};
use crate::words::{Language, duration, say};

/// A line in the picture, in seconds from the start of the track.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Where it begins.
    pub from: f64,
    /// Its number.
    pub number: usize,
    /// How long it is played.
    pub playing: f64,
    /// How long the player rests in it and after it.
    pub resting: f64,
}

/// Between texts beside one another.
const APART: f64 = 2.5;
/// Seconds between marks of the axis: the first that leaves room for their names is taken.
const TICKS: [f64; 9] = [
    10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 1800.0, 3600.0,
];

/// The rows under the picture, laid out.
pub struct Rows<'c> {
    lines: &'c [Stretch],
    seconds: f64,
    /// Where time begins and ends on the page.
    left: f64,
    right: f64,
    size: f64,
    grey: u8,
    /// Of every line, the row of its number and where it begins there.
    numbers: Vec<(usize, f64)>,
}

impl<'c> Rows<'c> {
    /// Lays out the rows of lines over a width from `left` to `right`.
    pub fn new(
        lines: &'c [Stretch],
        seconds: f64,
        (left, right): (f64, f64),
        size: f64,
        grey: u8,
    ) -> Self {
        let mut rows = Self {
            lines,
            seconds: seconds.max(1.0),
            left,
            right,
            size,
            grey,
            numbers: vec![],
        };
        // Every number has its place: where lines are short, their numbers stand on several rows.
        let mut ends: Vec<f64> = vec![];
        for line in lines {
            let wide = Face::Bold.width(&line.number.to_string(), size);
            let at = (rows.x(line.from) + 2.0).min(right - wide);
            let free = ends.iter().position(|end| *end + APART <= at);
            let row = free.unwrap_or(ends.len());
            if row == ends.len() {
                ends.push(0.0);
            }
            ends[row] = at + wide;
            rows.numbers.push((row, at));
        }
        rows
    }

    /// Where a moment is.
    pub fn x(&self, seconds: f64) -> f64 {
        self.left + (self.right - self.left) * seconds / self.seconds
    }

    fn row(&self) -> f64 {
        self.size + 1.5
    }

    fn rows_of_numbers(&self) -> usize {
        self.numbers
            .iter()
            .map(|(row, _)| row + 1)
            .max()
            .unwrap_or(0)
    }

    /// How high all rows are.
    pub fn height(&self) -> f64 {
        self.row() * (self.rows_of_numbers() + 3) as f64 + 5.0
    }

    fn text(&self, block: &mut SheetBlock, at: (f64, f64), face: Face, text: &str) {
        let mark = DrawnMark::text(DrawnKind::Text, at, face, self.size, text);
        block.marks.push(mark);
    }

    /// Draws the rows from `top` on.
    pub fn draw(&self, language: Language, block: &mut SheetBlock, top: f64) {
        let base = |row: usize| top + 5.0 + ABOVE * self.size + self.row() * row as f64;
        self.axis(language, block, top, base(0));
        let numbers = self.rows_of_numbers();
        let (play, rest) = (base(1 + numbers), base(2 + numbers));
        self.text(block, (0.0, play), Face::Italic, say::shape_play(language));
        self.text(block, (0.0, rest), Face::Italic, say::shape_rest(language));
        let mut free = self.left;
        for (line, (row, at)) in self.lines.iter().zip(&self.numbers) {
            let y = base(1 + row);
            let left = self.x(line.from);
            let guide = DrawnMark::line(DrawnKind::Picture, (left, top), (left, y), 0.4);
            block.marks.push(guide.shaded(self.grey));
            self.text(block, (*at, y), Face::Bold, &line.number.to_string());
            let figures = [line.playing, line.resting].map(duration);
            let wide = figures.iter().map(|t| Face::Regular.width(t, self.size));
            let wide = wide.fold(0.0, f64::max);
            // Where lines are too short for their figures, those that have room are shown.
            if *at < free || at + wide > self.right {
                continue;
            }
            free = at + wide + APART;
            for (text, y) in figures.iter().zip([play, rest]) {
                self.text(block, (*at, y), Face::Regular, text);
            }
        }
    }

    /// The time from the start of the track.
    fn axis(&self, language: Language, block: &mut SheetBlock, top: f64, base: f64) {
        let name = |at: f64| duration(at);
        let wide = Face::Regular.width(&name(self.seconds), self.size) + 4.0 * APART;
        let fits = |tick: &&f64| self.x(**tick) - self.x(0.0) >= wide;
        let longest = TICKS[TICKS.len() - 1];
        let tick = TICKS.iter().find(fits).copied().unwrap_or(longest);
        let mut free = f64::NEG_INFINITY;
        for number in 0..=(self.seconds / tick) as u32 {
            let at = tick * f64::from(number);
            let x = self.x(at);
            let stroke = DrawnMark::line(DrawnKind::Picture, (x, top), (x, top + 3.0), 0.6);
            block.marks.push(stroke);
            let text = name(at);
            let half = Face::Regular.width(&text, self.size) / 2.0;
            let left = (x - half).clamp(self.left, (self.right - 2.0 * half).max(self.left));
            if left >= free {
                self.text(block, (left, base), Face::Regular, &text);
                free = left + 2.0 * half + APART;
            }
        }
        let time = say::shape_time(language);
        self.text(block, (0.0, base), Face::Italic, time);
        let ends = ((self.left, top), (self.right, top));
        block
            .marks
            .push(DrawnMark::line(DrawnKind::Picture, ends.0, ends.1, 0.6));
    }
}
