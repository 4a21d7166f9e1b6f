//! The tubes of each kind of instrument: how they are made, and by how many half steps each lowers the open horn.
//!
//! Valves lower by 1 (the second), 2 (the first), 3 (the third) and 5 half steps (the fourth). Shortest tube first; of two
//! equally long ones the usual one first. Sources: Wikipedia, "Pitch of brass instruments"; J. Funderburk, on the fourth
//! valve (University of Northern Iowa); Wikibooks, "Trombone/Slide Positions"; C. Smalley, "Double Horn Fingering
//! Dictionary".

use super::tube::Tube;

/// A tube, and by how many half steps it lowers the open horn; less than 0 if it is shorter.
pub type TubeLength = (Tube, i32);

const fn valves(numbers: &[u8], half_steps: i32) -> TubeLength {
    (Tube::of(numbers), half_steps)
}

const fn thumb(numbers: &[u8], half_steps: i32) -> TubeLength {
    (Tube::of(numbers).with_thumb(), half_steps)
}

/// Three valves.
pub const THREE_VALVES: &[TubeLength] = &[
    valves(&[], 0),
    valves(&[2], 1),
    valves(&[1], 2),
    valves(&[1, 2], 3),
    valves(&[3], 3),
    valves(&[2, 3], 4),
    valves(&[1, 3], 5),
    valves(&[1, 2, 3], 6),
];

/// Four valves without compensation. The fourth takes the place of 1-3, and 2-4 that of 1-2-3. Below them every sum of
/// valves is more than half a step too sharp, so a player takes the next longer one.
pub const FOUR_VALVES: &[TubeLength] = &[
    valves(&[], 0),
    valves(&[2], 1),
    valves(&[1], 2),
    valves(&[1, 2], 3),
    valves(&[3], 3),
    valves(&[2, 3], 4),
    valves(&[4], 5),
    valves(&[1, 3], 5),
    valves(&[2, 4], 6),
    valves(&[1, 2, 3], 6),
    valves(&[1, 2, 4], 7),
    valves(&[2, 3, 4], 8),
    valves(&[1, 3, 4], 9),
    valves(&[1, 2, 3, 4], 10),
];

/// Four valves with compensation: the fourth lets the others through loops of their own, so that every sum is in tune.
pub const COMPENSATING: &[TubeLength] = &[
    valves(&[], 0),
    valves(&[2], 1),
    valves(&[1], 2),
    valves(&[1, 2], 3),
    valves(&[3], 3),
    valves(&[2, 3], 4),
    valves(&[4], 5),
    valves(&[1, 3], 5),
    valves(&[2, 4], 6),
    valves(&[1, 2, 3], 6),
    valves(&[1, 4], 7),
    valves(&[1, 2, 4], 8),
    valves(&[2, 3, 4], 9),
    valves(&[1, 3, 4], 10),
    valves(&[1, 2, 3, 4], 11),
];

const fn slide(number: u8) -> TubeLength {
    (Tube::of(&[number]), number as i32 - 1)
}

/// A position made shorter for the seventh partial. It is named after the position beside it.
const fn raised(number: u8) -> TubeLength {
    (Tube::of(&[number]).raised(), number as i32 - 1)
}

/// Seven positions of a slide. The seventh partial has no place before the second position: the slide is in.
pub const SLIDE: &[TubeLength] = &[
    slide(1),
    slide(2),
    raised(2),
    slide(3),
    raised(3),
    slide(4),
    raised(4),
    slide(5),
    raised(5),
    slide(6),
    raised(6),
    slide(7),
    raised(7),
];

/// The same, then the F attachment. Its tube is longer by a third, so its half steps lie further apart and only six fit on
/// the slide, at 1.0, 2.3, 3.6, 4.9, 6.2 and 7.4 of the positions without it: they are named after the nearest one.
pub const SLIDE_WITH_ATTACHMENT: &[TubeLength] = &[
    slide(1),
    slide(2),
    raised(2),
    slide(3),
    raised(3),
    slide(4),
    raised(4),
    slide(5),
    raised(5),
    slide(6),
    raised(6),
    slide(7),
    raised(7),
    thumb(&[1], 5),
    thumb(&[2], 6),
    thumb(&[3], 7),
    thumb(&[5], 8),
    thumb(&[6], 9),
    thumb(&[7], 10),
];

/// A double horn: the F side, then with the thumb the B-flat side, five half steps higher.
pub const DOUBLE_HORN: &[TubeLength] = &[
    valves(&[], 0),
    valves(&[2], 1),
    valves(&[1], 2),
    valves(&[1, 2], 3),
    valves(&[3], 3),
    valves(&[2, 3], 4),
    valves(&[1, 3], 5),
    valves(&[1, 2, 3], 6),
    thumb(&[], -5),
    thumb(&[2], -4),
    thumb(&[1], -3),
    thumb(&[1, 2], -2),
    thumb(&[3], -2),
    thumb(&[2, 3], -1),
    thumb(&[1, 3], 0),
    thumb(&[1, 2, 3], 1),
];
