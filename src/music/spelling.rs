//! Which name a pitch gets: the one home of spelling, for sheet, page, chart, files and messages.
//!
//! The names of notes form a line of fifths: … B♭ F C G D A E B F♯ C♯ …, with C at 0, sharps upwards. Twelve steps
//! of it are the same key of a keyboard with another name. Notes of one key lie close together on it, and that is how
//! names are chosen: David Temperley, "The Line of Fifths", Music Analysis 19 (2000), pages 289–319, and The Cognition
//! of Basic Musical Structures (2001), chapter 5: of two names the one is preferred that lies closer to those of the
//! other notes. A neighbour or passing note is a step and not the letter beside it altered: the second stage of the ps13
//! algorithm of David Meredith, Journal of New Music Research 35 (2006), pages 121–159. (Volumes and pages from memory.)
//!
//! A line that is moved keeps the intervals that its teacher wrote: the whole of it moves along the line of fifths, to
//! the key with fewer sharps or flats; without a key, to where it has fewer accidentals, and of equally many to the key
//! of its key note with fewer. Only in chromatic runs the simplest name is taken. A note of which nothing else is known
//! gets its name from the trumpet's fingering chart.

use super::key::{Key, Mode};
use super::name::Name;
use super::pitch::{SoundingPitch, WrittenPitch};
use std::fmt;

/// The lowest name of the trumpet's fingering chart on the line of fifths: A♭. The other eleven follow, up to C♯.
const CHART: i32 = -4;

/// The name that a number has among the twelve from `lowest` on.
fn among(lowest: i32, number: i32) -> Name {
    Name::on_line_of_fifths(lowest + (7 * number - lowest).rem_euclid(12))
}

impl WrittenPitch {
    /// The pitch of a number where nothing is known of its key, spelt as in the trumpet's fingering chart:
    /// C C# D Eb E F F# G Ab A Bb B.
    pub fn from_number(number: i32) -> Self {
        among(CHART, number).pitch(number)
    }

    /// The pitch of a number in a key: of its scale, or raised or lowered as is usual in it. In C major that is the
    /// fingering chart, in A minor the same with G# for Ab.
    pub fn in_key(number: i32, key: Key) -> Self {
        let lowest = match key.mode() {
            Mode::Major => CHART,
            Mode::Minor => CHART + 1,
        };
        among(key.fifths() + lowest, number).pitch(number)
    }

    /// This pitch moved by `half_steps`, alone. A pitch that moves is spelt as in the fingering chart; notes of a
    /// line move together, with a [`Spelling`].
    pub fn moved(self, half_steps: i32) -> Self {
        if half_steps == 0 {
            self
        } else {
            Self::from_number(self.number() + half_steps)
        }
    }

    /// The note of the same name so many octaves higher.
    pub fn by_octaves(self, octaves: i32) -> Self {
        self.name().pitch(self.number() + 12 * octaves)
    }

    /// The note a half step below, as a step: G# below A, not Ab.
    pub fn half_step_below(self) -> Self {
        self.step(5, -1)
    }

    /// The note a half step above, as a step: Bb above A, not A#.
    pub fn half_step_above(self) -> Self {
        self.step(-5, 1)
    }

    fn step(self, fifths: i32, half_steps: i32) -> Self {
        let fifths = self.name().fifths() + fifths;
        if SIMPLE.contains(&fifths) {
            Name::on_line_of_fifths(fifths).pitch(self.number() + half_steps)
        } else {
            self.moved(half_steps)
        }
    }

    /// The same pitch with at most one accidental.
    pub fn plain(self) -> Self {
        match self.alter() {
            -1..=1 => self,
            alter => {
                let by = if alter > 0 { -12 } else { 12 };
                Name::on_line_of_fifths(self.name().fifths() + by).pitch(self.number())
            }
        }
    }
}

impl fmt::Display for SoundingPitch {
    /// Its name in concert pitch, spelt as in the fingering chart.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        WrittenPitch::from_number(self.number()).fmt(f)
    }
}

/// How the notes of a line are spelt when it is moved.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spelling {
    half_steps: i32,
    /// By how much every name moves on the line of fifths.
    fifths: i32,
    key: Option<Key>,
}

/// The other name of a note: with flats for sharps, or the other way round.
fn other(fifths: i32) -> i32 {
    // D lies in the middle: its other names have two accidentals either way.
    if fifths > 2 { fifths - 12 } else { fifths + 12 }
}

impl Spelling {
    /// Spells a line that is moved by `half_steps`. `melody` are its notes in order as they are written, `key` its
    /// key if that is known, `tonic` its key note if not.
    pub fn of(
        melody: &[WrittenPitch],
        key: Option<Key>,
        tonic: Option<WrittenPitch>,
        half_steps: i32,
    ) -> Self {
        let up = (7 * half_steps).rem_euclid(12);
        let to = key.map(|key| key.moved(half_steps));
        let moved = |fifths: i32| Self {
            half_steps,
            fifths,
            key: to,
        };
        if up == 0 {
            return moved(0);
        }
        if let Some((from, to)) = key.zip(to) {
            return moved(to.fifths() - from.fifths());
        }
        let signature = presumed(melody, tonic);
        let fewest = [moved(up), moved(up - 12)]
            .into_iter()
            .min_by_key(|spelling| {
                let by = spelling.fifths;
                (spelling.cost(melody), (signature + by).abs(), by.abs(), -by)
            });
        fewest.expect("there are two")
    }

    /// The key that is moved to.
    pub fn key(self) -> Option<Key> {
        self.key
    }

    /// A pitch of the line after the move, by itself.
    pub fn pitch(self, written: WrittenPitch) -> WrittenPitch {
        let number = written.number() + self.half_steps;
        Name::on_line_of_fifths(self.place(written)).pitch(number)
    }

    /// All notes of the line after the move. Those of a line that is not moved stay as they were written.
    pub fn line(self, melody: &[WrittenPitch]) -> Vec<WrittenPitch> {
        let named = |at: usize| {
            let moved = self.place(melody[at]);
            let simpler =
                !self.in_scale(moved) && !SIMPLE.contains(&moved) && SIMPLE.contains(&other(moved));
            let fifths = if simpler && is_in_run(melody, at) {
                other(moved)
            } else {
                moved
            };
            Name::on_line_of_fifths(fifths).pitch(melody[at].number() + self.half_steps)
        };
        if self.stays() {
            return melody.iter().map(|note| self.pitch(*note)).collect();
        }
        let mut line: Vec<WrittenPitch> = (0..melody.len()).map(named).collect();
        for at in 1..line.len().saturating_sub(1) {
            let this = line[at];
            let renamed = Name::on_line_of_fifths(other(this.name().fifths()));
            let as_step = renamed.pitch(this.number());
            if is_altered(line[at - 1], this, line[at + 1])
                && !is_altered(line[at - 1], as_step, line[at + 1])
                && renamed.alter().abs() <= 1
            {
                line[at] = as_step;
            }
        }
        line
    }

    /// True if the names stay as they are.
    fn stays(self) -> bool {
        self.half_steps.rem_euclid(12) == 0
    }

    fn place(self, written: WrittenPitch) -> i32 {
        let moved = written.name().fifths() + self.fifths;
        let in_scale = !self.stays() && !self.in_scale(moved) && self.in_scale(other(moved));
        if in_scale { other(moved) } else { moved }
    }

    fn in_scale(self, fifths: i32) -> bool {
        let name = Name::on_line_of_fifths(fifths);
        self.key.is_some_and(|key| key.contains(name))
    }

    /// How many accidentals a line without a key gets; double ones and steps that are letters altered weigh more.
    fn cost(self, melody: &[WrittenPitch]) -> usize {
        let line = self.line(melody);
        let accidentals = line.iter().map(|note| match note.alter().unsigned_abs() {
            alter @ 0..=1 => usize::from(alter),
            _ => 4,
        });
        let altered = line.windows(3).filter(|w| is_altered(w[0], w[1], w[2]));
        accidentals.sum::<usize>() + 4 * altered.count()
    }
}

/// The names from G♭ to A♯, without B♯, E♯, C♭, F♭ and double accidentals.
const SIMPLE: std::ops::RangeInclusive<i32> = -6..=10;

/// True if the note beside it has the same letter and another accidental, as in C–C♯–D.
fn is_in_run(melody: &[WrittenPitch], at: usize) -> bool {
    let this = melody[at];
    let before = at.checked_sub(1).map(|before| melody[before]);
    let mut near = before.into_iter().chain(melody.get(at + 1).copied());
    near.any(|near| near.letter() == this.letter() && near.alter() != this.alter())
}

/// True for a note that has the letter of one beside it where a step should be: B–B♭–B, and passing notes such as
/// A–A♯–C. These are the six figures of ps13.
fn is_altered(before: WrittenPitch, this: WrittenPitch, after: WrittenPitch) -> bool {
    let (to, from) = (
        this.number() - before.number(),
        after.number() - this.number(),
    );
    let steps = matches!((to, from), (1, -1 | 2) | (-1, 1 | -2) | (2, 1) | (-2, -1));
    steps && (this.letter() == before.letter() || this.letter() == after.letter())
}

/// The signature that a line seems to be in: that of its key note, minor if it has a minor third and no major one.
fn presumed(melody: &[WrittenPitch], tonic: Option<WrittenPitch>) -> i32 {
    let Some(tonic) = tonic.or(melody.first().copied()) else {
        return 0;
    };
    let tonic = tonic.name().fifths();
    let has = |fifths: i32| melody.iter().any(|note| note.name().fifths() == fifths);
    let minor = has(tonic - 3) && !has(tonic + 4);
    if minor { tonic - 3 } else { tonic }
}
