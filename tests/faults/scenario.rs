//! What is run: every command that writes, into an empty folder and over what an earlier run left.

/// One command, and what is there before it.
pub struct Scenario {
    pub name: &'static str,
    /// Files of the user.
    pub files: Vec<(&'static str, String)>,
    /// Commands that ran before.
    pub before: Vec<Vec<&'static str>>,
    /// Files that the user then gave another name.
    pub renamed: Vec<(&'static str, &'static str)>,
    /// And files that were changed.
    pub changed: Vec<(&'static str, String)>,
    /// The command that meets failing calls.
    pub command: Vec<&'static str>,
}

/// A routine of some seconds that the checker has nothing to say against.
const ROUTINE: &str = "\
format = 1
title = \"Short\"
instrument = \"trumpet in B-flat\"
comfortable_top = \"G4\"
tempo = 200
meter = \"4/4\"

[[line]]
name = \"Away\"
notes = \"p slur( C4:half E4:half )\"

[[line]]
name = \"Home\"
notes = \"p slur( D4:half C4:half )\"
";

const LIST: &str = "\
format = 1
title = \"Tuesday\"

[[player]]
name = \"Ada\"
routine = \"a.toml\"

[[player]]
name = \"Bo\"
routine = \"a.toml\"
pencil = \"bo.toml\"
";

const PENCIL: &str = "format = 1\n\n[[mark]]\nline = 2\ntimes = 2\n";

/// A list of words.
fn words(text: &'static str) -> Vec<&'static str> {
    text.split(' ').collect()
}

fn scenario(name: &'static str, command: &'static str) -> Scenario {
    let mine = "nobody but me writes here\n".to_owned();
    Scenario {
        name,
        files: vec![("a.toml", ROUTINE.to_owned()), ("to/mine.txt", mine)],
        before: vec![],
        renamed: vec![],
        changed: vec![],
        command: words(command),
    }
}

impl Scenario {
    fn file(mut self, name: &'static str, text: &str) -> Self {
        self.files.push((name, text.to_owned()));
        self
    }

    fn after(mut self, command: &'static str) -> Self {
        self.before.push(words(command));
        self
    }

    /// With files of a notation program.
    fn notated(mut self) -> Self {
        self.before
            .push(words("export a.toml --to musicxml,midi --out n"));
        self.renamed = vec![
            ("n/short 200 key-0 together.musicxml", "n.musicxml"),
            ("n/short 200 key-0 together.mid", "n.mid"),
        ];
        self
    }

    /// After the same command, and with another note in the routine.
    fn again(mut self) -> Self {
        self.before.push(self.command.clone());
        let other = ROUTINE.replace("D4:half", "E4:half");
        assert_ne!(other, ROUTINE);
        self.changed.push(("a.toml", other));
        self
    }
}

/// All of them. A new command that writes gets a row here.
pub fn all() -> Vec<Scenario> {
    let render = "render a.toml --out to --threads 1";
    let packed = "render a.toml --out to --threads 1 --format flac,mp3 --stems";
    let tones = "tone Bb4 C5 --seconds 1 --out to";
    let chart = "chart a.toml --out to";
    let sheet = "sheet a.toml --format pdf,svg,png --out to";
    let export = "export a.toml --to musicxml,midi --out to";
    let handout = "handout a.toml --out to --tempo 100%,80%";
    let class = "class list.toml --out to --threads 1";
    let whole_class = |name| {
        scenario(name, class)
            .file("list.toml", LIST)
            .file("bo.toml", PENCIL)
    };
    let mark = "pencil a.toml p.toml 1 slower";
    vec![
        scenario("new", "new anna --from first-steps"),
        scenario("adopt, MusicXML", "adopt n.musicxml --out b.toml").notated(),
        scenario("adopt, MIDI", "adopt n.mid --out b.toml").notated(),
        scenario(
            "adopt over a routine",
            "adopt n.musicxml --out b.toml --force",
        )
        .notated()
        .file("b.toml", PENCIL),
        scenario("pencil, the first mark", mark),
        scenario("pencil, another mark", "pencil a.toml p.toml 2 slower").file("p.toml", PENCIL),
        scenario("pencil, erased", "pencil a.toml p.toml 1 slower --erase").after(mark),
        scenario("render", render),
        scenario("render again", render).again(),
        scenario("render, nothing changed", render).after(render),
        scenario("render FLAC, MP3 and stems", packed),
        scenario("render FLAC, MP3 and stems again", packed).again(),
        scenario("tone", tones),
        scenario("tone again", "tone Bb4 C5 --seconds 1 --dynamic f --out to").after(tones),
        scenario("chart", chart),
        scenario("chart again", chart).again(),
        scenario("sheet", sheet),
        scenario("sheet again", sheet).again(),
        scenario("export", export),
        scenario("export again", export).again(),
        scenario("handout", handout),
        scenario("handout again", handout).again(),
        whole_class("class"),
        whole_class("class again").again(),
    ]
}
