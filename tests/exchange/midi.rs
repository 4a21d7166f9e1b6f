//! MIDI files, read again with `midly` and, byte by byte, as the standard says; their times against the tracks'.

use super::{built_in, line, routine, unroll};
use leadpipe::exchange::midi;
use leadpipe::score::{Played, Score};
use leadpipe::timeline::{self, Content, Settings};
use midly::{Format, MetaMessage, MidiMessage, Smf, Timing, TrackEventKind};

/// Note on or off: tick, channel, key, velocity (0 is off).
type Struck = (u64, u8, u8, u8);

/// A track as a list of events with their ticks.
struct Track {
    name: String,
    notes: Vec<Struck>,
    markers: Vec<(u64, String)>,
    /// Microseconds a quarter.
    tempos: Vec<(u64, u32)>,
}

fn read(bytes: &[u8]) -> Vec<Track> {
    let smf = Smf::parse(bytes).unwrap();
    assert_eq!(smf.header.format, Format::Parallel);
    assert_eq!(smf.header.timing, Timing::Metrical(midi::TICKS.into()));
    let track = |events: &midly::Track<'_>| {
        let mut track = Track {
            name: String::new(),
            notes: vec![],
            markers: vec![],
            tempos: vec![],
        };
        let mut now = 0;
        for event in events {
            now += u64::from(event.delta.as_int());
            let text = |text: &[u8]| String::from_utf8(text.to_vec()).unwrap();
            match event.kind {
                TrackEventKind::Midi { channel, message } => {
                    let (key, velocity) = match message {
                        MidiMessage::NoteOn { key, vel } => (key.as_int(), vel.as_int()),
                        MidiMessage::NoteOff { key, .. } => (key.as_int(), 0),
                        _ => continue,
                    };
                    track.notes.push((now, channel.as_int(), key, velocity));
                }
                TrackEventKind::Meta(MetaMessage::TrackName(name)) => track.name = text(name),
                TrackEventKind::Meta(MetaMessage::Marker(name)) => {
                    track.markers.push((now, text(name)))
                }
                TrackEventKind::Meta(MetaMessage::Tempo(micros)) => {
                    track.tempos.push((now, micros.as_int()))
                }
                _ => {}
            }
        }
        track
    };
    smf.tracks.iter().map(track).collect()
}

/// Seconds of a tick, by the tempo map.
fn seconds(tick: u64, tempos: &[(u64, u32)]) -> f64 {
    let mut seconds = 0.0;
    for (index, (from, micros)) in tempos.iter().enumerate() {
        let to = tempos
            .get(index + 1)
            .map_or(tick, |(to, _)| (*to).min(tick));
        if to > *from {
            seconds += (to - from) as f64 * f64::from(*micros) / 1e6 / f64::from(midi::TICKS);
        }
    }
    seconds
}

/// A microsecond a quarter for a line of five minutes, and half a frame.
const TOLERANCE: f64 = 0.0005;

/// The clicks of a track, as the timeline has them: seconds, and whether they are accented.
fn clicks(score: &Score<'_>) -> Vec<(f64, bool)> {
    let settings = Settings::default();
    let timeline = timeline::compile(score, &settings);
    let mut clicks = vec![];
    for unit in &timeline.units {
        if let Content::Line(sound) = &unit.content {
            for click in &sound.clicks {
                let frame = unit.first_frame + click.frame;
                clicks.push((
                    frame as f64 / f64::from(settings.sample_rate),
                    click.accented,
                ));
            }
        }
    }
    clicks
}

#[test]
fn every_click_is_where_the_track_has_it() {
    let lead_ins = line(
        "notes = \"C4:half. | D4:half.\"\nmeter = \"3/4\"\nhalf_steps = [0, 1, 2]\nclick = \"count-in\"\nbetween = \"3 bars\"",
    );
    let all = built_in().map(|(_, text)| routine(text)).chain([lead_ins]);
    for routine in all {
        let score = unroll(&routine);
        let tracks = read(&midi::write(&score));
        let (map, click) = (&tracks[0], &tracks[2]);
        assert_eq!(click.name, "click");
        let struck: Vec<&Struck> = click.notes.iter().filter(|n| n.3 > 0).collect();
        let expected = clicks(&score);
        assert_eq!(struck.len(), expected.len(), "{}", routine.title);
        for ((tick, channel, key, _), (at, accented)) in struck.iter().zip(&expected) {
            let off = seconds(*tick, &map.tempos) - at;
            assert!(off.abs() < TOLERANCE, "{}: {off} s at {at}", routine.title);
            // General MIDI 1: channel 10 is percussion, 76 and 77 the wood blocks.
            assert_eq!((*channel, *key), (9, if *accented { 76 } else { 77 }));
        }
    }
}

#[test]
fn every_note_is_where_the_score_has_it() {
    for (name, text) in built_in() {
        let routine = routine(text);
        let score = unroll(&routine);
        let tracks = read(&midi::write(&score));
        let (map, guide) = (&tracks[0], &tracks[1]);
        assert_eq!(
            (map.name.as_str(), guide.name.as_str()),
            (routine.title.as_str(), "guide")
        );
        let struck: Vec<&Struck> = guide.notes.iter().filter(|n| n.3 > 0 && n.1 == 0).collect();
        let mut expected = vec![];
        for line in &score.lines {
            let start = num_traits::ToPrimitive::to_f64(&line.start).unwrap();
            for pass in &line.passes {
                for note in &pass.notes {
                    if let Played::Pitch { sounding, .. } = note.played {
                        let at = line.seconds(line.count_in + pass.start + note.start);
                        let at = *at.numer() as f64 / *at.denom() as f64;
                        expected.push((start + at, sounding.number()));
                    }
                }
            }
        }
        assert_eq!(struck.len(), expected.len(), "{name}");
        for ((tick, _, key, _), (at, number)) in struck.iter().zip(&expected) {
            assert_eq!(i32::from(*key), *number, "{name} at {at}");
            let off = seconds(*tick, &map.tempos) - at;
            assert!(off.abs() < TOLERANCE, "{name}: {off} s at {at}");
        }
        let lines: Vec<&str> = score
            .lines
            .iter()
            .map(|l| routine.lines[l.index].name.as_str())
            .collect();
        let markers: Vec<&str> = map.markers.iter().map(|(_, name)| name.as_str()).collect();
        assert_eq!(lines, markers, "{name}");
        for ((tick, _), line) in map.markers.iter().zip(&score.lines) {
            let start = num_traits::ToPrimitive::to_f64(&line.start).unwrap();
            assert!((seconds(*tick, &map.tempos) - start).abs() < TOLERANCE);
        }
        no_note_hangs(&tracks);
    }
}

/// Every key that goes down comes up before it goes down again.
fn no_note_hangs(tracks: &[Track]) {
    for track in tracks {
        let mut down = vec![];
        for (tick, channel, key, velocity) in &track.notes {
            if *velocity > 0 {
                assert!(
                    !down.contains(&(*channel, *key)),
                    "{} at {tick}",
                    track.name
                );
                down.push((*channel, *key));
            } else {
                let place = down.iter().position(|k| *k == (*channel, *key));
                down.remove(place.unwrap_or_else(|| panic!("{} at {tick}", track.name)));
            }
        }
        assert!(down.is_empty(), "{}", track.name);
    }
}

#[test]
fn a_slur_sounds_on_and_the_tongue_takes_its_time() {
    let routine = line(
        "notes = \"slur( C4:quarter D4:quarter ) E4:quarter F4:quarter(staccato) | G4:half breath G4:half\"",
    );
    let tracks = read(&midi::write(&unroll(&routine)));
    let guide = &tracks[1];
    let lengths: Vec<u64> = guide
        .notes
        .iter()
        .filter(|n| n.3 > 0)
        .map(|on| {
            let off = guide
                .notes
                .iter()
                .find(|off| off.3 == 0 && off.2 == on.2 && off.0 > on.0);
            off.unwrap().0 - on.0
        })
        .collect();
    // 960 ticks a quarter; the tongue takes a sixteenth of one, a dot half, the breath one beat.
    assert_eq!(lengths, [960, 900, 900, 480, 960, 1920]);
}

/// The head of the file and the tempo of its line, byte by byte: Standard MIDI File 1.0, which gives 90 quarters a
/// minute as FF 51 03 0A 2C 2B.
#[test]
fn bytes_are_as_the_standard_says() {
    let routine = routine(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in C\"\ncomfortable_top = \"G4\"\ntempo = 90\n\
         [[line]]\nname = \"L\"\nnotes = \"C4:whole\"\n",
    );
    let bytes = midi::write(&unroll(&routine));
    // Format 1, four tracks, 960 ticks.
    assert_eq!(
        bytes[..14],
        *b"MThd\x00\x00\x00\x06\x00\x01\x00\x04\x03\xc0"
    );
    let has = |wanted: &[u8]| bytes.windows(wanted.len()).any(|w| w == wanted);
    assert!(has(b"\xff\x51\x03\x0a\x2c\x2b"), "90 a minute");
    // Four quarters, 24 clocks a click, eight thirty-seconds a quarter.
    assert!(has(b"\xff\x58\x04\x04\x02\x18\x08"), "4/4");
    assert!(has(b"\xff\x06\x01L"), "a marker");
    // General MIDI's trumpet, the 57th; C4 at mf begins and 3840 ticks (9E 00) later it ends.
    assert!(has(b"\xc0\x38"), "a trumpet");
    assert!(has(&[0x3c, 76, 0x9e, 0x00, 0x80, 0x3c]), "a whole note");
    assert!(bytes.ends_with(b"\x00\xff\x2f\x00"));
}
