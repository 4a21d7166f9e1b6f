//! The words of a sheet: passes, rests, tempo, length.

use crate::brass::{Instrument, Tube};
use crate::music::NoteNames;
use crate::routine::{Articulation, Guide, Line, On, Walk};
use crate::score::{Pass, Played, Score, ScoreLine};
use crate::words::tempo::clicks_a_minute;
use crate::words::{Language, count, duration, key, list, say};
use num_traits::{ToPrimitive, Zero};

/// The words above the beginning of each written pass: of the passes before it that are not written, and its own.
pub fn labels(
    (language, names): (Language, NoteNames),
    instrument: &Instrument,
    line: &Line,
    score_line: &ScoreLine,
    chosen: &[usize],
) -> Vec<(String, String)> {
    let passes = &score_line.passes;
    let walks = walk(passes);
    let mut labels = vec![];
    for (number, index) in chosen.iter().enumerate() {
        let pass = &passes[*index];
        let mut parts = vec![];
        let mut between = String::new();
        let mut last = false;
        if number == 0 {
            if line.on == On::Mouthpiece {
                parts.push(say::mouthpiece_alone(language).to_owned());
            }
            if score_line.guide == Guide::Echo {
                parts.push(say::listen_first(language).to_owned());
            }
        } else {
            let left_out: Vec<&Pass> = walks
                .iter()
                .filter(|p| p.walk_index > passes[chosen[number - 1]].walk_index)
                .filter(|p| p.walk_index < pass.walk_index)
                .copied()
                .collect();
            if !left_out.is_empty() {
                between =
                    say::then_the_passes(language, listed(language, names, instrument, &left_out));
                last = number + 1 == chosen.len();
            }
        }
        parts.extend(place(language, instrument, pass, number == 0));
        if number == 0 {
            parts.extend(times(language, line));
            parts.extend(articulations(language, &line.articulations));
        }
        let own = parts.join(", ");
        let own = match last {
            true => say::the_last_pass(language, own),
            false => own,
        };
        labels.push((between, own));
    }
    labels
}

/// The first pass of each half step or tube.
fn walk(passes: &[Pass]) -> Vec<&Pass> {
    let mut walk: Vec<&Pass> = vec![];
    for pass in passes {
        if walk.last().is_none_or(|p| p.walk_index != pass.walk_index) {
            walk.push(pass);
        }
    }
    walk
}

/// How a pass is moved; `None` for a first pass as written.
fn place(language: Language, instrument: &Instrument, pass: &Pass, first: bool) -> Option<String> {
    match (pass.tube, pass.half_steps) {
        (Some(tube), _) => Some(instrument.on_tube(language, tube)),
        (None, 0) if first => None,
        (None, 0) => Some(say::as_at_first(language).to_owned()),
        (None, steps) => Some(key::moved(language, steps)),
    }
}

/// Passes that are not written out, with the notes that they begin on: "from F#4 (2), F4 (1) and E4 (1-2), down to the
/// third half step"; "on 2 from B3, on 1 from Bb3".
fn listed(
    language: Language,
    names: NoteNames,
    instrument: &Instrument,
    passes: &[&Pass],
) -> String {
    let starts: Vec<String> = passes.iter().filter_map(|p| start(names, p)).collect();
    let tubes: Option<Vec<Tube>> = passes.iter().map(|p| p.tube).collect();
    if let Some(tubes) = tubes {
        let on = tubes.iter().enumerate().map(|(index, tube)| {
            let with = instrument.with(language, *tube);
            match starts.get(index) {
                Some(start) => say::from_the_note(language, with, start),
                None => with,
            }
        });
        return list::and_in(language, &on.collect::<Vec<_>>());
    }
    let steps: Vec<i32> = passes.iter().map(|p| p.half_steps).collect();
    let moved = key::walked(language, &steps);
    if starts.is_empty() {
        moved
    } else {
        say::from_the_note(language, moved, list::and_in(language, &starts))
    }
}

/// The note that a pass begins on, with its fingering if its tube does not say it.
fn start(names: NoteNames, pass: &Pass) -> Option<String> {
    pass.notes.iter().find_map(|note| match note.played {
        Played::Pitch { written, tube, .. } => Some(match tube {
            Some(tube) if pass.tube != Some(tube) => format!("{} ({tube})", names.of(written)),
            _ => names.of(written),
        }),
        Played::In | Played::Out => None,
    })
}

fn times(language: Language, line: &Line) -> Option<String> {
    let places = match &line.walk {
        Walk::HalfSteps(all) => all.len(),
        Walk::Tubes(all) => all.len(),
    };
    let times = count::times(language, line.times);
    (line.times > 1).then(|| match places {
        0 | 1 => times,
        _ => say::times_each(language, times),
    })
}

fn articulations(language: Language, all: &[Articulation]) -> Option<String> {
    if all == [Articulation::AsWritten] {
        return None;
    }
    let names = all.iter().map(|a| a.in_words(language));
    names.reduce(|first, then| say::one_then_another(language, first, then))
}

/// The words below a line: rests inside it, from tempo to tempo and after it. `rungs` is the line at each of its
/// tempos.
pub fn rests(language: Language, rungs: &[ScoreLine]) -> Option<String> {
    let (last, others) = rungs.split_last()?;
    let mut said = between_passes(language, &rungs[0]);
    if !others.is_empty() {
        let rests: Vec<String> = others
            .iter()
            .filter_map(|rung| rung.rest)
            .map(|rest| duration::in_words(language, rest.seconds.to_f64().unwrap_or(0.0)))
            .collect();
        said.push(say::rest_between_tempos(
            language,
            list::and_in(language, &rests),
        ));
    }
    if let Some(rest) = last.rest {
        let length = duration::in_words(language, rest.seconds.to_f64().unwrap_or(0.0));
        said.push(say::then_rest(language, length));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

fn between_passes(language: Language, line: &ScoreLine) -> Vec<String> {
    let mut said = vec![];
    if line.passes.len() > 1 {
        let bar = line.meter.bar();
        let (last, others) = line.passes.split_last().expect("a line has passes");
        debug_assert!(last.between.is_zero(), "nothing comes after the last pass");
        let bars: Vec<i64> = others
            .iter()
            .map(|p| (p.between / bar).ceil().to_integer())
            .collect();
        let (least, most) = (
            bars.iter().min().copied().unwrap_or(0),
            bars.iter().max().copied().unwrap_or(0),
        );
        let once = others.len() == 1;
        said.push(match (least, most) {
            (_, 0) => say::no_rest_between(language).to_owned(),
            (a, b) if a == b && once => {
                say::after_the_first_time_rest(language, say::bars(language, a))
            }
            (a, b) if a == b => say::after_each_time_rest(language, say::bars(language, a)),
            (a, b) if once => say::after_the_first_time_rest_about(language, a, b),
            (a, b) => say::after_each_time_rest_about(language, a, b),
        });
    }
    said
}

/// The words below the title: instrument, tempo, length, and how much of it is playing.
pub fn facts(score: &Score<'_>) -> String {
    let routine = score.routine;
    let language = routine.words_in;
    let tempo = score.take.tempo.base(routine).unwrap_or(routine.tempo);
    let seconds = score.seconds.to_f64().unwrap_or(0.0);
    let played: f64 = score
        .lines
        .iter()
        .map(|l| l.played.to_f64().unwrap_or(0.0))
        .sum();
    format!(
        "{} · {} · {}",
        routine.instrument.name_in(language),
        clicks_a_minute(language, tempo),
        duration::and_playing(language, seconds, played),
    )
}
