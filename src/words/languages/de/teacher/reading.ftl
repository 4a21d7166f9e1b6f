# Was an einer Datei nicht stimmt, und was richtig wäre. Die Wörter der Datei bleiben englisch.

bar-is-empty = Takt { $number } ist leer
bar-line-parts = ein | trennt zwei Takte; ein stummer Takt in { $meter } wird mit Pausen geschrieben
a-row = jede Reihe ist ein Name, ein Gleichheitszeichen und ein Wert: tempo = 72; eine Bemerkung beginnt mit #
written-twice = { $key } steht zweimal da
keep-one-under = behalte eins; unter jedem { $opens } steht jeder Name höchstens einmal
has-no-value = { $key } hat keinen Wert
value-after-equals = schreib ihn hinter das Gleichheitszeichen: { $key } = { $example }
list-in-brackets = eine Liste steht in eckigen Klammern
write-list = schreib { $key } = [{ $bare }]
value-not-understood = dieser Wert ist nicht verständlich
how-values-stand =
    Text steht in geraden Anführungszeichen, eine Zahl allein, eine Liste in Klammern: { $key } = { $example }
text-over-rows = ein Text über mehrere Reihen steht in drei Anführungszeichen
open-with-three = beginn ihn mit { $key } = """ und schließ ihn mit """
list-not-closed = diese Liste ist nicht geschlossen
list-ends-with = sie endet mit einer eckigen Klammer: { $key } = { $example }
backslash = ein Rückstrich hat hier eine andere Bedeutung
backslash-twice = schreib ihn doppelt, \\, oder nimm einen Schrägstrich: /
text-not-closed = dieser Text ist nicht dort geschlossen, wo er es sein sollte
text-in-quotes = er beginnt und endet mit einem geraden Anführungszeichen, in einer Reihe: "…"
plain-hyphen = schreib den einfachen Bindestrich: { $key } = { $value }
longer-dash = dieses Minus ist ein längerer Strich
write-value = schreib { $key } = { $value }
decimal-point = eine Zahl hat hier einen Punkt, kein Komma
tempo-alone = ein Tempo ist eine Zahl allein, in Schlägen pro Minute
write-tempo = schreib tempo = { $number }
write-in-quotes = schreib { $key } = "{ $text }"
words-in-quotes = Worte stehen in geraden Anführungszeichen
too-much-in-row = in dieser Reihe steht mehr als ein Name und sein Wert
next-in-own-row = schreib den nächsten Namen in eine eigene Reihe; eine Bemerkung beginnt mit #
unseen-here = hier steht ein Zeichen, das man nicht sieht
delete-unseen = lösch es, und tipp neu, was darum steht
row-not-understood = diese Reihe ist nicht verständlich
opened-by = { $opens } in einer eigenen Reihe ist der Anfang
equals-parts = ein Gleichheitszeichen trennt einen Namen von seinem Wert: { $name } = { $value }
name-is-one-word = ein Name ist ein Wort
write-joined = schreib { $joined } = { $value }
too-large-file =
    diese Datei ist größer als 1 MiB, also { $what ->
        [routine] keine Übungsfolge
        [pencil] kein Bleistift
       *[other] keine Klassenliste
    }
few-thousand-letters = sie hat sonst ein paar tausend Zeichen; nenne die richtige Datei
no-format = diese Datei sagt nicht, welches Format sie hat
write-format = schreib format = 1 als erste Reihe
format-one-only = dieses leadpipe liest nur Format 1
later-format = schreib format = 1; eine Datei eines späteren Formats braucht ein späteres leadpipe
not-known-here = { $name } ist hier nicht bekannt
belongs = { $name } gehört { $place }
write-this = schreib { $meant }
did-you-mean = war { $meant } gemeint?
known-are = bekannt sind { $names }
words-in-quotes-for = { $key } wird als Text in geraden Anführungszeichen geschrieben
for-instance-quoted = zum Beispiel { $key } = "{ $example }"
is-empty = { $key } ist leer
not-plain-text = { $key } ist kein einfacher Text von höchstens { $longest-text } Zeichen
keep-to-a-sentence = beschränk dich auf einen Satz
whole-number-from = { $key } ist eine ganze Zahl von { $low } bis { $high }
for-instance-number = zum Beispiel { $key } = { $example }
more-than-three-decimals = { $key } hat mehr als drei Nachkommastellen
no-metronome = so fein ist kein Metronom; runde die Zahl
number-without-quotes = schreib die Zahl allein, ohne Anführungszeichen: { $key } = { $number }
for-instance-tempo = zum Beispiel { $key } = 72, ohne Anführungszeichen
meters-clicked =
    ein Schlag ist eine Halbe, ein Viertel oder ein Achtel: 2/2, 3/4, 4/4, 3/8, 6/8, 9/8, 12/8 und andere über 2, 4
    oder 8, bis 16 Schläge
no-meter = { $text } ist kein Takt, den leadpipe schlagen kann
cannot-be = { $key } kann nicht "{ $text }" sein
did-you-mean-quoted = war "{ $meant }" gemeint?
it-can-be = möglich sind { $words }
no-key = „{ $text }“ ist keine Tonart
how-keys-stand =
    eine Tonart ist ein Ton mit major (Dur) oder minor (Moll), wie der Spieler sie liest: "E-flat major", "F-sharp
    minor", oder kurz "Eb major", "F# minor"
same-sound = schreib "{ $instead }", das klingt gleich
no-pitch = { $text } ist kein Ton
how-pitches-stand = ein Ton ist ein Großbuchstabe und eine Oktave: G4, F#4, Bb3
to-the-head = in den Kopf der Datei, über das erste [[line]]
line-without-name = diese Zeile hat keinen Namen
write-line-name = schreib name = "Long tone" unter ihr [[line]]
has-no-key = { $kind } hat keine Tonart
leave-key-out = lass key weg
tempos-from-one = tempo enthält 1 bis { $most-tempos } Einträge
for-instance-tempos = zum Beispiel tempo = [80, 96, 112]: die Zeile einmal in jedem
has-no-tonic = { $kind } hat keinen Grundton
leave-tonic-out = lass tonic weg
notes-or-open = eine Zeile hat notes oder open, nicht beides
its-notes = ihre notes
notes-and-open = notes wird geschrieben, wie gespielt wird, open wie ohne Ventile
line-without-notes = diese Zeile hat keine Noten
write-notes-under = schreib notes = "{ $example }" darunter
no-tubes = { $what } hat keine Rohrlängen, kann also nicht open sein
write-as-notes = schreib sie als notes = "…"
write-each = schreib each = "{ $meant }"
no-drone-pitch = { $pitch } ist kein Ton für einen Bordun
name-drone-pitch = nenne einen klingenden Ton von E1 bis C7; Bb2 bis A3 tragen am besten
drone-can-be = möglich sind "tonic", "tonic and fifth", "off" oder ein klingender Ton wie "Bb3"
has-no-drone = { $kind } hat keinen Bordun
leave-drone-out = lass drone weg
not-articulated = { $kind } wird weder gebunden noch gestoßen
leave-articulation-out = lass articulation weg
articulations-from-one = articulation enthält 1 bis 10 Einträge
for-instance-articulations = zum Beispiel articulation = ["slurred", "tongued"]
rests-can-be =
    möglich sind "same" (so lange, wie gespielt wurde), "2 bars", "8 beats", "20 s" oder "none"; höchstens eine
    Stunde
a-line-on-the-horn = eine Zeile auf dem Instrument
a-mouthpiece-line = eine Mundstückzeile
a-breathing-line = eine Atemzeile
a-line-of-rest = eine Pausenzeile
quotes-never-closed = der Text, den diese Anführungszeichen beginnen, ist nie geschlossen: { $quotes }
quotes-once-more = schreib { $quotes } noch einmal, hinter sein letztes Wort; ein Anführungszeichen schließt ihn nicht
no-routine-here = in dieser Datei ist keine Übungsfolge
routine-begins = eine Übungsfolge beginnt mit format = 1 und title = "…"; leadpipe new schreibt eine für den Anfang
to-a-line = zu einer Zeile: setz es unter ein [[line]]
no-title = diese Übungsfolge hat keinen Titel
write-title = schreib title = "Second steps" in ihren Kopf
no-tempo = diese Übungsfolge hat kein Tempo
write-tempo-at-head = schreib tempo = 72 in ihren Kopf: Schläge pro Minute
no-language = { $tag } nennt keine Sprache
write-tag = schreib ihr Kürzel, etwa "de" für Deutsch, "en" für Englisch oder "pt-BR"
no-instrument-said = diese Übungsfolge sagt nicht, worauf sie gespielt wird
write-instrument = schreib instrument = "trumpet in B-flat" in ihren Kopf
no-instrument = { $name } ist kein Instrument, das leadpipe kennt
write-this-instrument = schreib instrument = "{ $meant }"; leadpipe list --instruments nennt alle
instruments-known =
    leadpipe list --instruments nennt die bekannten: Trompeten, Kornette, Hörner, Posaunen, Euphonien, Tuben
no-comfortable-top = diese Übungsfolge sagt nicht, für wen sie bequem ist
write-comfortable-top =
    schreib comfortable_top = "{ $second }" in ihren Kopf: der höchste Naturton, der mühelos anspricht
not-an-open-top = { $pitch } ist keiner der Naturtöne, die die Stufen trennen
tops-are = comfortable_top ist { $names }
outside-the = { $pitch } liegt außerhalb des Umfangs: { $instrument }
notes-dealt-with = Töne von { $low } bis { $high } werden behandelt
reach-below-top = reach, { $pitch }, liegt unter comfortable_top
the-comfortable-top = comfortable_top
what-reach-is = reach ist der höchste Ton, zu dem die Übungsfolge sich streckt; lass es weg, wenn es keinen gibt
no-lines = diese Übungsfolge hat keine Zeilen
write-a-line = schreib [[line]] in eine eigene Reihe und darunter name = "…" und notes = "…"
line-opened-twice = eine Zeile beginnt mit [[line]], mit zwei Klammern auf jeder Seite
line-own-row = schreib [[line]] in eine eigene Reihe
too-many-lines = diese Übungsfolge hat { $lines } Zeilen; { $most-lines } sind das Meiste
split-routine = teil sie in mehrere Übungsfolgen
line-opened = eine Zeile beginnt mit [[line]]
no-pedals = sein tiefster Ton ist { $low }; Pedaltöne werden nicht behandelt
one-pedal = sein tiefster Ton ist { $low }, und darunter der Pedalton { $open }
pedals = sein tiefster Ton ist { $low }, und darunter die Pedaltöne { $open } bis { $last }
bend-follows =
    eine Beugung geht von einem Ton abwärts und folgt hier { $what ->
        [breath] auf ein Atemzeichen
        [rest] auf eine Pause
       *[nothing] auf nichts
    }
bend-right-after = setz den Ton, von dem sie ausgeht, unmittelbar davor, einen Halbton höher
bend-has-position = eine Beugung hat die nächste Zugposition nach der der Note davor
bend-keeps-valves = eine Beugung behält die Ventile der Note davor
leave-fingering-out = lass ihren Griff weg
below-instrument = { $pitch } liegt unter dem Umfang, bei den Pedaltönen: { $instrument }
above-instrument = { $pitch } liegt über dem Umfang: { $instrument }
no-open-note =
    { $pitch } ist kein Naturton { $open ->
        [position] der ersten Zugposition
       *[tube] des Instruments ohne Ventile
    }
open-is-written =
    open = "…" wird mit den Tönen { $notes } geschrieben und durch die { $tube ->
        [position] Zugpositionen
       *[tube] Griffe
    } geführt
slur-over-rest = eine Bindung über eine Pause
slur-starts = die Bindung beginnt hier
close-slur-before-rest = schließ die Bindung mit ) vor der Pause
tie-without-note = ein Haltebogen ohne Note davor
tie-after-rest = ein Haltebogen nach einer Pause
longer-rest = eine längere Pause ist ein weiteres rest:…
breath-before-tie = ein Atemzeichen vor einem Haltebogen
the-breath = das Atemzeichen
tied-is-one = eine übergebundene Note ist eine Note: atme danach, oder wiederhol den Ton
tie-lengthens = tie verlängert die Note unmittelbar davor: G4:whole tie:half
all-breath = eine Atemzeile ist nichts als Atem
write-in-half = schreib stattdessen in:half
two-breaths = zwei Atemzeichen an einer Stelle
the-first-breath = das erste
keep-one = behalte eins
breath-after-rest = ein Atemzeichen nach einer Pause
breathe-in-rest = lass es weg: in einer Pause atmet jeder
breath-before-first = ein Atemzeichen vor der ersten Note
breathe-in-count = lass es weg: beim Einzählen atmet jeder
leads-wrong = { $word } führt von { $from } zu { $to }
lead-to-louder =
    es muss zu etwas { $way ->
        [louder] Lauterem
       *[softer] Leiserem
    } führen
leads-over-nothing = { $word } hat keine Note, über die es führt
leads-here = es führt hierher
notes-between = setz die Noten zwischen { $word } und { $to }
leads-nowhere = das führt zu keiner Lautstärke
dynamic-after = setz die Lautstärke, zu der es führt, hinter seine Noten: cresc C4:half E4:half f
slur-of-one = eine Bindung verbindet zwei oder mehr Noten
leave-slur-out = lass slur( und sein ) weg, oder nimm die nächste Note mit hinein
empty-triplet = eine Triole, in der nichts steht
leave-triplet-out = lass triplet( und sein ) weg
triplet-not-full = diese Triole ist nicht voll
triplet-is = eine Triole ist drei in der Zeit von zwei: triplet( C4:eighth D4:eighth E4:eighth )
rest-line-notes = eine Pausenzeile hat keine Noten
write-rest-whole = schreib rest:whole, oder sag on = "horn"
line-holds-none =
    in dieser Zeile ist { $what ->
        [breath] kein Atemzug
       *[note] keine Note
    }
write-one = schreib mindestens eine: G4:half
curly-quotes = geschwungene Anführungszeichen
write-straight = schreib gerade: "{ $text }"
a-curly-quote = ein geschwungenes Anführungszeichen
close-straight = schließ den Text mit einem geraden: "
list-ends = sie endet mit einer eckigen Klammer: half_steps = [0, -1, -2]
too-deep = Klammern oder Punkte ineinander, tiefer als irgendeine Übungsfolge geht
one-pair = eine Liste ist ein Paar Klammern: half_steps = [0, -1, -2]
tubes-not-half-steps = eine Zeile auf Rohrlängen wird durch ihre tubes geführt, nicht durch half_steps
fingerings-not-half-steps = eine Zeile mit Griffen kann nicht durch half_steps geführt werden
air-not-half-steps = eine Atemzeile hat keinen Ton, den half_steps führen könnten
rest-not-half-steps = eine Pausenzeile hat keinen Ton, den half_steps führen könnten
leave-half-steps-out = lass half_steps weg
tubes-want-open = tubes führen eine Zeile, die wie ohne Ventile geschrieben ist
write-as-open = schreib ihre Noten als open = "…", mit Naturtönen ohne Ventile
entries-from-one = { $key } enthält 1 bis { $most-steps } Einträge
for-instance-entries = zum Beispiel { $key } = { $example }
half-steps-from = half_steps sind ganze Zahlen von -{ $furthest-move } bis { $furthest-move }
for-instance-half-steps = zum Beispiel half_steps = [0, -1, -2]: wie notiert, dann jedes Mal einen Halbton tiefer
no-tube = { $shown } ist keine Rohrlänge
write-tube = schreib "{ $tube }", in Anführungszeichen
tubes-are-named =
    Rohrlängen heißen nach { $what ->
        [slide] ihren Zugpositionen
       *[valves] ihren Ventilen
    }, in Anführungszeichen: "{ $names }"
b-or-b-flat = { $head }: H oder B? andere Noten dieser Datei haben deutsche Namen
b-is-natural =
    hier ist { $head } das deutsche H; wo das deutsche B gemeint ist, schreib { $flat }. Mit names = "german" im
    Kopf liest leadpipe deutsche Namen
here-and-more =
    hier und noch { $more }-mal in dieser { $of ->
        [file] Datei
       *[line] Zeile
    }
stray-square-bracket = eine eckige Klammer, die zu keinem Griff gehört
fingering-after-note = ein Griff steht in Klammern unmittelbar hinter seiner Note: G4:half [1-3]
belongs-to-air = { $head } gehört in Atemzeilen
air-says-on = eine Atemzeile sagt on = "air"
delete-it = lösch es
type-anew = lösch das Wort und tipp es neu: { $seen }
air-no-dynamics = eine Atemzeile hat keine Lautstärken
air-holds = sie enthält in, out, hold und rest, jedes mit seiner Länge: in:whole out:whole
note-in-air = { $pitch } ist eine Note, und das ist eine Atemzeile
after-no-note =
    { $what ->
        [fingering] ein Griff
       *[mark] { $what }
    } steht hinter keiner Note
marks-follow = Zeichen und Griffe folgen der Note, zu der sie gehören: F#4:half (bend)
not-with-mark-before = ({ $word }) kann nicht bei dem Zeichen davor stehen
keep-one-of-two = behalte eins der beiden
no-valves = ein Mundstück hat keine Ventile
fingering-or-horn = lass den Griff weg, oder spiel die Zeile auf dem Instrument
tubes-finger = eine Zeile auf Rohrlängen hat ihre Griffe aus tubes
fingering-or-notes = lass den Griff weg, oder schreib die Zeile als notes = "…"
one-fingering = eine Note hat einen Griff
triplet-over-bar = eine Triole kann nicht über einen Taktstrich gehen
triplet-starts = die Triole beginnt hier
close-triplet = schließ sie vor dem Taktstrich, und öffne danach eine neue
opens-nothing = eine Klammer, die nichts öffnet
group-not-known = { $word }( ist nicht bekannt
tie-or-slur =
    tie steht hinter seiner Note und verlängert sie: D4:whole tie:half; Noten verschiedener Höhe verbindet slur( … )
did-you-mean-group = war { $meant }( gemeint?
say-which-group = sag, was es ist: slur( … ) oder triplet( … )
write-a-group = schreib slur( … ) oder triplet( … )
group-in-group =
    { $word ->
        [slur] eine Bindung in einer Bindung
       *[triplet] eine Triole in einer Triole
    }
first-group-starts = die erste beginnt hier
close-first-group = schließ die erste mit ), bevor du eine neue öffnest
air-no-slurs = eine Atemzeile hat keine Bindungen
leave-brackets-out = lass slur( und sein ) weg
closes-nothing = eine schließende Klammer, und nichts ist offen
groups-are-closed = slur( und triplet( werden je mit einem ) geschlossen
slur-never-closed = diese Bindung ist nie geschlossen
triplet-never-closed = diese Triole ist nie geschlossen
close-after-last = setz ein ) hinter ihre letzte Note
no-commas = Noten werden durch Leerzeichen getrennt, nicht durch Kommas
commas-out = lass die Kommas weg; wo ein Atemzeichen gemeint ist, schreib das Wort breath
has-no-length = { $head } hat keine Länge
tie-names-length = tie nennt seine eigene Länge: tie:quarter
write-quarter = schreib { $head }:quarter, dann sind auch die Noten danach, die keine Länge nennen, Viertel
capital-letter = Töne werden mit großem Anfangsbuchstaben geschrieben
h-is-german = H ist der deutsche Name von B
b-is-bb = schreib { $meant }; das deutsche B ist hier Bb. Oder schreib names = "german" in den Kopf
german-name = { $written } ist ein deutscher Name
german-endings = schreib { $meant }: is ist #, es oder s ist b, H ist B. Oder schreib names = "german" in den Kopf
syllable-is = { $written } ist hier { $meant }
syllables-are =
    schreib { $meant }: do re mi fa sol la si sind C D E F G A B, und C4 ist das C auf der ersten Hilfslinie unten
no-octave = { $name } sagt nicht, in welcher Oktave
octave-after = die Oktave steht hinter dem Vorzeichen
write-octave-after = schreib { $letter }{ $accidental }{ $octave }
no-doubles = Doppelkreuze und Doppel-Be werden nicht benutzt
same-valve = schreib { $natural }, das ist derselbe Griff
not-written-so = { $head } ist nicht, wie ein Ton hier geschrieben wird
no-such-octave = { $head } liegt in einer Oktave, die kein Blechbläser liest
octaves-numbered = Oktaven zählen von C4 an, auf der ersten Hilfslinie unten; G4 ist das G auf der zweiten Linie
write-one-of = schreib { $places }
no-mark = ({ $word }) ist kein Zeichen für eine Note
legato-is = voll ausgehalten und weich gestoßen ist (legato)
write-accent = schreib (accent)
write-staccato = schreib (staccato)
fingering-in-square = ein Griff steht in eckigen Klammern: [{ $joined }]
did-you-mean-mark = war ({ $mark }) gemeint?
marks-are = hinter einer Note können stehen: (bend), (staccato), (legato), (accent), (air) oder (ku)
no-length-after-colon = { $head } hat hinter dem Doppelpunkt keine Länge
write-head-quarter = schreib { $head }:quarter
no-note-value = { $text } ist kein Notenwert
tied-by-tie = zwei Noten verbindet das Wort tie: { $head }:{ $first } tie:{ $first }
blank-parts = ein Leerzeichen trennt zwei Noten: { $head }:{ $first } { $second }
no-double-dots = es gibt keine doppelten Punkte; binde den Rest an: { $head }:{ $undotted }. tie:…
dot-after-value = der Punkt steht hinter dem Wert: { $head }:{ $undotted }.
write-value-dot = schreib { $head }:{ $meant }{ $dot }
values-are =
    Werte sind whole (Ganze), half (Halbe), quarter (Viertel), eighth (Achtel), sixteenth (Sechzehntel), und
    punktiert half. und so weiter
no-fingering =
    { "[" }{ $text }] ist { $what ->
        [position] keine Zugposition
       *[fingering] kein Griff
    }
write-fingering = schreib [{ $meant }]
fingerings-are =
    Ventile haben Nummern und werden mit Bindestrichen verbunden: [1-3]; ohne Ventile ist [0]; Zugpositionen haben
    die Nummern 1 bis 7
bar-off =
    Takt { $number } ist um { $off } zu { $which ->
        [short] kurz
       *[long] lang
    }
bar-holds = ein Takt in { $meter } hat { $whole }; dieser hat { $held }
pickup = { $holds }; ein Auftakt wird als ganzer Takt geschrieben, der mit Pausen beginnt
note-values =
    { $n ->
        [one] { $figures } { $value ->
            [half] Halbe
            [quarter] Viertel
            [dotted-quarter] punktiertes Viertel
           *[eighth] Achtel
        }
       *[other] { $figures } { $value ->
            [half] Halbe
            [quarter] Viertel
            [dotted-quarter] punktierte Viertel
           *[eighth] Achtel
        }
    }
small-number =
    { $n ->
        [1] ein
        [2] zwei
        [3] drei
        [4] vier
        [5] fünf
       *[other] { $n }
    }
tempo-bounds = { $key } ist eine Zahl von Schlägen pro Minute, von { $slowest } bis { $fastest }
too-many-accidentals =
    „{ $text }“ hätte { $accidentals } { $sign ->
        [sharps] Kreuze
       *[flats] Be
    }, und eine Tonart hat höchstens { $most }
write-meter = schreib meter = "{ $meter }"
not-understood = { $word } ist nicht verständlich
write-small = schreib { $small }
bracket-after = die Klammer steht unmittelbar dahinter: { $head }( … )
accent-after-note = ein Akzent steht hinter seiner Note: G4:half (accent)
single-bar-line = ein Taktstrich ist ein einzelnes |; eine Wiederholung ist times = 2 bei der Zeile
air-line-holds = eine Atemzeile enthält in, out, hold und rest: in:whole out:whole
note-is = eine Note ist ihr Ton und ihre Länge: G4:half
head-not-understood = { $head } ist nicht verständlich
in-or-out = { $head } sagt nicht, ob ein- oder ausgeatmet wird
write-in-or-out = schreib in:{ $value } oder out:{ $value }
breath-no-length = ein Atemzeichen hat keine Länge: seine Zeit geht von der Note davor ab
breath-or-rest = schreib breath; Stille schreibt man rest:{ $value }
write-breath = schreib breath
in-round-brackets = es steht in runden Klammern hinter seiner Note: G4:half({ $mark })
unslurred-is-tongued = was in keinem slur( … ) steht, wird gestoßen
slurred-in-slur = gebundene Noten stehen in slur( … )
repeat-is-times = eine Wiederholung ist times = 2, in einer eigenen Reihe unter der Zeile
colon-joins = ein Doppelpunkt verbindet eine Note und ihre Länge: { $head }:{ $value }
colon-no-blanks = ein Doppelpunkt verbindet eine Note und ihre Länge, ohne Leerzeichen
write-head-value = schreib { $head }:{ $value }
length-without-note = { $value } ist eine Länge ohne Note
colon-joins-length = ein Doppelpunkt verbindet eine Note und ihre Länge: G4:{ $value }
not-in-names = { $written } gehört nicht zu den Namen, die diese Datei für ihre Noten nennt
