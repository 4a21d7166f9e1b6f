//! Turns tunes into lines.

use super::language;
use super::lengths;
use super::losses::Losses;
use super::loudness::{self, LoudnessStep, Word};
use super::maker::Maker;
use super::patterns::{self, Pattern, PatternUnit, PatternWalk};
use super::rests::{self, After, LinePasses, Owed};
use super::sections::Section;
use super::timing::Timed;
use super::toml;
use super::tune::Tune;
use crate::exchange::piece::words;
use crate::music::{Dynamic, Meter, Whole};
use crate::routine::Articulation;

impl Maker<'_> {
    /// The lines of the routine, in order.
    pub(super) fn lines(
        &self,
        tunes: Vec<Tune>,
        timings: &[Timed],
        names: &[String],
        head: &toml::Head,
        losses: &mut Losses,
        said: &mut Vec<String>,
    ) -> Vec<toml::TomlLine> {
        let mut level = Dynamic::Mf;
        let mut owed = Owed::default();
        let mut unwritten = false;
        let mut lines = vec![];
        let silences: Vec<f64> = (0..tunes.len()).map(|i| self.silence(&tunes, i)).collect();
        for (index, tune) in tunes.into_iter().enumerate() {
            let timed = &timings[index];
            let before = level;
            let (steps, after) = loudness::resolve(&tune.changes, &tune.events, before, losses);
            level = after;
            let next = self.sections.get(index + 1);
            let rest = match &tune.rest {
                _ if next.is_none() => After::Nothing,
                _ if tune.goes_on => After::GoesOn,
                Some(words) => After::Words(words),
                None if silences[index] > 0.0 => After::Lasts(silences[index]),
                None if next.is_some_and(|n| n.goes_on) => After::GoesOn,
                None => After::Unwritten,
            };
            unwritten |= matches!(rest, After::Unwritten);
            let made = self.line(&tune, &steps, before, timed, losses);
            let bar_seconds = rests::bar_seconds(timed.clicks, timed.meter);
            let passes = made.passes;
            let mut line = made.line;
            let rests = owed.line(&passes, &rest, bar_seconds);
            if let Some(what) = rests.shortened {
                let last = self.course[self.sections[index].places.clone()].last();
                losses.lose(last.map(|played| played.measure), what);
            }
            line.between = rests.between;
            line.rest = rests.after;
            line.name.clone_from(&names[index]);
            let tempo = timed.clicks.to_string();
            line.tempo = (tempo != head.tempo).then_some(tempo);
            line.meter = (timed.meter != head.meter).then_some(timed.meter);
            // Notes for the open horn are in the key of the open horn.
            line.key = line.key.filter(|key| Some(*key) != head.key);
            lines.push(line);
        }
        if unwritten {
            said.push(
                "where no rest is written after a line, one rests for as long as it was played; rest = \"none\" goes \
                 straight on"
                    .to_owned(),
            );
        }
        lines
    }

    /// Seconds of rest from the last note of a line to the first bar of the next.
    fn silence(&self, tunes: &[Tune], index: usize) -> f64 {
        let of = |section: &Section, first: bool, count: usize| -> f64 {
            let places = &self.course[section.places.clone()];
            let places = if first {
                &places[..count.min(places.len())]
            } else {
                &places[places.len() - count.min(places.len())..]
            };
            places.iter().map(|played| self.seconds(played)).sum()
        };
        let Some(next) = self.sections.get(index + 1) else {
            return 0.0;
        };
        of(&self.sections[index], false, tunes[index].rest_bars)
            + of(next, true, tunes[index + 1].lead_bars)
    }

    fn line(
        &self,
        tune: &Tune,
        steps: &[LoudnessStep],
        level: Dynamic,
        timed: &Timed,
        losses: &mut Losses,
    ) -> LineDraft {
        let instrument = self.choice.instrument;
        let has_notes = tune.events.iter().any(|e| e.pitch().is_some());
        let on = match (has_notes, tune.mouthpiece) {
            (false, _) => Some("air"),
            (true, true) => Some("mouthpiece"),
            (true, false) => None,
        };
        let found = patterns::find(tune, steps, level, instrument, on.is_none());
        let pattern = found.unwrap_or_else(|| whole(tune, steps, level, timed.meter));
        self.keys.changes_inside(tune, &pattern, instrument, losses);
        let moved = match &pattern.walk {
            PatternWalk::Tubes(tubes) => instrument.tube_half_steps(tubes[0]),
            _ => 0,
        };
        let writing = language::Writing {
            instrument,
            fingerings: on.is_none()
                && moved == 0
                && !matches!(pattern.walk, PatternWalk::Tubes(_)),
            moved,
        };
        let unit = &pattern.unit;
        let mut steps = unit.steps.clone();
        if has_notes {
            let word = Word::Dynamic(unit.level);
            let at = Whole::default();
            steps.insert(0, LoudnessStep { at, bar: 0, word });
        }
        let lines = lengths::bar_lines(tune).into_iter();
        let lines: Vec<_> = lines.take(pattern.bars.saturating_sub(1)).collect();
        let cuts: Vec<_> = steps.iter().map(|s| s.at).collect();
        let atoms = lengths::atoms(&unit.events, &cuts, &lines)
            .or_else(|| lengths::atoms(&unit.events, &[], &lines))
            .unwrap_or_default();
        let notes = language::notes(&unit.events, &atoms, &steps, &lines, writing, losses);
        let (purpose, say) = self.heading(tune);
        let comment = |(measure, words): &(usize, String)| {
            let label = &self.piece.measures[*measure].label;
            format!("Bar {label}: {words}")
        };
        LineDraft {
            passes: passes(&pattern),
            line: toml::TomlLine {
                name: String::new(),
                purpose,
                say,
                comments: tune.words.iter().map(comment).collect(),
                on,
                notes,
                open: matches!(pattern.walk, PatternWalk::Tubes(_)),
                walk: walk(&pattern.walk),
                times: pattern.times,
                articulation: articulation(&pattern.articulations),
                between: None,
                rest: None,
                tempo: None,
                meter: None,
                key: tune.key.filter(|_| has_notes).map(|key| key.moved(moved)),
                guide: tune.echo.then_some("echo"),
            },
        }
    }

    /// The purpose of a line, and how to play it.
    fn heading(&self, tune: &Tune) -> (Option<String>, Option<String>) {
        let mut purpose = None;
        let mut say: Vec<String> = vec![];
        for words in &tune.heading {
            match words.strip_prefix(words::FOR) {
                Some(text) if purpose.is_none() => purpose = Some(toml::plain(text)),
                _ => say.push(words.clone()),
            }
        }
        let say = toml::plain(&say.join(" "));
        (
            purpose.filter(|p| !p.is_empty()),
            Some(say).filter(|s| !s.is_empty()),
        )
    }
}

/// A line, and how many times it is played.
struct LineDraft {
    line: toml::TomlLine,
    passes: LinePasses,
}

/// A tune without a pattern: one that is played once.
fn whole(tune: &Tune, steps: &[LoudnessStep], level: Dynamic, meter: Meter) -> Pattern {
    let mut steps = steps.to_vec();
    let mut level = level;
    while let Some(LoudnessStep {
        word: Word::Dynamic(dynamic),
        at,
        ..
    }) = steps.first()
        && *at == Default::default()
    {
        level = *dynamic;
        steps.remove(0);
    }
    let length = tune
        .events
        .last()
        .map_or_else(Default::default, |e| e.end());
    let bars = if tune.regular {
        tune.bars.len()
    } else {
        let bars = (length / meter.bar()).ceil().to_integer();
        usize::try_from(bars).unwrap_or(1)
    };
    Pattern {
        unit: PatternUnit {
            events: tune.events.clone(),
            steps,
            level,
        },
        bars,
        between: 0,
        count: 1,
        times: 1,
        walk: PatternWalk::Stays,
        articulations: vec![],
    }
}

fn passes(pattern: &Pattern) -> LinePasses {
    LinePasses {
        count: pattern.count,
        bars: pattern.bars,
        between: pattern.between,
    }
}

fn walk(walk: &PatternWalk) -> Option<String> {
    match walk {
        PatternWalk::Stays => None,
        PatternWalk::HalfSteps(moves) => {
            let moves: Vec<String> = moves.iter().map(i32::to_string).collect();
            Some(format!("half_steps = [{}]", moves.join(", ")))
        }
        PatternWalk::Tubes(tubes) => {
            let tubes: Vec<String> = tubes.iter().map(|t| format!("\"{t}\"")).collect();
            Some(format!("tubes = [{}]", tubes.join(", ")))
        }
    }
}

fn articulation(all: &[Articulation]) -> Option<String> {
    let word = |of: &Articulation| {
        let mut words = Articulation::WORDS.iter();
        let found = words.find(|(_, articulation)| articulation == of);
        found.map(|(word, _)| format!("\"{word}\""))
    };
    let words: Vec<String> = all.iter().filter_map(word).collect();
    (!words.is_empty()).then(|| format!("[{}]", words.join(", ")))
}
