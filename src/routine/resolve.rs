//! Phrase → melody: ties joined, slurs and marks resolved, bars counted.

use super::bar_fault;
use super::fault::{Fault, Span};
use super::melody::{Attack, Event, EventKind, LoudnessChange, Melody};
use super::model::On;
use super::notes::{Item, ItemKind, NoteItem, Phrase};
use crate::brass::{Instrument, partials};
use crate::music::{Dynamic, Meter, Whole};
use crate::words::{Words, tell};
use num_traits::Zero;

/// The context of a phrase, from the line around it.
#[derive(Clone, Copy, Debug)]
pub struct PhraseContext {
    /// What it is played on.
    pub instrument: &'static Instrument,
    /// The horn, its mouthpiece or air.
    pub on: On,
    /// Meter of the line.
    pub meter: Meter,
    /// True for notes written as on the open horn.
    pub on_tubes: bool,
    /// False if tokens were left out because they were not understood: then faults that depend on their
    /// neighbours (bars, ties, breaths, the size of slurs) are not reported, because there may be none.
    pub complete: bool,
}

/// Resolves a phrase to what it plays. `at` is the place of the notes as a whole.
pub fn resolve(
    phrase: &Phrase,
    setting: PhraseContext,
    at: Span,
    faults: &mut Vec<Fault>,
) -> Melody {
    let mut resolver = Resolver {
        setting,
        faults,
        melody: Melody::default(),
        now: Whole::zero(),
        scale: Whole::from_integer(1),
        slur: None,
        slurs: 0,
        slur_of_last: None,
        bars: Bars {
            count: 0,
            start: Whole::zero(),
            written: has_bar(&phrase.items),
        },
        hairpin: None,
        loudness: Dynamic::Mf,
        last_token: LastToken::Nothing,
    };
    resolver.melody.loudness.push(LoudnessChange {
        at: Whole::zero(),
        to: Dynamic::Mf,
        since: None,
    });
    resolver.items(&phrase.items);
    resolver.finish(at)
}

/// What lies below the lowest note of an instrument, as a hint.
fn pedals(instrument: &Instrument) -> Words {
    let low = instrument.lowest;
    match instrument.pedal_tones() {
        None => tell::no_pedals(low),
        Some((open, last)) if open == last => tell::one_pedal(low, open),
        Some((open, last)) => tell::pedals(low, open, last),
    }
}

fn has_bar(items: &[Item]) -> bool {
    items.iter().any(|i| match &i.kind {
        ItemKind::Bar => true,
        ItemKind::Slur(inside) | ItemKind::Triplet(inside) => has_bar(inside),
        _ => false,
    })
}

struct Resolver<'f> {
    setting: PhraseContext,
    faults: &'f mut Vec<Fault>,
    melody: Melody,
    now: Whole,
    scale: Whole,
    /// Number and place of the open slur.
    slur: Option<(u32, Span)>,
    slurs: u32,
    /// The slur that contains the last event, or a tie of it.
    slur_of_last: Option<u32>,
    bars: Bars,
    /// An open `cresc` (true) or `dim`: its place and the moment it starts.
    hairpin: Option<(bool, Span, Whole)>,
    loudness: Dynamic,
    last_token: LastToken,
}

struct Bars {
    /// Complete bars.
    count: u32,
    start: Whole,
    written: bool,
}

/// The kinds of event that a `breath`, `tie` or bend may follow.
#[derive(Clone, Copy, PartialEq, Eq)]
enum LastToken {
    Nothing,
    Note,
    Rest,
    Breath(Span),
}

impl Resolver<'_> {
    /// Reports a fault that depends on neighbouring tokens.
    fn tell(&mut self, fault: Fault) {
        if self.setting.complete {
            self.faults.push(fault);
        }
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            self.item(item);
        }
    }

    fn item(&mut self, item: &Item) {
        let span = item.span;
        match &item.kind {
            ItemKind::Note(note) => self.note(note, span),
            ItemKind::Rest(value) => self.rest(value.length(), span),
            ItemKind::Tie(value) => self.tie(value.length(), span),
            ItemKind::In(value) => self.air(EventKind::In, value.length(), span),
            ItemKind::Out(value) => self.air(EventKind::Out, value.length(), span),
            ItemKind::Hold(value) => self.air(EventKind::Hold, value.length(), span),
            ItemKind::Breath => self.breath(span),
            ItemKind::Bar => self.bar(span),
            ItemKind::Dynamic(dynamic) => self.dynamic(*dynamic, span),
            ItemKind::Cresc => self.lead(true, span),
            ItemKind::Dim => self.lead(false, span),
            ItemKind::Slur(inside) => self.slur(inside, span),
            ItemKind::Triplet(inside) => self.triplet(inside, span),
        }
    }

    /// Adds an event with length `written`, before triplets are applied.
    fn event(&mut self, written: Whole, span: Span, kind: EventKind) -> &mut Event {
        let length = written * self.scale;
        let start = self.now;
        self.now += length;
        self.slur_of_last = self.slur.map(|(number, _)| number);
        self.melody.events.push(Event {
            start,
            length,
            kind,
            slurred: false,
            attack: Attack::Tongue,
            style: None,
            breath_after: false,
            tube: None,
            bend: false,
            span,
        });
        self.melody.events.last_mut().expect("an event was pushed")
    }

    fn note(&mut self, note: &NoteItem, span: Span) {
        self.check_pitch(note, span);
        let slurred = self.follows_in_slur(note);
        if note.bend {
            let what = match self.last_token {
                LastToken::Note => None,
                LastToken::Breath(_) => Some("breath"),
                LastToken::Rest => Some("rest"),
                LastToken::Nothing => Some("nothing"),
            };
            if let Some(what) = what {
                self.tell(
                    Fault::new(span, tell::bend_follows(what)).hint(tell::bend_right_after()),
                );
            }
            if note.tube.is_some() {
                let what = match self.setting.instrument.has_slide() {
                    true => tell::bend_has_position(),
                    false => tell::bend_keeps_valves(),
                };
                self.faults
                    .push(Fault::new(span, what).hint(tell::leave_fingering_out()));
            }
        }
        let (style, attack) = (note.style, note.attack);
        let (tube, bend) = (note.tube, note.bend);
        let event = self.event(note.value.length(), span, EventKind::Note(note.pitch));
        event.slurred = slurred;
        event.style = style;
        event.attack = attack;
        event.tube = tube;
        event.bend = bend;
        self.last_token = LastToken::Note;
    }

    /// True if the open slur joins this note to the previous one.
    fn follows_in_slur(&self, note: &NoteItem) -> bool {
        let Some((number, _)) = self.slur else {
            return false;
        };
        let Some(before) = self.melody.events.last() else {
            return false;
        };
        self.slur_of_last == Some(number)
            && !before.breath_after
            && matches!(before.kind, EventKind::Note(p) if p.number() != note.pitch.number())
    }

    fn check_pitch(&mut self, note: &NoteItem, span: Span) {
        let PhraseContext {
            instrument,
            on_tubes,
            ..
        } = self.setting;
        let pitch = note.pitch;
        if !instrument.can_reach(pitch) {
            let (low, high) = (instrument.lowest, instrument.highest);
            let fault = if pitch.number() < low.number() {
                Fault::new(
                    span,
                    tell::below_instrument(pitch, instrument.named_in_words()),
                )
                .hint(pedals(instrument))
            } else {
                Fault::new(
                    span,
                    tell::above_instrument(pitch, instrument.named_in_words()),
                )
                .hint(tell::notes_dealt_with(low, high))
            };
            self.faults.push(fault);
        } else if on_tubes
            && !note.bend
            && partials::on_tube(instrument, instrument.open(), pitch).is_none()
        {
            let open: Vec<Words> = partials::usable(instrument, instrument.open())
                .map(|(_, p)| p.into())
                .collect();
            self.faults.push(
                Fault::new(span, tell::no_open_note(pitch, instrument.tube_word())).hint(
                    tell::open_is_written(Words::joined(&open, " "), instrument.tube_word()),
                ),
            );
        }
    }

    fn rest(&mut self, written: Whole, span: Span) {
        if let Some((_, at)) = self.slur {
            self.faults.push(
                Fault::new(span, tell::slur_over_rest())
                    .also(
                        Span::new(at.start, at.start + "slur(".len()),
                        tell::slur_starts(),
                    )
                    .hint(tell::close_slur_before_rest()),
            );
        }
        self.event(written, span, EventKind::Rest);
        self.last_token = LastToken::Rest;
    }

    fn tie(&mut self, written: Whole, span: Span) {
        let fault = match self.last_token {
            LastToken::Note => None,
            LastToken::Nothing => Some(Fault::new(span, tell::tie_without_note())),
            LastToken::Rest => {
                Some(Fault::new(span, tell::tie_after_rest()).hint(tell::longer_rest()))
            }
            LastToken::Breath(at) => Some(
                Fault::new(span, tell::breath_before_tie())
                    .also(at, tell::the_breath())
                    .hint(tell::tied_is_one()),
            ),
        };
        if let Some(fault) = fault {
            let fault = match fault.hint {
                Some(_) => fault,
                None => fault.hint(tell::tie_lengthens()),
            };
            self.tell(fault);
        }
        let length = written * self.scale;
        self.now += length;
        if self.last_token == LastToken::Note
            && let Some(event) = self.melody.events.last_mut()
        {
            event.length += length;
            if let Some((number, _)) = self.slur {
                self.slur_of_last = Some(number);
            }
        }
    }

    fn air(&mut self, kind: EventKind, written: Whole, span: Span) {
        self.event(written, span, kind);
        self.last_token = LastToken::Note;
    }

    fn breath(&mut self, span: Span) {
        if self.setting.on == On::Air {
            self.tell(Fault::new(span, tell::all_breath()).hint(tell::write_in_half()));
            return;
        }
        match self.last_token {
            LastToken::Note => {
                if let Some(event) = self.melody.events.last_mut() {
                    event.breath_after = true;
                }
                self.last_token = LastToken::Breath(span);
            }
            LastToken::Breath(at) => self.tell(
                Fault::new(span, tell::two_breaths())
                    .also(at, tell::the_first_breath())
                    .hint(tell::keep_one()),
            ),
            LastToken::Rest => {
                self.tell(Fault::new(span, tell::breath_after_rest()).hint(tell::breathe_in_rest()))
            }
            LastToken::Nothing => self
                .tell(Fault::new(span, tell::breath_before_first()).hint(tell::breathe_in_count())),
        }
    }

    fn bar(&mut self, span: Span) {
        let bar = self.setting.meter.bar();
        let held = self.now - self.bars.start;
        if self.now.is_zero() && self.bars.count == 0 {
            // A bar line before the first note closes nothing.
            return;
        }
        self.bars.count += 1;
        if held != bar {
            self.bar_fault(held, span);
        }
        self.bars.start = self.now;
    }

    fn bar_fault(&mut self, held: Whole, span: Span) {
        self.tell(bar_fault::of(
            self.bars.count,
            held,
            self.setting.meter,
            span,
        ));
    }

    fn dynamic(&mut self, to: Dynamic, span: Span) {
        let mut since = None;
        if let Some((louder, at, start)) = self.hairpin.take() {
            let word = if louder { "cresc" } else { "dim" };
            let right_way = if louder {
                to > self.loudness
            } else {
                to < self.loudness
            };
            if !right_way {
                let way = if louder { "louder" } else { "softer" };
                self.faults.push(
                    Fault::new(span, tell::leads_wrong(word, self.loudness, to))
                        .also(at, word)
                        .hint(tell::lead_to_louder(way)),
                );
            } else if start == self.now {
                self.faults.push(
                    Fault::new(at, tell::leads_over_nothing(word))
                        .also(span, tell::leads_here())
                        .hint(tell::notes_between(word, to)),
                );
            } else {
                since = Some(start);
            }
        }
        self.loudness = to;
        self.melody.loudness.push(LoudnessChange {
            at: self.now,
            to,
            since,
        });
    }

    fn lead(&mut self, louder: bool, span: Span) {
        if let Some((_, at, _)) = self.hairpin.replace((louder, span, self.now)) {
            self.nowhere(at);
        }
    }

    fn nowhere(&mut self, at: Span) {
        self.faults
            .push(Fault::new(at, tell::leads_nowhere()).hint(tell::dynamic_after()));
    }

    fn slur(&mut self, inside: &[Item], span: Span) {
        self.slurs += 1;
        self.slur = Some((self.slurs, span));
        let first = self.melody.events.len();
        let tied_on = matches!(inside.first().map(|i| &i.kind), Some(ItemKind::Tie(_)));
        self.items(inside);
        self.slur = None;
        let notes = self.melody.events.len() - first + usize::from(tied_on);
        if notes < 2 {
            self.tell(Fault::new(span, tell::slur_of_one()).hint(tell::leave_slur_out()));
        }
    }

    fn triplet(&mut self, inside: &[Item], span: Span) {
        let before = self.now;
        self.scale = Whole::new(2, 3);
        self.items(inside);
        self.scale = Whole::from_integer(1);
        // Three in the time of two of one value: the sounding length is a power of two, or a sum of
        // full triplets is a multiple of a sixteenth.
        let full = ((self.now - before) * Whole::from_integer(16)).is_integer();
        if self.now == before {
            self.tell(Fault::new(span, tell::empty_triplet()).hint(tell::leave_triplet_out()));
        } else if !full {
            self.faults
                .push(Fault::new(span, tell::triplet_not_full()).hint(tell::triplet_is()));
        }
    }

    fn finish(mut self, at: Span) -> Melody {
        if let Some((_, at, _)) = self.hairpin.take() {
            self.nowhere(at);
        }
        let (held, bar) = (self.now - self.bars.start, self.setting.meter.bar());
        if self.bars.written && held > bar {
            self.bars.count += 1;
            let end = self.melody.events.last().map_or(at, |e| e.span);
            self.bar_fault(held, end);
        }
        let sounding = self.melody.events.iter().find(|e| e.kind.sounds());
        if let (On::Rest, Some(event)) = (self.setting.on, sounding) {
            let fault = Fault::new(event.span, tell::rest_line_notes());
            self.tell(fault.hint(tell::write_rest_whole()));
        } else if self.setting.on != On::Rest && sounding.is_none() {
            let what = match self.setting.on {
                On::Air => "breath",
                _ => "note",
            };
            self.tell(Fault::new(at, tell::line_holds_none(what)).hint(tell::write_one()));
        }
        self.melody.length = self.now;
        self.melody
    }
}
