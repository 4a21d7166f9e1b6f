//! A group's track: the guides of all its players on one time line.

use super::model::{Content, LineSound, Timeline};

/// How much softer each of `players` guides is where they sound together, in dB.
///
/// Between the square root of their number, which would keep the loudness, and their number, which would keep the highest peak:
/// players of a unison seldom have their peaks in the same frame, but they can.
pub fn softer_db(players: usize) -> f64 {
    const PER_DECADE: f64 = 14.0;
    PER_DECADE * libm::log10(players.max(1) as f64)
}

/// The parts of a group do not have the same clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherClock {
    /// Index of a part whose clock differs from that of the first.
    pub part: usize,
}

/// The track of a group: the clicks, the drone and all guides of its parts, but for that of the part `without`. The other
/// guides are as loud as if it sounded.
///
/// # Errors
/// If the parts do not have the same clock. There must be at least one part.
pub fn together(parts: &[&Timeline], without: Option<usize>) -> Result<Timeline, OtherClock> {
    let Some((first, others)) = parts.split_first() else {
        return Err(OtherClock { part: 0 });
    };
    for (part, other) in (1..).zip(others) {
        if !same_clock(first, other) {
            return Err(OtherClock { part });
        }
    }
    let mut room = (*first).clone();
    for (index, unit) in room.units.iter_mut().enumerate() {
        let signs = parts
            .iter()
            .find_map(|part| match &part.units[index].content {
                Content::Rest(rest) if !rest.signs.is_empty() => Some(rest.clone()),
                _ => None,
            });
        match &mut unit.content {
            Content::Line(line) => *line = together_in_line(parts, index, without),
            // Whoever plays next is told when to lift the horn.
            Content::Rest(rest) => *rest = signs.unwrap_or_default(),
        }
    }
    Ok(room)
}

/// What sounds in the unit `index`, which is a line in all parts.
fn together_in_line(parts: &[&Timeline], index: usize, without: Option<usize>) -> LineSound {
    let lines = parts
        .iter()
        .filter_map(|part| match &part.units[index].content {
            Content::Line(line) => Some(line),
            Content::Rest(_) => None,
        });
    let lines: Vec<&LineSound> = lines.collect();
    // Breathing is done by all at once, and a drone is the same for all who play.
    let mut room = LineSound {
        softer_db: softer_db(parts.len()),
        ..LineSound::default()
    };
    for line in &lines {
        if room.clicks.is_empty() {
            room.clicks.clone_from(&line.clicks);
        }
        if room.drone.is_empty() {
            room.drone.clone_from(&line.drone);
        }
        if room.swells.is_empty() {
            room.swells.clone_from(&line.swells);
        }
    }
    let heard = lines.iter().enumerate();
    let heard = heard.filter(|(part, line)| Some(*part) != without && !line.tones.is_empty());
    let mut guides = heard.map(|(_, line)| line.tones.clone());
    room.tones = guides.next().unwrap_or_default();
    room.company = guides.collect();
    room
}

/// Whether the units of two timelines begin and end in the same frames and click in the same frames.
fn same_clock(a: &Timeline, b: &Timeline) -> bool {
    let same = |(a, b): (&super::Unit, &super::Unit)| {
        a.first_frame == b.first_frame
            && a.frames == b.frames
            && match (&a.content, &b.content) {
                (Content::Line(a), Content::Line(b)) => a.clicks == b.clicks,
                (Content::Rest(_), Content::Rest(_)) => true,
                _ => false,
            }
    };
    a.sample_rate == b.sample_rate
        && a.frames == b.frames
        && a.units.len() == b.units.len()
        && a.units.iter().zip(&b.units).all(same)
}
