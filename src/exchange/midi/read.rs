//! Standard MIDI File → piece.

use super::quantize::{self, Rounded, Struck};
use super::{DRONE, GUIDE, SIGNATURE};
use crate::exchange::piece::{
    ImportedPiece, KeySign, Loss, MOST_SIGNS, MarkKind, Measure, MeasureMark, MeasureSymbol,
    MeterSign, Pitches, SymbolKind, on_grid, too_many_signs,
};
use crate::music::key::{Key, Mode};
use crate::music::{Whole, WrittenPitch};
use crate::problem::Problem;
use crate::routine::bounds::LONGEST_TEXT;
use midly::{EventIter, Format, MetaMessage, MidiMessage, Timing, TrackEventKind};
use num_rational::Ratio;
use num_traits::Zero;
use std::collections::BTreeMap;

/// Largest size of a file in bytes: 8 MiB.
pub const LARGEST: usize = 8 << 20;
/// The most bars.
const MOST_MEASURES: usize = 20_000;
/// The most notes of all players.
const MOST_NOTES: usize = 1_000_000;
/// The most characters of a text that are read: more than a routine may hold.
const LONGEST: usize = 2 * LONGEST_TEXT;
/// General MIDI's percussion channel, from 0.
const PERCUSSION: u8 = 9;

/// What a MIDI file cannot hold.
const LIMITS: &str = "a MIDI file knows keys and times alone: slurs, fingerings, breaths, dynamics and how sharps \
                      and flats are spelt are not in it";

/// True for the first bytes of a Standard MIDI File.
pub fn is_midi(bytes: &[u8]) -> bool {
    bytes.starts_with(b"MThd")
}

/// A player: one channel of one track.
struct Player {
    name: String,
    notes: Vec<Struck>,
}

/// Reads the player named by `wanted`, by number or by the name of the track. A file for one player needs no
/// name.
///
/// # Errors
/// If the bytes are not a Standard MIDI File, or there are several players and none is named.
pub fn read(bytes: &[u8], wanted: Option<&str>) -> Result<ImportedPiece, Problem> {
    if bytes.len() > LARGEST {
        return Err(Problem::error(format!(
            "it is larger than {} MiB, which no warm-up needs",
            LARGEST >> 20
        )));
    }
    // The events are read one by one: as a list they would take twenty times as much memory as the file.
    let (header, tracks) = midly::parse(bytes).map_err(damaged)?;
    let ticks = match header.timing {
        Timing::Metrical(ticks) if ticks.as_int() > 0 => u64::from(ticks.as_int()),
        _ => {
            return Err(Problem::error("its times are seconds of film, not beats")
                .hint("export it with ticks a quarter note"));
        }
    };
    if header.format == Format::Sequential {
        return Err(Problem::error("it holds several pieces (format 2)").hint("export each alone"));
    }
    let mut song = Song::default();
    for track in tracks {
        song.track(track.map_err(damaged)?)?;
    }
    let player = song.choose(wanted)?;
    let mut piece = ImportedPiece {
        title: song.title.clone(),
        pitches: Pitches::Concert,
        limits: Some(LIMITS),
        rests_by_clock: true,
        unspelt: song.keys.is_empty(),
        ..ImportedPiece::default()
    };
    if player.notes.len() > MOST_SIGNS {
        return Err(too_many_signs());
    }
    let (notes, at_once) = quantize::tune(player.notes.clone(), ticks);
    if at_once {
        piece.losses.push(Loss {
            measure: None,
            what: "of notes at once only the highest is kept".into(),
        });
    }
    measures(&song, &notes, ticks, &mut piece)?;
    Ok(piece)
}

/// The content of all tracks.
#[derive(Default)]
struct Song {
    title: Option<String>,
    ours: bool,
    players: Vec<Player>,
    /// Notes of all players.
    notes: usize,
    /// Microseconds per quarter from a tick on.
    tempos: BTreeMap<u64, u32>,
    /// Numerator, and the denominator as a power of two.
    meters: BTreeMap<u64, (u8, u8)>,
    keys: BTreeMap<u64, Key>,
    markers: BTreeMap<u64, String>,
}

impl Song {
    fn track(&mut self, track: EventIter<'_>) -> Result<(), Problem> {
        let mut now = 0u64;
        let mut name = String::new();
        /// For each channel, the keys that are down and when they were pressed.
        type Down = BTreeMap<u8, Vec<(u8, u64)>>;
        let mut down = Down::new();
        let mut notes: BTreeMap<u8, Vec<Struck>> = BTreeMap::new();
        for event in track {
            let event = event.map_err(damaged)?;
            now = now.saturating_add(u64::from(event.delta.as_int()));
            match event.kind {
                TrackEventKind::Midi { channel, message } => {
                    let channel = channel.as_int();
                    let (key, on) = match message {
                        MidiMessage::NoteOn { key, vel } => (key.as_int(), vel.as_int() > 0),
                        MidiMessage::NoteOff { key, .. } => (key.as_int(), false),
                        _ => continue,
                    };
                    let keys = down.entry(channel).or_default();
                    if let Some(place) = keys.iter().position(|(k, _)| *k == key) {
                        let (_, from) = keys.remove(place);
                        let of_channel = notes.entry(channel).or_default();
                        if now > from {
                            of_channel.push(Struck { from, to: now, key });
                            self.notes += 1;
                        }
                    }
                    if on {
                        keys.push((key, now));
                    }
                }
                TrackEventKind::Meta(message) => self.meta(message, now, &mut name),
                TrackEventKind::SysEx(_) | TrackEventKind::Escape(_) => {}
            }
            self.bounded()?;
        }
        for (channel, notes) in notes {
            if channel != PERCUSSION && !notes.is_empty() {
                let name = match name.as_str() {
                    "" => format!("channel {}", channel + 1),
                    name => name.to_owned(),
                };
                self.players.push(Player { name, notes });
            }
        }
        Ok(())
    }

    /// Refuses more notes and marks than the music of any number of players has.
    fn bounded(&self) -> Result<(), Problem> {
        let marks = self.tempos.len() + self.meters.len() + self.keys.len() + self.markers.len();
        if self.notes > MOST_NOTES || marks > MOST_SIGNS {
            return Err(
                Problem::error("it is far larger than any warm-up").hint("export one part of it")
            );
        }
        Ok(())
    }

    fn meta(&mut self, message: MetaMessage<'_>, now: u64, name: &mut String) {
        match message {
            MetaMessage::TrackName(text) => {
                let text = words(text);
                if self.title.is_none() && now == 0 && self.players.is_empty() {
                    self.title = Some(text.clone()).filter(|t| !t.is_empty());
                }
                *name = text;
            }
            MetaMessage::Text(text) => self.ours |= text == SIGNATURE.as_bytes(),
            MetaMessage::Marker(text) => {
                self.markers.insert(now, words(text));
            }
            MetaMessage::Tempo(micros) if micros.as_int() > 0 => {
                self.tempos.insert(now, micros.as_int());
            }
            MetaMessage::TimeSignature(beats, power, _, _) if beats > 0 && power < 8 => {
                self.meters.insert(now, (beats, power));
            }
            MetaMessage::KeySignature(sharps, minor) => {
                let mode = if minor { Mode::Minor } else { Mode::Major };
                let key = Key::new(i32::from(sharps), mode);
                self.keys.extend(key.map(|key| (now, key)));
            }
            _ => {}
        }
    }

    fn choose(&self, wanted: Option<&str>) -> Result<&Player, Problem> {
        let players = &self.players;
        let list = || {
            let names = players.iter().enumerate().take(40);
            let names: Vec<String> = names
                .map(|(index, player)| format!("{} {}", index + 1, player.name))
                .collect();
            names.join("; ")
        };
        if let Some(wanted) = wanted {
            let number = wanted.trim().parse::<usize>().ok();
            let by_number = number.and_then(|n| players.get(n.checked_sub(1)?));
            let lower = wanted.trim().to_lowercase();
            let by_name = || players.iter().find(|p| p.name.to_lowercase() == lower);
            return by_number.or_else(by_name).ok_or_else(|| {
                Problem::error(format!("there is no part “{wanted}” in it"))
                    .hint(format!("there is {}", list()))
            });
        }
        // In leadpipe's own files the guide is the track that is played.
        let own = |p: &&Player| self.ours && p.name == GUIDE;
        match (players.iter().find(own), players.as_slice()) {
            (Some(guide), _) => Ok(guide),
            (None, []) => Err(Problem::error("there is no note in it")),
            (None, [one]) => Ok(one),
            (None, _) => {
                let plain = |p: &&Player| !(self.ours && p.name == DRONE);
                let mut others = players.iter().filter(plain);
                match (others.next(), others.next()) {
                    (Some(one), None) => Ok(one),
                    _ => Err(Problem::error(format!(
                        "it is music for more than one, and a routine is for one player: {}",
                        list()
                    ))
                    .hint("choose with --part, by number or name: --part 1")),
                }
            }
        }
    }
}

fn damaged(_: midly::Error) -> Problem {
    Problem::error("it is cut short, damaged or no Standard MIDI File")
        .hint("export it once more, as a MIDI file (.mid)")
}

/// Text of an event, whatever its encoding.
fn words(text: &[u8]) -> String {
    let text: String = match std::str::from_utf8(text) {
        Ok(text) => text.chars().take(LONGEST).collect(),
        Err(_) => text.iter().take(LONGEST).map(|b| char::from(*b)).collect(),
    };
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || c.is_control())
        .filter(|w| !w.is_empty())
        .collect();
    words.join(" ")
}

/// Divides a tune into measures.
fn measures(
    song: &Song,
    notes: &[Rounded],
    ticks: u64,
    piece: &mut ImportedPiece,
) -> Result<(), Problem> {
    let whole = |tick: u64| on_grid(i128::from(tick), i128::from(ticks) * 4);
    let far = || Problem::error("its notes are further apart than any warm-up is long");
    let end = notes.last().map_or(Whole::zero(), |n| n.to);
    let mut meters = vec![(Whole::zero(), (4u8, 2u8))];
    for (tick, meter) in &song.meters {
        meters.push((whole(*tick).ok_or_else(far)?, *meter));
    }
    let keys: Option<Vec<(Whole, Key)>> = song
        .keys
        .iter()
        .map(|(tick, key)| Some((whole(*tick)?, *key)))
        .collect();
    let keys = keys.ok_or_else(far)?;
    let mut now = Whole::zero();
    let mut meter = None;
    let mut signature = None;
    while now < end {
        if piece.measures.len() >= MOST_MEASURES {
            return Err(far());
        }
        let after = meters.partition_point(|(at, _)| *at <= now);
        let current = after.checked_sub(1).map(|place| meters[place].1);
        let (beats, power) = current.unwrap_or((4, 2));
        let bar = Whole::new(i64::from(beats), 1 << power);
        let next = meters.get(after).map(|(at, _)| *at);
        // A meter change inside a bar ends the bar.
        let length = next.map_or(bar, |next| bar.min(next - now));
        let mut measure = Measure {
            label: (piece.measures.len() + 1).to_string(),
            length,
            ..Measure::default()
        };
        if meter != Some((beats, power)) {
            meter = Some((beats, power));
            measure.meter = Some(MeterSign::Of(u32::from(beats), 1 << power));
        }
        // A key that is named inside a bar counts from the next one.
        let named = keys.partition_point(|(at, _)| *at <= now);
        let key = named.checked_sub(1).map(|place| keys[place].1);
        if signature != key {
            signature = key;
            measure.key = key.map(KeySign::In);
        }
        fill(&mut measure, now, key, notes);
        piece.measures.push(measure);
        now += length;
    }
    marks(song, end, whole, piece);
    Ok(())
}

/// Puts tempos and markers into the measures.
fn marks(song: &Song, end: Whole, whole: impl Fn(u64) -> Option<Whole>, piece: &mut ImportedPiece) {
    let mut starts = vec![];
    let mut at = Whole::zero();
    for measure in &piece.measures {
        starts.push(at);
        at += measure.length;
    }
    let put = |tick: u64, kind: MarkKind, measures: &mut Vec<Measure>| {
        let Some(at) = whole(tick) else { return };
        let index = starts.partition_point(|start| *start <= at);
        if let Some(index) = index.checked_sub(1)
            && at < end
        {
            let at = at - starts[index];
            measures[index].marks.push(MeasureMark { at, kind });
        }
    };
    for (tick, micros) in &song.tempos {
        let quarters = Ratio::new(60_000_000, i128::from(*micros));
        put(*tick, MarkKind::Tempo(quarters), &mut piece.measures);
    }
    for (tick, name) in &song.markers {
        if !name.is_empty() {
            put(*tick, MarkKind::Name(name.clone()), &mut piece.measures);
        }
    }
    for measure in &mut piece.measures {
        measure.marks.sort_by_key(|m| m.at);
    }
}

/// Adds the notes of a measure that begins at `start`, with rests between them.
fn fill(measure: &mut Measure, start: Whole, key: Option<Key>, notes: &[Rounded]) {
    let end = start + measure.length;
    let first = notes.partition_point(|n| n.to <= start);
    let mut now = start;
    for note in notes[first..].iter().take_while(|n| n.from < end) {
        let (from, to) = (note.from.max(now), note.to.min(end));
        if to <= from {
            continue;
        }
        if from > now {
            let rest = MeasureSymbol::plain(now - start, from - now, SymbolKind::Rest);
            measure.symbols.push(rest);
        }
        let number = i32::from(note.key);
        let pitch = match key {
            Some(key) => WrittenPitch::in_key(number, key).plain(),
            None => WrittenPitch::from_number(number),
        };
        let mut symbol = MeasureSymbol::plain(from - start, to - from, SymbolKind::Note(pitch));
        symbol.tied_from = note.from < start;
        symbol.tied_on = note.to > end;
        measure.symbols.push(symbol);
        now = to;
    }
    if now < end {
        let rest = MeasureSymbol::plain(now - start, end - now, SymbolKind::Rest);
        measure.symbols.push(rest);
    }
}
