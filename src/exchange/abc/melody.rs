//! The music of a tune.

use super::bars::{self, Line};
use super::book::{Tune, plain};
use super::head::{self, Head};
use super::lengths::{Group, fraction, multiplier};
use super::measures::Measures;
use super::notes::{Accidentals, Pitched};
use super::signs::{self, Sign};
use crate::exchange::piece::{
    ImportedPiece, Loss, MOST_SIGNS, MarkKind, MeasureSymbol, Pitches, SymbolKind, on_grid,
    too_many_signs,
};
use crate::music::Whole;
use crate::problem::Problem;
use crate::routine::Style;
use std::collections::HashMap;

/// Reads a tune.
///
/// # Errors
/// If it has no music, or more than any warm-up.
pub(super) fn read(tune: &Tune<'_>) -> Result<ImportedPiece, Problem> {
    let mut reader = Reader::new();
    for row in &tune.shared {
        reader.head_field(row);
    }
    let mut rows = tune.rows.iter();
    for row in rows.by_ref() {
        reader.head_field(row);
        if row.starts_with("K:") {
            break;
        }
    }
    reader.begin();
    for row in rows {
        reader.row(row);
        if reader.made.signs > MOST_SIGNS {
            return Err(too_many_signs());
        }
    }
    let mut piece = reader.piece;
    piece.measures = reader.made.finish(&mut piece.losses)?;
    if !piece
        .measures
        .iter()
        .any(|m| m.symbols.iter().any(|s| s.what != SymbolKind::Rest))
    {
        return Err(Problem::error("there is no note in it"));
    }
    Ok(piece)
}

pub(super) struct Reader {
    piece: ImportedPiece,
    head: Head,
    made: Measures,
    accidentals: Accidentals,
    group: Option<Group>,
    /// What `>` or `<` leaves of the next note.
    broken: Option<(i128, i128)>,
    /// Numbers of slurs that begin at the next note, and of those that are open.
    slurs_begin: Vec<u8>,
    slurs: Vec<u8>,
    style: Option<Style>,
    /// Signs that the tune itself defines.
    own_signs: HashMap<char, String>,
    /// The voice that is read: the first with music. `None` until then.
    voice: Option<String>,
    /// The voice whose turn it is.
    turn: String,
    /// True in a second voice of a bar.
    overlay: bool,
}

impl Reader {
    fn new() -> Self {
        Self {
            piece: ImportedPiece::default(),
            head: Head::new(),
            made: Measures::default(),
            accidentals: Accidentals::default(),
            group: None,
            broken: None,
            slurs_begin: vec![],
            slurs: vec![],
            style: None,
            own_signs: HashMap::new(),
            voice: None,
            turn: String::new(),
            overlay: false,
        }
    }

    fn lose(&mut self, what: &'static str) {
        self.made.lose(what, &mut self.piece.losses);
    }

    /// Tells of something that is not in one bar, once.
    fn lose_of_all(&mut self, what: &'static str) {
        let loss = Loss {
            measure: None,
            what: what.into(),
        };
        if !self.piece.losses.contains(&loss) {
            self.piece.losses.push(loss);
        }
    }

    /// A row of the head.
    fn head_field(&mut self, row: &str) {
        let Some((name, value)) = field(row) else {
            return;
        };
        match name {
            'T' if self.piece.title.is_none() => self.piece.title = Some(value.to_owned()),
            'T' => self.lose_of_all("other titles of the tune are not kept"),
            'C' => self.lose_of_all("the names of composer, arranger and poet are not kept"),
            'P' if value.len() > 1 => {
                self.lose_of_all("an order of parts (P:) is not followed: they are played once");
            }
            'A' | 'B' | 'D' | 'F' | 'G' | 'H' | 'N' | 'O' | 'R' | 'S' | 'Z'
                if !value.is_empty() =>
            {
                self.lose_of_all("notes about the tune, as of its source, are not kept");
            }
            // Voices are chosen in the music.
            'V' => {}
            _ => self.field(name, value),
        }
    }

    /// The music begins.
    fn begin(&mut self) {
        self.made.set_meter(self.head.meter);
    }

    /// A field of head or music.
    fn field(&mut self, name: char, value: &str) {
        match name {
            'M' => {
                self.head.set_meter(value);
                self.made.set_meter(self.head.meter);
            }
            'L' => {
                if let Some(unit) = fraction(value) {
                    self.head.unit = Some(unit);
                }
            }
            'K' => self.key(value),
            'Q' => {
                let (words, quarters) = head::tempo(value, self.head.unit());
                if let Some(words) = words {
                    self.made.mark(MarkKind::Words(words.to_owned()));
                }
                if let Some(quarters) = quarters {
                    self.made.mark(MarkKind::Tempo(quarters));
                }
            }
            'P' if !value.is_empty() => self.made.mark(MarkKind::Name(value.to_owned())),
            'T' if !value.is_empty() => self.made.mark(MarkKind::Name(value.to_owned())),
            'U' => self.own_sign(value),
            'V' => self.turn(value),
            'm' => self.lose("macros are not followed"),
            'W' | 'w' if !value.is_empty() => self.lose("words under the notes are left out"),
            's' => self.lose("other signs at notes are left out"),
            'I' => self.accidentals.instruct(value),
            _ => {}
        }
    }

    fn key(&mut self, value: &str) {
        self.head.set_key(value);
        let key = self.head.key;
        self.accidentals.set_key(key);
        if let Some(sign) = key.sign {
            self.made.set_key(sign);
        }
        if let Some(lost) = key.lost {
            self.lose(lost);
        }
        if let Some(lost) = key.other_clef {
            self.lose(lost);
        }
        if let Some(half_steps) = key.transpose {
            self.piece.pitches = Pitches::For(half_steps);
        }
    }

    /// `U: T = !trill!`
    fn own_sign(&mut self, value: &str) {
        if let Some((letter, sign)) = value.split_once('=')
            && let Some(letter) = letter.trim().chars().next()
            && self.own_signs.len() < 64
        {
            let sign = sign.trim().trim_matches(['!', '+']);
            self.own_signs.insert(letter, sign.to_owned());
        }
    }

    fn turn(&mut self, value: &str) {
        let id = value.split_whitespace().next().unwrap_or_default();
        self.turn = id.to_owned();
    }

    /// True if the voice whose turn it is is the one that is read.
    fn is_read(&mut self) -> bool {
        let turn = &self.turn;
        let read = self.voice.get_or_insert_with(|| turn.clone()) == turn;
        if !read {
            self.lose("voices other than the first are left out");
        }
        read
    }

    /// A row after the head.
    fn row(&mut self, row: &str) {
        if let Some(directive) = row.strip_prefix("%%") {
            return self.accidentals.instruct(directive);
        }
        match field(row) {
            Some((name, value)) if "IKLMmNPQRrsTUVWw+".contains(name) => self.field(name, value),
            _ => {
                let mut rest = row;
                while !rest.is_empty() && !rest.starts_with('%') && self.made.signs <= MOST_SIGNS {
                    rest = self.next(rest);
                }
            }
        }
    }

    /// Reads the next element of a row, and returns what is left.
    fn next<'t>(&mut self, text: &'t str) -> &'t str {
        let first = text.chars().next().expect("there is one");
        let after = &text[first.len_utf8()..];
        if let Some(rest) = self.voices(text, first) {
            return rest;
        }
        if let Some((rest, line)) = bars::read(text) {
            self.bar(&line);
            return rest;
        }
        match first {
            '"' => match after.split_once('"') {
                Some((quoted, rest)) => {
                    self.sign(signs::quoted(quoted));
                    rest
                }
                None => "",
            },
            '!' | '+' => self.named_sign(after, first),
            '{' => {
                self.lose("grace notes are left out");
                after.split_once('}').map_or("", |(_, rest)| rest)
            }
            '[' => self.chord(after),
            '(' => match Group::of(after, self.head.is_compound()) {
                Some((rest, group)) => {
                    self.group = Some(group);
                    rest
                }
                None => {
                    let number = (self.slurs.len() + self.slurs_begin.len()).min(250) as u8 + 1;
                    self.slurs_begin.push(number);
                    after
                }
            },
            ')' => {
                if let Some(number) = self.slurs.pop() {
                    self.made.at_last(|last| last.slurs_end.push(number));
                } else {
                    self.slurs_begin.pop();
                }
                after
            }
            '-' => {
                self.made.at_last(|last| last.tied_on = true);
                after
            }
            '<' | '>' => self.broken(text, first),
            'z' | 'x' => {
                let (rest, over, under) = multiplier(after);
                self.put(SymbolKind::Rest, over, under);
                rest
            }
            'Z' | 'X' => {
                let (rest, bars, _) = multiplier(after);
                self.made.rest_bars(bars);
                rest
            }
            '.' if after.starts_with('(') => after,
            _ => self.note_or_sign(text, first, after),
        }
    }

    /// Fields inside a row, and what belongs to voices that are not read.
    fn voices<'t>(&mut self, text: &'t str, first: char) -> Option<&'t str> {
        let after = &text[first.len_utf8()..];
        let bytes = text.as_bytes();
        if first == '[' && bytes.len() > 2 && bytes[1].is_ascii_alphabetic() && bytes[2] == b':' {
            let (inside, rest) = after.split_once(']').unwrap_or((after, ""));
            let (name, value) = (char::from(bytes[1]), inside[2..].trim());
            if name == 'V' || self.is_read() {
                self.field(name, value);
            }
            return Some(rest);
        }
        if first.is_whitespace() || matches!(first, '\\' | '`' | 'y' | '$' | '*') {
            return Some(after);
        }
        if !self.is_read() {
            return Some(after);
        }
        if first == '&' {
            self.overlay = true;
            self.lose("second voices in a bar are left out");
            return Some(after);
        }
        (self.overlay && bars::read(text).is_none()).then_some(after)
    }

    fn bar(&mut self, line: &Line) {
        self.overlay = false;
        self.accidentals.bar();
        self.made.end_bar(line);
    }

    /// `!trill!`, or `+trill+` of old; a mark alone is the end of a row.
    fn named_sign<'t>(&mut self, after: &'t str, mark: char) -> &'t str {
        match after.split_once(mark) {
            Some((name, rest)) if name.len() <= 32 && !name.contains(['|', ' ']) => {
                self.sign(signs::named(name));
                rest
            }
            _ => after,
        }
    }

    fn sign(&mut self, sign: Sign) {
        match sign {
            Sign::Style(style) if self.style.is_none_or(|before| before == style) => {
                self.style = Some(style);
            }
            Sign::Style(_) => {
                self.style = Some(Style::Accent);
                self.lose("of two signs at a note one is kept, the accent before the dot");
            }
            Sign::Breath => self.made.at_last(|last| last.breath = true),
            Sign::Mark(kind) => self.made.mark(kind),
            Sign::Jump(jump) => self.made.jump(jump),
            Sign::Lost(what) => self.lose(what),
            Sign::Nothing => {}
        }
    }

    /// `A>B`: the first is half as long again, the second half as long.
    fn broken<'t>(&mut self, text: &'t str, sign: char) -> &'t str {
        let rest = text.trim_start_matches(sign);
        let count = (text.len() - rest.len()).min(4) as u32;
        let parts = 2_i128.pow(count);
        let (long, short) = ((2 * parts - 1, parts), (1, parts));
        let (before, next) = if sign == '>' {
            (long, short)
        } else {
            (short, long)
        };
        self.made.scale_last(before);
        self.broken = Some(next);
        rest
    }

    fn note_or_sign<'t>(&mut self, text: &'t str, first: char, after: &'t str) -> &'t str {
        if let Some((rest, pitched)) = Pitched::read(text) {
            let (rest, over, under) = multiplier(rest);
            let what = self.pitch(&pitched);
            self.put(what, over, under);
            return rest;
        }
        let own = self.own_signs.get(&first).map(|name| signs::named(name));
        match own.or_else(|| signs::of_letter(first).map(signs::named)) {
            Some(sign) => self.sign(sign),
            None if matches!(first, ']' | ';' | '?' | '@' | '#' | ',' | '\'' | '/') => {}
            None => self.lose("letters that are no notes are left out"),
        }
        after
    }

    fn pitch(&mut self, pitched: &Pitched) -> SymbolKind {
        let tied = self.made.last().is_some_and(|last| last.tied_on);
        if pitched.between {
            self.lose("notes between two half steps are taken as the half step below");
        }
        let octaves = self.head.key.octave.unwrap_or(0);
        match self.accidentals.pitch(pitched, octaves, tied) {
            Some(pitch) => SymbolKind::Note(pitch),
            None => {
                self.lose("a note whose pitch is not understood is a rest");
                SymbolKind::Rest
            }
        }
    }

    /// Notes at once: the highest is kept.
    fn chord<'t>(&mut self, text: &'t str) -> &'t str {
        let (mut inside, after) = text.split_once(']').unwrap_or((text, ""));
        let mut highest: Option<SymbolKind> = None;
        let (mut length, mut notes, mut tied) = (None, 0, false);
        while let Some(first) = inside.chars().next() {
            let Some((rest, pitched)) = Pitched::read(inside) else {
                tied |= first == '-';
                inside = &inside[first.len_utf8()..];
                continue;
            };
            let (rest, over, under) = multiplier(rest);
            inside = rest;
            notes += 1;
            length = length.or(Some((over, under)));
            let what = self.pitch(&pitched);
            let number = |what: SymbolKind| match what {
                SymbolKind::Note(pitch) => pitch.number(),
                _ => i32::MIN,
            };
            highest = highest
                .into_iter()
                .chain([what])
                .max_by_key(|what| number(*what));
        }
        if notes > 1 {
            self.lose("of notes at once only the highest is kept");
        }
        let (rest, over, under) = multiplier(after);
        if let (Some(what), Some((o, u))) = (highest, length) {
            self.put(what, o.saturating_mul(over), u.saturating_mul(under));
            if tied {
                self.made.at_last(|last| last.tied_on = true);
            }
        }
        rest
    }

    /// Puts a note or rest of so many units.
    fn put(&mut self, what: SymbolKind, mut over: i128, mut under: i128) {
        if let Some((o, u)) = self.broken.take() {
            (over, under) = (over.saturating_mul(o), under.saturating_mul(u));
        }
        if let Some(group) = &mut self.group {
            (over, under) = (
                over.saturating_mul(group.over),
                under.saturating_mul(group.under),
            );
            group.left -= 1;
            if group.left == 0 {
                self.group = None;
            }
        }
        let unit = self.head.unit();
        let (o, u) = (i128::from(*unit.numer()), i128::from(*unit.denom()));
        let length = on_grid(over.saturating_mul(o), under.saturating_mul(u));
        let mut symbol = MeasureSymbol::plain(Whole::default(), length.unwrap_or_default(), what);
        if what != SymbolKind::Rest {
            symbol.slurs_begin = std::mem::take(&mut self.slurs_begin);
            self.slurs.extend(&symbol.slurs_begin);
            symbol.style = self.style.take();
        }
        if length.is_none_or(|length| length == Whole::default()) {
            return self.lose("notes without a length are left out");
        }
        self.made.put(symbol);
    }
}

/// The name of a field and its value.
fn field(row: &str) -> Option<(char, &str)> {
    let mut letters = row.chars();
    let name = letters
        .next()
        .filter(|c| c.is_ascii_alphabetic() || *c == '+')?;
    let value = letters.as_str().strip_prefix(':')?;
    Some((name, plain(value)))
}
