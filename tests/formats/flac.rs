//! FLAC files hold the samples of the WAV files.

use super::*;
use leadpipe::render::formats::cover;

#[test]
fn every_sample_is_that_of_the_wav_file() {
    for bits in [Bits::Sixteen, Bits::TwentyFour] {
        for (rate, spread) in [(44_100, false), (48_000, true)] {
            let at = tempfile::tempdir().unwrap();
            let settings = RenderSettings {
                bits,
                sample_rate: rate,
                spread,
                stems: true,
                ..ALL
            };
            render(at.path(), settings, &[track(rate)]);
            for part in ["t", "t guide", "t drone", "t click"] {
                let file = |ending: &str| at.path().join(format!("{part}.{ending}"));
                let (flac, wav) = (decoded::flac(&file("flac")), decoded::wav(&file("wav")));
                assert!(wav.iter().any(|step| step.abs() > 1000), "{part}");
                assert!(flac == wav, "{bits:?}, {rate}, {part}");
                let info = claxon::FlacReader::open(file("flac")).unwrap().streaminfo();
                assert_eq!(info.sample_rate, rate);
                assert_eq!(info.bits_per_sample, u32::from(bits.number()));
                assert_eq!(info.channels, if spread && part == "t" { 2 } else { 1 });
                assert_eq!(info.samples, Some(timeline(rate).frames));
                // What decodes to silence or noise would not be smaller.
                let size = |ending| std::fs::metadata(file(ending)).unwrap().len();
                assert!(
                    size("flac") * 5 < size("wav") * 4,
                    "{bits:?}, {rate}, {part}"
                );
            }
        }
    }
}

#[test]
fn tags_and_cover_say_what_it_is() {
    let at = tempfile::tempdir().unwrap();
    render(at.path(), ALL, &[track(RATE)]);
    let path = at.path().join("t.flac");
    let reader = claxon::FlacReader::open(&path).unwrap();
    let tag = |name: &str| -> Vec<String> { reader.get_tag(name).map(str::to_owned).collect() };
    assert_eq!(tag("album"), ["Übung № 1 & more"]);
    assert_eq!(tag("title"), ["97 clicks a minute"]);
    assert_eq!([tag("tracknumber"), tag("tracktotal")], [["2"], ["3"]]);
    assert!(tag("comment")[0].contains("Stop at once for pain"));
    for (number, cue) in (1..).zip(cues(RATE)) {
        let time = &tag(&format!("CHAPTER{number:03}"))[0];
        let parts: Vec<f64> = time.split(':').map(|p| p.parse().unwrap()).collect();
        let seconds = parts[0] * 3600.0 + parts[1] * 60.0 + parts[2];
        let exact = cue.frame as f64 / f64::from(RATE);
        assert!((seconds - exact).abs() <= 0.000_5, "{time} for {exact}");
        assert_eq!(tag(&format!("CHAPTER{number:03}NAME")), [cue.label]);
    }
    assert_eq!(tag("CHAPTER004"), [""; 0]);

    // RFC 9639, 8.8: after the type and the length of the MIME type comes that type, then a description,
    // width, height, depth, colours and length, then the picture.
    let bytes = std::fs::read(&path).unwrap();
    let mime = bytes.windows(9).position(|w| w == b"image/png").unwrap();
    let number = |i: usize| {
        let at = mime + 9 + 4 * i;
        u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap())
    };
    assert_eq!(
        [number(0), number(1), number(2)],
        [0, cover::SIDE, cover::SIDE]
    );
    let picture = &bytes[mime + 9 + 24..][..number(5) as usize];
    let decoder = png::Decoder::new(std::io::Cursor::new(picture));
    assert_eq!(decoder.read_info().unwrap().info().size(), (480, 480));
}
