# Was die Befehle sagen.

output-unwritten = die Ausgabe konnte nicht geschrieben werden: { $error }
instruments-are = die Instrumente sind { $names }
carried-by = eine Übungsfolge wird nach Naturtönen (partials) oder klingend (concert) übertragen
no-line-for = { $source } hat keine Zeile, die auf dieser Stufe spielbar ist ({ $instrument })
for-instrument = { $source }, für { $instrument }
line-left-out-on = Hinweis: Zeile { $number } „{ $name }“ fällt weg ({ $instrument }): { $why }{ $hint }
lies-above = { $lowest } liegt über { $highest }
lowest-and-highest = --lowest ist der tiefste Ton, der leicht ist, --highest der höchste
german-h = das deutsche H ist hier B: B4
how-a-note-is-typed =
    schreib einen Buchstaben, wenn nötig # oder b, und die Oktave: G4 ist das G auf der zweiten Linie, C4 das C auf
    der ersten Hilfslinie unten
is-not-a-note = „{ $text }“ ist kein Ton
folder-no-pencil = { $shown } ist ein Ordner, kein Bleistift
name-the-pencil = nenne die Datei des Bleistifts darin
no-file-called = eine Datei { $shown } gibt es nicht
pencil-writes-one = leadpipe pencil ROUTINE { $shown } LINE slower schreibt einen mit seinem ersten Zeichen
keep-going-marks = --keep-going nimmt die anderen Zeichen und lässt diese weg
advice-shown-by = { $name }: { $advice } zu Atem und Pause; { $command }{ $tempos }{ $key } zeigt mehr.
warnings-shown-by = { $command } zeigt sie
has-warnings =
    { $name } hat { $warnings } { $how ->
        [with-pencil] mit diesem Bleistift
       *[as-written] wie geschrieben
    }
no-problems = nichts gefunden
formats-are = ein Format ist wav, flac oder mp3; ein Komma trennt zwei
no-page-made = die Übungsfolge wurde nicht gerendert und keine Seite gemacht
others-not-on-page = { $others } früherer Läufe in diesem Ordner: nicht auf der Seite.
page-is = Die Seite ist { $file }: öffne sie in einem Browser.
share-shows-it = leadpipe share --lan mit diesem Ordner zeigt sie den Handys.
built-without-pdf = Dieses leadpipe wurde ohne PDF gebaut, also gibt es kein Blatt zum Drucken.
sheet-is = Das Blatt zum Drucken ist { $file }.
sheets-are = Blätter zum Drucken, für jede Tonart eins: { $files }.
leadpipe-speaks = leadpipe spricht { $languages }
skills-are = die Fertigkeiten sind { $skills }
no-such-routine-of-all = Keine mitgelieferte Übungsfolge ist das alles; lass eine der Optionen weg.
choose-names-it = leadpipe choose G4 nennt die für einen Spieler, dessen höchster leichter Naturton G4 ist.
no-built-in = eine mitgelieferte Übungsfolge „{ $name }“ gibt es nicht
copy-is-yours = { $shown } ist eine Kopie von { $preset }, dir zum Ändern.
next-check = Als Nächstes: leadpipe check { $file }
no-name-for-file = „{ $name }“ ist kein Name für eine Datei
name-after-player = nenne sie nach einem Spieler: leadpipe new anna
there-already = { $shown } gibt es schon und bleibt, wie es ist
no-such-folder = { $shown } kann nicht geschrieben werden: diesen Ordner gibt es nicht
make-the-folder = leg den Ordner erst an, oder lass ihn im Namen weg
folder-not-writable = { $shown } kann nicht geschrieben werden: in diesen Ordner darf nicht geschrieben werden
own-folder = behalte es in einem eigenen Ordner
disk-full = { $shown } kann nicht geschrieben werden: der Datenträger ist voll
cannot-write = { $shown } kann nicht geschrieben werden: { $error }
choose-another-name = wähle einen anderen Namen
list-shows-built-in = leadpipe list zeigt sie
day-written = ein Tag wird geschrieben: Jahr, Monat, Tag: 2026-11-25
players-own-file = nenne eine eigene Datei des Spielers: anna.pencil.toml
is-built-in = { $shown } ist eine mitgelieferte Übungsfolge
is-the-routine = { $shown } ist die Übungsfolge selbst und bleibt, wie sie ist
no-line-said = es ist nicht gesagt, welche Zeile markiert werden soll
say-line =
    nenne sie mit Nummer oder Namen, oder schreib all für die ganze Übungsfolge; --show liest vor, was markiert ist
nothing-marked-yet = noch ist nichts markiert
no-pencil-file = eine Datei { $shown } gibt es nicht
old-row-ends = die Reihen von { $shown } enden, wie kein Editor sie mehr enden lässt; die Datei bleibt, wie sie ist
save-anew = öffne sie in einem Texteditor, und speichere sie neu
changed-just-now = { $shown } wurde gerade von einem anderen Programm geändert, also wurde nichts markiert
close-it-there = schließ sie dort, und markiere noch einmal
all-tracks = Alle { $n } Aufnahmen
signs-are = die Ansagen (signs) sind on oder off
rates-are = die Abtastrate ist 44100 oder 48000
widths-are = die Wortbreite ist 16 oder 24
threads-are = threads ist eine ganze Zahl von 1 bis { $most-threads }
name-each-voice = nenne jede Stimme einmal: --volume click=-6dB
one-pencil = ein Bleistift liegt immer über einer Übungsfolge
own-pencil = render jede Übungsfolge mit ihrem eigenen Bleistift
another-routine =
    In { $folder } liegen Aufnahmen einer anderen Übungsfolge „{ $title }“: die von { $routine } heißen { $stem }.
stopped-tracks = Angehalten; unfertige Aufnahmen wurden entfernt.
cleared-away = { $files } eines früheren Laufs aufgeräumt.
papers-are = das Papier ist a4 oder letter
fingerings-are-shown = Griffe (fingerings) sind unusual, all oder none
passes-are = Durchgänge (passes) sind ends oder all
sizes-are = die Größe ist normal oder large
part-is-of-music = --part ist für Dateien mit Musik, und eine Übungsfolge hat eine Stimme
font-lacks = die Schrift des Blatts hat kein { $shown }{ $more }: leere Kästchen stehen dafür
font-has = sie hat lateinische, griechische und kyrillische Buchstaben
more-not-shown = { $left-out } weitere in ebenso langen Reihen werden nicht gezeigt.
built-in = { $name } (mitgeliefert)
folder-no-routine = { $shown } ist ein Ordner, keine Übungsfolge
name-the-routine = nenne die Datei der Übungsfolge darin
larger-than = { $shown } ist größer als ein Mebibyte, und das braucht keine Übungsfolge
cannot-be-read = { $shown } kann nicht gelesen werden: { $said }
may-not-be-read = { $shown } darfst du nicht lesen
ask-its-owner = frag den, dem es gehört, oder kopier es in einen eigenen Ordner
empty-name = der Name einer Übungsfolge ist leer
list-shows = leadpipe list zeigt die mitgelieferten Übungsfolgen
there-is-with-txt = es gibt { $with-txt }: nimm .txt von ihrem Namen weg (der Dateimanager versteckt es vielleicht)
there-is-with-toml = es gibt { $with-toml }
there-is-toml-txt = es gibt { $with-toml }.txt: nimm .txt von ihrem Namen weg
built-in-called = die mitgelieferte Übungsfolge heißt { $name }
list-and-new = leadpipe list zeigt die mitgelieferten Übungsfolgen; leadpipe new schreibt eine zum Ändern
save-as-utf8 = wähle im Texteditor „Speichern unter“ und UTF-8 als Kodierung
saved-as-utf16 = { $name } ist als UTF-16 gespeichert, nicht als UTF-8
not-plain = { $name } ist kein einfacher Text, also keine Übungsfolge
text-editor =
    eine Übungsfolge schreibt man mit einem Texteditor; eine Textverarbeitung kann als einfachen Text in UTF-8
    speichern
not-utf8 = { $name } ist nicht als UTF-8 gespeichert: Reihe { $line } enthält einen Buchstaben in anderer Kodierung
no-command = einen Befehl { $typed } gibt es nicht
help-shows-commands = leadpipe --help zeigt die Befehle
no-option = eine Option { $typed } gibt es hier nicht
one-too-many = „{ $typed }“ ist hier eins zu viel
help-shows = { $command } --help zeigt, was es gibt
is-missing = { $missing } fehlt
write-usage = schreib { $usage }
says-nothing = { $name } sagt nichts
option-cannot-be = { $name } kann nicht „{ $value }“ sein
right-after-option = schreib es unmittelbar hinter die Option
left-out-because = ausgelassen: { $why }
some-of = { $there } von { $all }
suggestion = Ein Vorschlag: { $player } { $advice }.
tracks-of-players = { $tracks } für { $players }.
tracks-of-players-made = { $tracks } für { $players }: { $made }.
lines-rendered = { $tracks } für { $players }: { $rendered } von { $lines } gerendert
files-packed = , { $anew } von { $files } gepackt
others-shared = , die anderen geteilt oder schon da.
tracks-stay =
    { $others } früherer Läufe, jetzt nicht verlangt und nicht auf den Seiten: { $whose }. Sie bleiben, bis du sie
    wegnimmst.
strangers-folders =
    In { $folder } { $n ->
        [one] ist { $n } Ordner
       *[other] sind { $n } Ordner
    } von Spielern, die nicht in dieser Liste stehen: { $names }.
no-tracks-for = keine Aufnahmen für { $players }
marks-of-players = Zeichen von { $players }
not-understood-in-list = was in der Liste nicht verständlich ist
left-out-parts = ausgelassen: { $parts }
and-more-of = { $said } und { $more } weitere
gets-folder = { $player } bekommt den Ordner { $given }: { $wanted } gehört { $owner }.
pencil-unfit = der Bleistift passt nicht
pencil-unread = der Bleistift kann nicht gelesen werden
routine-faulty = Fehler in der Übungsfolge
routine-unread = die Übungsfolge kann nicht gelesen werden
cannot-be-played-by = { $group }: { $routine } ist nicht spielbar ({ $name }): { $problem }
group-cannot = eine Übungsfolge, die ihre Gruppe nicht zusammen spielen kann
played-in-turn = Hinweis: { $group }: Zeile { $number } „{ $line }“ wird abwechselnd gespielt: erst { $turns }
nobody-can-play =
    Hinweis: { $group }: Zeile { $number } „{ $line }“ fällt weg: niemand in der Gruppe kann sie auf seiner Stufe
    spielen
rests-in-line = Hinweis: { $group }: { $instrument } pausiert in Zeile { $number } „{ $line }“: { $problem }{ $hint }
part-of-class = ein Teil einer Klasse wird 2/5 geschrieben: der zweite von fünf
nothing-rendered = es wurde nichts gerendert, weil in dieser Klasse nicht alles ist, wie es sein sollte
keep-going-others = --keep-going rendert die anderen
stopped-class = Angehalten; unfertige Aufnahmen wurden entfernt, fertige bleiben.
folder-no-list = { $shown } ist ein Ordner, keine Klassenliste
name-the-list = nenne die Datei der Liste darin
list-is-yours = eine Klassenliste ist eine eigene Textdatei; README.md zeigt eine
has-no-tracks = { $player } hat keine Aufnahmen: { $why }.
player-warning = { $player }: { $warning }.
no-name-for-report = { $file } ist kein Name für eine Datei
name-the-report = nenne den Bericht nach der Klasse: --report tuesday.html
report-is-in = Der Bericht ist in { $file }.
player-number = Spieler { $n }
player-not-understood = in der Klassenliste nicht verständlich
routine-errors = Fehler in der Übungsfolge
take-unplayable = eine Fassung, die nicht gespielt werden kann
record-unread = ein Verzeichnis, das nicht gelesen werden kann
with-marks = { " " }mit { $marks }
player-summary = { $player }: { $title }{ $marks }, { $tracks }: { $said }.
warning-row = { " " } Warnung: { $warning }
more-row = { " " } und { $more } weitere
nothing-found = { $players }: nichts gefunden.
gets-no-tracks = { $name } bekommt keine Aufnahmen: { $why }
figures-title = { $title }, { $instrument }, { $lines }
ratio-to-one = { $ratio } zu 1
ages-are = ein Alter ist 8-10, 11-13, 14-16 oder adult
so-many-faults = { $name }: { $faults }.
rest-to-playing-leaves = Das Verhältnis von Pause zu Spiel lässt aus, was nach der letzten Pause gespielt wird.
with-marks-of = { " " }mit { $marks } aus { $name }
check-tally = { $name }{ $with }: { $tally }.

## Überschriften von Tabellen

heading-player = Spieler
heading-routine = Übungsfolge
heading-marks = Zeichen
heading-tracks = Aufnahmen
heading-length = Länge
heading-lines-rendered = Zeilen gerendert
heading-clicks-a-minute = Schläge pro Minute
heading-playing = Spiel
heading-rest = Pause
heading-rest-to-playing = Pause zu Spiel
heading-lowest = Tiefster
heading-highest = Höchster
heading-breaths = Atemzeichen
heading-level = Stufe
heading-name = Name
heading-easy-up-to = Leicht bis
heading-from-age = Ab Jahren
heading-purpose = Zweck
heading-track = Aufnahme
heading-size = Größe
heading-instrument = Instrument
heading-clef = Schlüssel
heading-half-steps = Halbtöne
heading-from = Von
heading-to = Bis
heading-levels-1-to-5 = Stufen 1 bis 5
none = keine
made-unchanged = unverändert
made-new = neu
made-again = erneut
n-unchanged = { $n } unverändert
n-new = { $n } neu
n-again = { $n } erneut
tracks-unchanged = { $n } unverändert
tracks-rendered = { $n } gerendert
tracks-again = { $n } erneut gerendert: { $rendered } von { $lines }
no-longer-as-rendered = ; { $tracks } nicht mehr so, wie gerendert
n-other-players = { $n } andere Spieler
clef =
    { $clef ->
        [treble] Violin
        [bass] Bass
       *[other] { $clef }
    }
sounds-lower = { $n } tiefer
sounds-higher = { $n } höher
sounds-as-written = wie notiert
name-and-why = { $name } ({ $why })
runs-leftwards = „{ $text }“ wird von rechts nach links geschrieben, und das kann das Blatt nicht zeichnen
write-rightwards =
    schreib es für das Blatt in Buchstaben, die von links nach rechts laufen: lateinisch, griechisch oder kyrillisch;
    für Aufnahmen ist nichts zu ändern
