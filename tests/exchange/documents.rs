//! Small MusicXML files, written here by hand from the W3C's description of the format.

/// A score of one part whose measures are `measures`.
pub fn score(measures: &str) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 3.1 Partwise//EN\" \
         \"http://www.musicxml.org/dtds/partwise.dtd\">\n\
         <score-partwise version=\"3.1\"><part-list><score-part id=\"P1\"><part-name>Trumpet</part-name>\
         </score-part></part-list><part id=\"P1\">{measures}</part></score-partwise>"
    )
}

/// What opens a part: two divisions a quarter, in a meter, for a trumpet in B-flat.
pub fn opening(beats: u32, unit: u32) -> String {
    format!(
        "<attributes><divisions>12</divisions><key><fifths>0</fifths></key><time><beats>{beats}</beats>\
         <beat-type>{unit}</beat-type></time><clef><sign>G</sign><line>2</line></clef><transpose><diatonic>-1\
         </diatonic><chromatic>-2</chromatic></transpose></attributes>"
    )
}

/// A measure.
pub fn measure(number: u32, content: &str) -> String {
    format!("<measure number=\"{number}\">{content}</measure>")
}

/// A quarter has twelve divisions.
pub fn duration(value: &str) -> u32 {
    let (plain, dotted) = match value.strip_suffix('.') {
        Some(plain) => (plain, true),
        None => (value, false),
    };
    let plain = match plain {
        "whole" => 48,
        "half" => 24,
        "quarter" => 12,
        "eighth" => 6,
        "16th" => 3,
        other => panic!("{other}"),
    };
    if dotted { plain * 3 / 2 } else { plain }
}

/// `C4 quarter`, `F#4 half.`, `rest quarter`, with more elements in it.
pub fn note_with(text: &str, more: &str) -> String {
    let (pitch, value) = text.split_once(' ').expect("pitch and value");
    let what = if pitch == "rest" {
        "<rest/>".to_owned()
    } else {
        let alter = match &pitch[1..pitch.len() - 1] {
            "#" => "<alter>1</alter>",
            "##" => "<alter>2</alter>",
            "b" => "<alter>-1</alter>",
            _ => "",
        };
        format!(
            "<pitch><step>{}</step>{alter}<octave>{}</octave></pitch>",
            &pitch[..1],
            &pitch[pitch.len() - 1..]
        )
    };
    let dot = if value.ends_with('.') { "<dot/>" } else { "" };
    let name = value.trim_end_matches('.');
    format!(
        "<note>{what}<duration>{}</duration><voice>1</voice><type>{name}</type>{dot}{more}</note>",
        duration(value)
    )
}

/// The same, plain.
pub fn note(text: &str) -> String {
    note_with(text, "")
}

/// Several, parted by commas.
pub fn notes(text: &str) -> String {
    text.split(", ").map(note).collect()
}

/// A direction of one type.
pub fn direction(kind: &str) -> String {
    format!("<direction><direction-type>{kind}</direction-type></direction>")
}
