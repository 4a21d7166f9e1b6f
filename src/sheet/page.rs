//! The resolved page: glyphs, lines, filled curves and text at points, and where each note stands.
//!
//! A page contains no musical decisions: a back end draws every mark at its place. Lengths are in points of 1/72 inch, y
//! downwards, from the page's top left corner.

use super::glyph::Glyph;
use super::letters::{ABOVE, BELOW, Face};
use super::outline::points;
pub use super::outline::{Bounds, OutlineStep};
use crate::music::Whole;

/// A whole sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// What it is called.
    pub title: String,
    /// The language of the routine's texts, a tag of BCP 47, if it is said.
    pub language: Option<String>,
    /// Its pages in order.
    pub pages: Vec<Page>,
}

/// One page, or a strip with a single line of a routine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// What stands on it, in reading order.
    pub blocks: Vec<SheetBlock>,
}

/// Marks that belong together: a heading, a paragraph, a system of music.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetBlock {
    /// Its role for a reader who cannot see it.
    pub role: Role,
    /// Index in the routine of the line it belongs to.
    pub line: Option<usize>,
    /// Its height.
    pub height: f64,
    /// What is drawn.
    pub marks: Vec<DrawnMark>,
    /// Heads of the notes in it.
    pub notes: Vec<PlacedHead>,
    /// The positions of its moments, from left to right.
    pub moments: Vec<PlacedMoment>,
}

/// What a block is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// The sheet's title.
    Title,
    /// The name of a line, or of a part of the foot.
    Heading(String),
    /// Text.
    Paragraph,
    /// Music or a picture, with a description in words.
    Figure(String),
    /// Content of every page, such as its number.
    Margin,
}

/// Where one written note head stands. A note that is tied has several.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedHead {
    /// Index of the line in the routine.
    pub line: usize,
    /// Index of the pass in the score's line.
    pub pass: usize,
    /// Index of the note in the pass.
    pub note: usize,
    /// Which of its tied heads, from 0.
    pub head: usize,
    /// Steps of the staff above its bottom line.
    pub step: i32,
    /// Middle of the head.
    pub x: f64,
    /// Middle of the head.
    pub y: f64,
}

/// Where a written pass is at a moment: a note or rest begins there, or the system ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedMoment {
    /// Index of the pass in the score's line.
    pub pass: usize,
    /// From the start of the pass.
    pub at: Whole,
    /// Middle of the head or rest; the last bar line at the end of the system.
    pub x: f64,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnMark {
    /// What it is.
    pub kind: DrawnKind,
    /// How dark, from 0, black, to 255, white.
    pub shade: u8,
    /// Its form and place.
    pub shape: Shape,
}

/// What a mark is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum DrawnKind {
    StaffLine,
    LedgerLine,
    BarLine,
    Clef,
    Key,
    Meter,
    Head,
    Stem,
    Flag,
    Beam,
    Dot,
    Accidental,
    Rest,
    Tie,
    Slur,
    Bracket,
    Articulation,
    BreathMark,
    Fingering,
    Dynamic,
    Hairpin,
    Tempo,
    Words,
    Text,
    Picture,
    Pencil,
}

impl DrawnKind {
    /// Its name in drawings.
    pub fn name(self) -> &'static str {
        match self {
            DrawnKind::StaffLine => "staff-line",
            DrawnKind::LedgerLine => "ledger-line",
            DrawnKind::BarLine => "bar-line",
            DrawnKind::Clef => "clef",
            DrawnKind::Key => "key",
            DrawnKind::Meter => "meter",
            DrawnKind::Head => "head",
            DrawnKind::Stem => "stem",
            DrawnKind::Flag => "flag",
            DrawnKind::Beam => "beam",
            DrawnKind::Dot => "dot",
            DrawnKind::Accidental => "accidental",
            DrawnKind::Rest => "rest",
            DrawnKind::Tie => "tie",
            DrawnKind::Slur => "slur",
            DrawnKind::Bracket => "bracket",
            DrawnKind::Articulation => "articulation",
            DrawnKind::BreathMark => "breath-mark",
            DrawnKind::Fingering => "fingering",
            DrawnKind::Dynamic => "dynamic",
            DrawnKind::Hairpin => "hairpin",
            DrawnKind::Tempo => "tempo",
            DrawnKind::Words => "words",
            DrawnKind::Text => "text",
            DrawnKind::Picture => "picture",
            DrawnKind::Pencil => "pencil",
        }
    }
}

/// Form and place of a mark.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A music glyph with its origin at a point.
    Glyph {
        /// Which.
        glyph: Glyph,
        /// Origin.
        at: (f64, f64),
        /// Length of a staff space.
        space: f64,
    },
    /// A straight stroke with square ends.
    Line {
        /// One end.
        from: (f64, f64),
        /// The other.
        to: (f64, f64),
        /// Its width.
        width: f64,
    },
    /// A filled outline.
    Area(Vec<OutlineStep>),
    /// A line of text.
    Text {
        /// Left end of its baseline.
        at: (f64, f64),
        /// Size.
        size: f64,
        /// Face.
        face: Face,
        /// The text.
        text: String,
    },
}

impl DrawnMark {
    /// A black mark.
    pub fn new(kind: DrawnKind, shape: Shape) -> Self {
        Self {
            kind,
            shade: 0,
            shape,
        }
    }

    /// A glyph one staff space to a unit.
    pub fn glyph(kind: DrawnKind, glyph: Glyph, x: f64, y: f64) -> Self {
        let space = 1.0;
        Self::new(
            kind,
            Shape::Glyph {
                glyph,
                at: (x, y),
                space,
            },
        )
    }

    /// A stroke.
    pub fn line(kind: DrawnKind, from: (f64, f64), to: (f64, f64), width: f64) -> Self {
        Self::new(kind, Shape::Line { from, to, width })
    }

    /// A line of text from the left end of its baseline.
    pub fn text(
        kind: DrawnKind,
        at: (f64, f64),
        face: Face,
        size: f64,
        text: impl Into<String>,
    ) -> Self {
        Self::new(
            kind,
            Shape::Text {
                at,
                size,
                face,
                text: text.into(),
            },
        )
    }

    /// A filled rectangle.
    pub fn rectangle(kind: DrawnKind, area: Bounds) -> Self {
        Self::new(
            kind,
            Shape::Area(vec![
                OutlineStep::Move((area.left, area.top)),
                OutlineStep::Line((area.right, area.top)),
                OutlineStep::Line((area.right, area.bottom)),
                OutlineStep::Line((area.left, area.bottom)),
                OutlineStep::Close,
            ]),
        )
    }

    /// The same in grey.
    pub fn shaded(mut self, shade: u8) -> Self {
        self.shade = shade;
        self
    }

    /// The same, larger and moved.
    pub fn moved(self, scale: f64, dx: f64, dy: f64) -> Self {
        let to = |(x, y): (f64, f64)| (x * scale + dx, y * scale + dy);
        let shape = match self.shape {
            Shape::Glyph { glyph, at, space } => Shape::Glyph {
                glyph,
                at: to(at),
                space: space * scale,
            },
            Shape::Line {
                from,
                to: end,
                width,
            } => Shape::Line {
                from: to(from),
                to: to(end),
                width: width * scale,
            },
            Shape::Area(steps) => {
                Shape::Area(steps.into_iter().map(|step| step.mapped(to)).collect())
            }
            Shape::Text {
                at,
                size,
                face,
                text,
            } => Shape::Text {
                at: to(at),
                size: size * scale,
                face,
                text,
            },
        };
        Self { shape, ..self }
    }

    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        match &self.shape {
            Shape::Glyph { glyph, at, space } => {
                let own = glyph.bounds();
                Bounds {
                    left: at.0 + own.left * space,
                    top: at.1 + own.top * space,
                    right: at.0 + own.right * space,
                    bottom: at.1 + own.bottom * space,
                }
            }
            Shape::Line { from, to, width } => {
                let half = width / 2.0;
                let (across_x, across_y) = if from.0 == to.0 {
                    (half, 0.0)
                } else if from.1 == to.1 {
                    (0.0, half)
                } else {
                    (half, half)
                };
                Bounds {
                    left: from.0.min(to.0) - across_x,
                    top: from.1.min(to.1) - across_y,
                    right: from.0.max(to.0) + across_x,
                    bottom: from.1.max(to.1) + across_y,
                }
            }
            Shape::Area(steps) => {
                let mut points = points(steps).into_iter();
                let (x, y) = points.next().unwrap_or((0.0, 0.0));
                let first = Bounds {
                    left: x,
                    top: y,
                    right: x,
                    bottom: y,
                };
                points.fold(first, |all, (x, y)| Bounds {
                    left: all.left.min(x),
                    top: all.top.min(y),
                    right: all.right.max(x),
                    bottom: all.bottom.max(y),
                })
            }
            Shape::Text {
                at,
                size,
                face,
                text,
            } => Bounds {
                left: at.0,
                top: at.1 - ABOVE * size,
                right: at.0 + face.width(text, *size),
                bottom: at.1 + BELOW * size,
            },
        }
    }
}

impl SheetBlock {
    /// An empty block.
    pub fn new(role: Role) -> Self {
        Self {
            role,
            line: None,
            height: 0.0,
            marks: vec![],
            notes: vec![],
            moments: vec![],
        }
    }

    /// The same, larger and moved.
    pub fn moved(self, scale: f64, dx: f64, dy: f64) -> Self {
        let marks = self.marks.into_iter();
        let notes = self.notes.into_iter().map(|note| PlacedHead {
            x: note.x * scale + dx,
            y: note.y * scale + dy,
            ..note
        });
        let moments = self.moments.into_iter().map(|moment| PlacedMoment {
            x: moment.x * scale + dx,
            ..moment
        });
        Self {
            height: self.height * scale,
            marks: marks.map(|mark| mark.moved(scale, dx, dy)).collect(),
            notes: notes.collect(),
            moments: moments.collect(),
            role: self.role,
            line: self.line,
        }
    }

    /// The box around all its marks; `None` if it is empty.
    pub fn bounds(&self) -> Option<Bounds> {
        let boxes = self.marks.iter().map(DrawnMark::bounds);
        boxes.reduce(|all, one| all.with(&one))
    }
}
