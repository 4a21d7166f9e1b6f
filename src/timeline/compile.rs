//! Compiles a score into a timeline.

use super::frames::{nearest, nearest_big};
use super::hertz::Hertz;
use super::model::{Click, Content, Cue, Held, LineSound, RestSound, Sign, Swell, Timeline, Unit};
use super::tones;
use crate::music::{Seconds, Whole};
use crate::routine::{ClickMode, Guide, Line};
use crate::score::{Played, Score, ScoreLine, unroll};
use crate::words::{Language, say};
use num_traits::Zero;

/// What a timeline depends on besides the score.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Settings {
    /// Frames a second.
    pub sample_rate: u32,
    /// Whether long rests carry their signs.
    pub signs: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            sample_rate: 44_100,
            signs: true,
        }
    }
}

/// Rests longer than this carry signs, in seconds.
const SIGNED_REST_SECONDS: u64 = 8;
/// How long before the next sounding note *horn up* comes, in seconds.
const HORN_UP_SECONDS: u64 = 6;
/// Shortest time from *horn down* to *horn up*, in seconds.
const SIGNS_APART_SECONDS: u64 = 2;

/// The longest that a sign sounds.
pub fn sign_seconds() -> Seconds {
    Seconds::new(3, 5)
}

/// Resolves a score to frames.
pub fn compile(score: &Score<'_>, settings: &Settings) -> Timeline {
    let rate = settings.sample_rate;
    let mut timeline = Timeline {
        sample_rate: rate,
        frames: 0,
        units: Vec::new(),
        cues: Vec::new(),
    };
    let mut rest_signs = false;
    for line in &score.lines {
        let first_frame = nearest_big(&line.start, rate);
        rest(
            &mut timeline,
            first_frame,
            line,
            settings.signs && rest_signs,
        );
        let written = &score.routine.lines[line.index];
        let frames = nearest(line.total_seconds() + unroll::fade(), rate);
        timeline.units.push(Unit {
            first_frame,
            frames,
            content: Content::Line(line_sound(score, line, written, frames, rate)),
        });
        timeline.cues.push(Cue {
            frame: first_frame,
            frames: nearest(line.total_seconds(), rate),
            label: label(score.routine.words_in, line, written),
        });
        timeline.frames = first_frame + frames;
        rest_signs = line
            .rest
            .is_some_and(|r| r.seconds > Seconds::from_integer(i128::from(SIGNED_REST_SECONDS)));
    }
    timeline
}

/// Number and name, and the tempo of a line that is played at several.
fn label(language: Language, line: &ScoreLine, written: &Line) -> String {
    let label = format!("{} {}", line.index + 1, written.name);
    if written.tempos.len() > 1 {
        say::chapter_at(language, label, line.tempo)
    } else {
        label
    }
}

/// The silence from the end of the timeline so far to `next_frame`, where `next` starts. A sign waits until the
/// drone of the line before has faded, so that no unit changes the frames of another.
fn rest(timeline: &mut Timeline, next_frame: u64, next: &ScoreLine, with_signs: bool) {
    let rate = timeline.sample_rate;
    let (first_frame, frames) = (timeline.frames, next_frame - timeline.frames);
    let mut sound = RestSound::default();
    if with_signs && let Some(up) = horn_up(next, frames, rate) {
        sound.signs = vec![(0, Sign::HornDown), (up, Sign::HornUp)];
    }
    timeline.units.push(Unit {
        first_frame,
        frames,
        content: Content::Rest(sound),
    });
}

/// The frame of *horn up* in a rest of `frames`; `None` if it would not end before the count-in or would come too
/// soon after *horn down*.
fn horn_up(next: &ScoreLine, frames: u64, rate: u32) -> Option<u64> {
    let first_note = next.passes.first()?.notes.first()?;
    let sounding = next.seconds(next.count_in + first_note.start);
    let up = (frames + nearest(sounding, rate)).checked_sub(HORN_UP_SECONDS * u64::from(rate))?;
    let over = up + nearest(sign_seconds(), rate);
    (up >= SIGNS_APART_SECONDS * u64::from(rate) && over <= frames).then_some(up)
}

fn line_sound(
    score: &Score<'_>,
    line: &ScoreLine,
    written: &Line,
    frames: u64,
    rate: u32,
) -> LineSound {
    let at = |moment: Whole| nearest(line.seconds(line.count_in + moment), rate);
    let mut sound = LineSound {
        clicks: clicks(line, written.click, rate),
        ..LineSound::default()
    };
    for pass in &line.passes {
        let from = if pass.start.is_zero() {
            0
        } else {
            // It moved when the pass before had ended.
            sound
                .drone
                .last()
                .map_or_else(|| at(pass.start), |held| held.end)
        };
        let tuned = Hertz::of(score, pass);
        let hz = tuned.drone(&pass.drone);
        let end = at(pass.end());
        match sound.drone.last_mut() {
            Some(held) if held.hz == hz => held.end = end,
            _ if hz.is_empty() => {}
            _ => sound.drone.push(Held {
                frame: from,
                end,
                hz,
                fade: 0,
            }),
        }
    }
    if let Some(last) = sound.drone.last_mut() {
        last.fade = frames - at(line.length);
        last.end = frames;
    }
    if line.guide != Guide::Off {
        let content = tones::content(written);
        for (number, pass) in line.passes.iter().enumerate() {
            let context = tones::Context {
                score,
                line,
                written,
                pass,
                content,
                number,
                rate,
            };
            sound.tones.extend(tones::of_pass(&context));
            sound.swells.extend(swells(&context));
        }
        tones::part(&mut sound.tones);
    }
    sound
}

fn clicks(line: &ScoreLine, mode: ClickMode, rate: u32) -> Vec<Click> {
    let click = line.meter.click();
    let a_bar = i64::from(line.meter.clicks_per_bar());
    let total = ((line.count_in + line.length) / click).to_integer();
    // From the start of the count-in: the last count-in's worth of each rest between passes.
    let mut lead_ins = vec![(Whole::zero(), line.count_in)];
    lead_ins.extend(
        line.passes
            .iter()
            .filter(|p| !p.between.is_zero())
            .map(|pass| {
                let next = line.count_in + pass.end() + pass.between;
                (next - pass.between.min(line.count_in), next)
            }),
    );
    let mut lead_ins = lead_ins.into_iter().peekable();
    let mut found = Vec::new();
    for n in 0..total {
        let moment = click * Whole::from_integer(n);
        if mode == ClickMode::CountIn {
            while lead_ins.peek().is_some_and(|(_, end)| *end <= moment) {
                lead_ins.next();
            }
            if lead_ins.peek().is_none_or(|(start, _)| *start > moment) {
                continue;
            }
        }
        found.push(Click {
            frame: nearest(line.seconds(moment), rate),
            accented: n % a_bar == 0,
        });
    }
    found
}

fn swells(context: &tones::Context<'_, '_>) -> Vec<Swell> {
    let swell = |note: &crate::score::ScoreNote| {
        let inward = match note.played {
            Played::In => true,
            Played::Out => false,
            Played::Pitch { .. } => return None,
        };
        Some(Swell {
            frame: context.frame(note.start),
            end: context.frame(note.start + note.length),
            inward,
            seed: context.seed(note.event),
        })
    };
    context.pass.notes.iter().filter_map(swell).collect()
}
