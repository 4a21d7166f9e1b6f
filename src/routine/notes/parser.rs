//! Tokens → phrase, with a fault for every token that is not understood.

use super::lexer::{Token, TokenKind, tokens};
use super::{Item, ItemKind, NoteItem, Phrase};
use crate::brass::{Instrument, Tube};
use crate::music::{Dynamic, NoteNames, NoteValue};
use crate::routine::broken_row::is_unseen;
use crate::routine::fault::{Fault, Span};
use crate::routine::melody::{Attack, Style};
use crate::routine::model::On;
use crate::routine::notes::{foreign, slips, unknown};
use crate::routine::source::PlacedText;
use crate::routine::suggest::nearest;
use crate::words::tell;

/// The entries of a line that affect how its notes are read.
#[derive(Clone, Copy, Debug)]
pub struct NoteContext {
    /// The names of notes.
    pub names: NoteNames,
    /// The value of tokens without one.
    pub each: Option<NoteValue>,
    /// What the line is played on.
    pub on: On,
    /// The instrument.
    pub instrument: &'static Instrument,
    /// True for `open`, where the tubes decide the fingerings.
    pub on_tubes: bool,
}

/// Reads the notes of a line, and what language their names are in. Tokens that are not understood are left out
/// of the phrase and reported in `faults`.
pub fn parse(
    placed: &PlacedText,
    context: NoteContext,
    faults: &mut Vec<Fault>,
) -> (Phrase, foreign::Names) {
    let mut parser = Parser {
        placed,
        context,
        faults,
        open: vec![Frame {
            kind: FrameKind::Line,
            at: placed.span(0..0),
            items: Vec::new(),
        }],
        many: slips::Many::default(),
        names: foreign::Names::default(),
        carried: None,
        bare: None,
    };
    for token in tokens(&placed.text) {
        parser.take(&token);
    }
    parser.finish()
}

struct Parser<'p> {
    placed: &'p PlacedText,
    context: NoteContext,
    faults: &'p mut Vec<Fault>,
    /// The line itself, then every open group. The stack is explicit, so that deep nesting cannot overflow the
    /// call stack.
    open: Vec<Frame>,
    /// Mistakes that people make at every note, reported once for each line.
    many: slips::Many,
    names: foreign::Names,
    /// The length of the note or rest before, which one without a length takes over.
    carried: Option<NoteValue>,
    /// The token before, if it has no length of its own.
    bare: Option<Bare>,
}

/// A token without a length of its own, which may stand apart from it: `C4 half`, `C4: half`.
struct Bare {
    head: String,
    span: Span,
    lack: Option<Lack>,
}

/// What is wrong if no length follows.
enum Lack {
    /// No length, and none to take over.
    Length,
    /// Nothing after its colon.
    AfterColon(Fault),
}

struct Frame {
    kind: FrameKind,
    at: Span,
    items: Vec<Item>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum FrameKind {
    Line,
    Slur,
    Triplet,
    /// Opened by an unknown word; its tokens go to the frame around it.
    Nothing,
}

impl Parser<'_> {
    fn take(&mut self, token: &Token<'_>) {
        let span = self.placed.span(token.range.clone());
        let bare = self.bare.take();
        if let TokenKind::Word(word) = token.kind
            && let value = word.trim_start_matches(':')
            && let Some(length) = NoteValue::parse(value)
        {
            self.carried = Some(length);
            let (head, from) = bare.map_or((None, span), |b| (Some(b.head), b.span));
            let fault = unknown::apart(head.as_deref(), value, from.to(span));
            return self.faults.push(fault);
        }
        self.lacking(bare);
        match token.kind {
            TokenKind::Word(word) => self.word(word, span),
            TokenKind::Open(word) => self.open_span(word, span),
            TokenKind::Close => self.close_span(span),
            TokenKind::Mark(word) => self.mark(word, span),
            TokenKind::Fingering(text) => self.fingering(text, span),
            TokenKind::Bar => self.bar(span),
            TokenKind::Comma => self.many.commas.add(span),
            TokenKind::Stray => self.faults.push(
                Fault::new(span, tell::stray_square_bracket()).hint(tell::fingering_after_note()),
            ),
        }
    }

    /// Reports a token that no length followed, if it needs one.
    fn lacking(&mut self, bare: Option<Bare>) {
        match bare.map(|b| (b.head, b.span, b.lack)) {
            Some((head, span, Some(Lack::Length))) => {
                self.many.lengthless.add_example(span, &head);
            }
            Some((_, _, Some(Lack::AfterColon(fault)))) => self.faults.push(fault),
            _ => {}
        }
    }

    fn push(&mut self, span: Span, kind: ItemKind) {
        self.top().items.push(Item { span, kind });
    }

    fn top(&mut self) -> &mut Frame {
        self.open
            .last_mut()
            .expect("the line's own frame is never closed")
    }

    fn inside(&self, kind: FrameKind) -> Option<&Frame> {
        self.open.iter().find(|f| f.kind == kind)
    }

    fn word(&mut self, word: &str, span: Span) {
        if word.contains(is_unseen) {
            return self.unseen(word, span);
        }
        if let Some(dynamic) = Dynamic::parse(word) {
            return self.loudness(span, ItemKind::Dynamic(dynamic));
        }
        match word {
            "cresc" => return self.loudness(span, ItemKind::Cresc),
            "dim" => return self.loudness(span, ItemKind::Dim),
            "breath" => return self.push(span, ItemKind::Breath),
            _ => {}
        }
        let (head, value) = match word.split_once(':') {
            Some((head, value)) => (head, Some(value)),
            None => (word, None),
        };
        let air = self.context.on == On::Air;
        match head {
            "rest" => self.with_value(head, value, span, ItemKind::Rest),
            "tie" => self.with_value(head, value, span, ItemKind::Tie),
            "in" if air => self.with_value(head, value, span, ItemKind::In),
            "out" if air => self.with_value(head, value, span, ItemKind::Out),
            "hold" if air => self.with_value(head, value, span, ItemKind::Hold),
            "in" | "out" | "hold" => self
                .faults
                .push(Fault::new(span, tell::belongs_to_air(head)).hint(tell::air_says_on())),
            _ => self.note(word, head, value, span),
        }
    }

    fn unseen(&mut self, word: &str, span: Span) {
        let seen: String = word.chars().filter(|c| !is_unseen(*c)).collect();
        let fault = Fault::new(span, tell::unseen_here());
        self.faults.push(if seen.is_empty() {
            fault.hint(tell::delete_it())
        } else {
            fault.hint(tell::type_anew(&seen))
        });
    }

    fn loudness(&mut self, span: Span, kind: ItemKind) {
        if self.context.on == On::Air {
            self.faults
                .push(Fault::new(span, tell::air_no_dynamics()).hint(tell::air_holds()));
        } else {
            self.push(span, kind);
        }
    }

    /// Reads the value of a token, and adds the token that `make` returns for it.
    fn with_value(
        &mut self,
        head: &str,
        value: Option<&str>,
        span: Span,
        make: impl FnOnce(NoteValue) -> ItemKind,
    ) {
        if let Some(value) = self.value(head, value, span) {
            self.push(span, make(value));
        }
    }

    fn value(&mut self, head: &str, value: Option<&str>, span: Span) -> Option<NoteValue> {
        let is_tie = head == "tie";
        let Some(text) = value else {
            // A tie that takes over the length of its note is more likely a slip than meant.
            let carried = self.carried.filter(|_| !is_tie);
            let value = self.context.each.or(carried);
            let lack = value.is_none().then_some(Lack::Length);
            self.bare_token(head, span, lack);
            return value;
        };
        let value = NoteValue::parse(text);
        if value.is_none() {
            let at = Span::new(
                span.end.saturating_sub(text.len()).max(span.start),
                span.end,
            );
            let fault = slips::value(head, text, at);
            if text.is_empty() {
                self.bare_token(head, span, Some(Lack::AfterColon(fault)));
            } else {
                self.faults.push(fault);
            }
        }
        if !is_tie {
            // After a length that is not understood, the notes that take it over are not to blame.
            self.carried = value.or(self.carried).or(NoteValue::parse("quarter"));
        }
        value
    }

    fn bare_token(&mut self, head: &str, span: Span, lack: Option<Lack>) {
        self.bare = Some(Bare {
            head: head.to_owned(),
            span,
            lack,
        });
    }

    fn note(&mut self, word: &str, head: &str, value: Option<&str>, span: Span) {
        let names = self.context.names;
        let pitch = match names.parse(head) {
            Some(pitch) => {
                let english = names == NoteNames::English;
                if english && head.starts_with('B') && pitch.alter() == 0 {
                    self.names.plain_b.add_example(span, head);
                }
                pitch
            }
            None => match slips::pitch(
                head,
                names,
                Some(self.context.instrument),
                &mut self.many,
                span,
            ) {
                // Kept, so that the bars still add up.
                slips::Meant::Pitch(pitch) => {
                    self.names.german |= self.many.german.any();
                    pitch
                }
                slips::Meant::Fault(fault) => return self.faults.push(fault),
                slips::Meant::Unknown => {
                    return self
                        .faults
                        .push(unknown::word(word, value, self.context.on, span));
                }
            },
        };
        if self.context.on == On::Air {
            return self
                .faults
                .push(Fault::new(span, tell::note_in_air(pitch)).hint(tell::air_holds()));
        }
        self.with_value(head, value, span, |value| {
            ItemKind::Note(NoteItem {
                pitch,
                value,
                tube: None,
                bend: false,
                style: None,
                attack: Attack::Tongue,
            })
        });
    }

    /// The note right before a mark or fingering at `span`, if there is one.
    fn marked(&mut self, what: &str, span: Span) -> Option<&mut NoteItem> {
        let last = self.top().items.last().map(|item| &item.kind);
        if !matches!(last, Some(ItemKind::Note(_))) {
            self.faults
                .push(Fault::new(span, tell::after_no_note(what)).hint(tell::marks_follow()));
            return None;
        }
        let item = self.top().items.last_mut()?;
        item.span = item.span.to(span);
        match &mut item.kind {
            ItemKind::Note(note) => Some(note),
            _ => None,
        }
    }

    fn mark(&mut self, word: &str, span: Span) {
        if !slips::MARKS.contains(&word) {
            return self.faults.push(slips::mark(word, span));
        }
        let Some(note) = self.marked(&format!("({word})"), span) else {
            return;
        };
        let twice = match word {
            "bend" => std::mem::replace(&mut note.bend, true),
            "air" | "ku" => {
                let attack = if word == "air" {
                    Attack::Air
                } else {
                    Attack::Ku
                };
                std::mem::replace(&mut note.attack, attack) != Attack::Tongue
            }
            _ => {
                let style = match word {
                    "staccato" => Style::Staccato,
                    "legato" => Style::Legato,
                    _ => Style::Accent,
                };
                note.style.replace(style).is_some()
            }
        };
        if twice {
            self.faults.push(
                Fault::new(span, tell::not_with_mark_before(word)).hint(tell::keep_one_of_two()),
            );
        }
    }

    fn fingering(&mut self, text: &str, span: Span) {
        let context = self.context;
        let instrument = context.instrument;
        let tube = Tube::parse(text.trim());
        let Some(tube) = tube.filter(|tube| instrument.has(*tube)) else {
            return self
                .faults
                .push(slips::fingering(text, span, Some(instrument)));
        };
        let Some(note) = self.marked("fingering", span) else {
            return;
        };
        let twice = note.tube.replace(tube).is_some();
        if context.on == On::Mouthpiece {
            let fault = Fault::new(span, tell::no_valves());
            let hint = tell::fingering_or_horn();
            self.faults.push(fault.hint(hint));
        } else if context.on_tubes {
            self.faults
                .push(Fault::new(span, tell::tubes_finger()).hint(tell::fingering_or_notes()));
        } else if twice {
            self.faults
                .push(Fault::new(span, tell::one_fingering()).hint(tell::keep_one_of_two()));
        }
    }

    fn bar(&mut self, span: Span) {
        if let Some(triplet) = self.inside(FrameKind::Triplet) {
            let at = triplet.at;
            self.faults.push(
                Fault::new(span, tell::triplet_over_bar())
                    .also(at, tell::triplet_starts())
                    .hint(tell::close_triplet()),
            );
        }
        self.push(span, ItemKind::Bar);
    }

    fn open_span(&mut self, word: &str, span: Span) {
        let kind = match word {
            "slur" => FrameKind::Slur,
            "triplet" => FrameKind::Triplet,
            _ => FrameKind::Nothing,
        };
        if kind == FrameKind::Nothing {
            let meant = nearest(word, ["slur", "triplet"]);
            let fault = if word.is_empty() {
                Fault::new(span, tell::opens_nothing())
            } else {
                Fault::new(span, tell::group_not_known(word))
            };
            self.faults.push(match (word, meant) {
                ("tie", _) => fault.hint(tell::tie_or_slur()),
                (_, Some(meant)) => fault.hint(tell::did_you_mean_group(meant)),
                ("", None) => fault.hint(tell::say_which_group()),
                (_, None) => fault.hint(tell::write_a_group()),
            });
        } else if let Some(outer) = self.inside(kind) {
            let at = outer.at;
            self.faults.push(
                Fault::new(span, tell::group_in_group(word))
                    .also(at, tell::first_group_starts())
                    .hint(tell::close_first_group()),
            );
            self.open.push(Frame {
                kind: FrameKind::Nothing,
                at: span,
                items: Vec::new(),
            });
            return;
        } else if kind == FrameKind::Slur && self.context.on == On::Air {
            self.faults
                .push(Fault::new(span, tell::air_no_slurs()).hint(tell::leave_brackets_out()));
            self.open.push(Frame {
                kind: FrameKind::Nothing,
                at: span,
                items: Vec::new(),
            });
            return;
        }
        self.open.push(Frame {
            kind,
            at: span,
            items: Vec::new(),
        });
    }

    fn close_span(&mut self, span: Span) {
        if self.open.len() == 1 {
            return self
                .faults
                .push(Fault::new(span, tell::closes_nothing()).hint(tell::groups_are_closed()));
        }
        self.close_top(span);
    }

    fn close_top(&mut self, close: Span) {
        let Some(frame) = self.open.pop() else { return };
        let span = frame.at.to(close);
        match frame.kind {
            FrameKind::Slur => self.push(span, ItemKind::Slur(frame.items)),
            FrameKind::Triplet => self.push(span, ItemKind::Triplet(frame.items)),
            FrameKind::Nothing | FrameKind::Line => self.top().items.extend(frame.items),
        }
    }

    fn finish(mut self) -> (Phrase, foreign::Names) {
        let bare = self.bare.take();
        self.lacking(bare);
        let end = self
            .placed
            .span(self.placed.text.len()..self.placed.text.len());
        while self.open.len() > 1 {
            let frame = self.top();
            let (at, kind) = (frame.at, frame.kind);
            let what = match kind {
                FrameKind::Slur => Some(tell::slur_never_closed()),
                FrameKind::Triplet => Some(tell::triplet_never_closed()),
                FrameKind::Nothing | FrameKind::Line => None,
            };
            if let Some(what) = what {
                self.faults
                    .push(Fault::new(at, what).hint(tell::close_after_last()));
            }
            self.close_top(end);
        }
        self.many.tell(self.faults);
        let phrase = Phrase {
            items: self.open.pop().map(|f| f.items).unwrap_or_default(),
        };
        (phrase, self.names)
    }
}
