# Bleistiftzeichen: was an ihnen nicht stimmt, und was getan wurde.

would-come-to-clicks = { $whose } käme auf { $clicks } Schläge pro Minute
no-rest-after-it = danach ist keine Pause
air-not-articulated = eine Atemzeile wird weder gebunden noch gestoßen
air-no-drone = eine Atemzeile hat keinen Bordun
played-once = sie wird nur einmal gespielt, also gibt es keine Pause dazwischen
mark-rest-after = markiere die Pause danach: rest = "longer"
no-rest-between-passes = zwischen den Durchgängen ist keine Pause
not-on-the-horn = sie wird nicht auf dem Instrument gespielt, also wird kein Griff gespart
mark-horn-line = markiere eine Zeile, die auf dem Instrument gespielt wird
mark-line-with-notes = markiere eine Zeile, die Noten hat
say-how-long = sag, wie lang sie sein soll: "2 bars", "20 s" oder "same"
fault-in-its-notes = mit diesem Zeichen steckt ein Fehler in ihren Noten: { $why }
mark-another-note = markiere eine andere Note
not-one-of-its =
    das gehört nicht zu ihren { $what ->
        [tubes] Griffen
       *[half-steps] Halbtönen
    }
they-are = es sind { $names }
stops-there = sie hört ohnehin nach { $step } auf
name-one-before = nenne etwas davor
goes-through-tubes = sie geht durch Griffe
name-tubes = nenne Griffe: tubes = ["0", "2", "1"]
no-pitch-to-move = da ist kein Ton zu versetzen
fingered-not-moved = eine Zeile mit Griffen kann nicht versetzt werden
mark-unfingered = markiere eine Zeile ohne Griffe
not-for-open-horn = sie ist nicht wie ohne Ventile geschrieben, hat also keine Griffe zur Wahl
move-by-half-steps = versetz sie um Halbtöne: half_steps = [0, -1, -2]
has-no-such-tube = diesen Griff gibt es nicht: { $tube } ({ $instrument })
its-tubes-are =
    es gibt { $what ->
        [position] die Zugpositionen
       *[tube] die Griffe
    } { $names }
names-no-lines = { $first }-{ $last } nennt keine Zeilen
smaller-first = die kleinere Zahl zuerst: { $last }-{ $first }
no-mark-to-make = da ist kein Zeichen zu machen
is-not-a-mark = „{ $said }“ ist kein Zeichen
marked-already = { $heading } ist schon markiert: { $words }
say-how-much = wo mehr gemeint ist, schreib wie viel: tempo 80%, times 5
take-that-back-first = nimm das erst zurück: beides geht nicht ({ $mark })
in-place-of = , statt { $mark }
marked = { $heading }: { $mark }{ $instead }.
has-not-this-mark = { $heading } hat dieses Zeichen nicht: { $mark }
has-no-marks = sie hat keine Zeichen
is-marked = markiert ist: { $marks }
has-no-mark = { $shown } hat kein Zeichen { $number }
it-has-so-many = es hat { $n }
not-of-its-own = dieses Zeichen steht nicht unter einem eigenen [[mark]], also bleibt { $shown }, wie es ist
take-out-by-hand = nimm es mit einem Texteditor heraus
taken-back = { $heading }: zurückgenommen: { $mark }.
every-line-left-out = jede Zeile ist ausgelassen
keep-a-line = behalte mindestens eine Zeile
no-line-number = in „{ $title }“ gibt es keine Zeile { $number }
name-line-by-name = es sind { $lines }; nenne die Zeile mit ihrem Namen
did-you-mean-line = war „{ $meant }“ gemeint?
teacher-may-have-changed = vielleicht hat die Lehrkraft sie geändert; die Zeilen haben die Nummern 1 bis { $n }
no-line-called = in „{ $title }“ gibt es keine Zeile „{ $name }“
lines-called = { $n } Zeilen heißen „{ $name }“
name-by-number = nenne sie mit ihrer Nummer: { $numbers }
line-number = Zeile { $n }
whole-routine = die ganze Übungsfolge
left-out-and-more = { $place } ist ausgelassen und hat noch ein Zeichen
one-of-the-two = behalte eins der beiden: eine ausgelassene Zeile braucht kein weiteres
mark-twice = { $place } hat dieses Zeichen zweimal
one-percentage = behalte eins; für eine größere Änderung schreib Prozent
marks-contradict = { $place } hat zwei Zeichen, die einander widersprechen
keep-one-of-kind = behalte ein { $kind }
the-first-mark = das erste
applies-to-no-line = dieses Zeichen passt zu keiner Zeile dieser Übungsfolge
name-its-line = nenne die Zeile, für die es ist
comes-last = „{ $name }“ ist die letzte, danach ist keine Pause
rest-of-line-before = markiere die Pause nach der Zeile davor
no-note-number = eine Note { $number } gibt es nicht: die Zeile hat { $notes }
notes-counted = gezählt werden Noten von 1 an, übergebundene als eine, Pausen gar nicht
breath-there = nach Note { $number } ist schon ein Atemzeichen
breath-elsewhere = ein Atemzeichen kann nach einer anderen Note stehen
cannot-bend = Note { $number } kann nicht gebeugt werden
what-bends =
    gebeugt wird abwärts von der Note unmittelbar davor, die einen Halbton höher liegt, ohne Atemzeichen oder Pause
    dazwischen
nothing-to-bend = hier ist nichts zu beugen
what-bends-short = gebeugt wird abwärts von der Note unmittelbar davor, die einen Halbton höher liegt
not-bent = Note { $number } ist nicht gebeugt
none-bent = keine ihrer Noten ist gebeugt
for-bent-notes = dieses Zeichen ist für Noten, die die Lehrkraft beugt; sie werden dann mit ihrem eigenen Griff gespielt
loud-throughout =
    die Zeile ist durchweg { $most }, und nichts ist { $way ->
        [louder] lauter
       *[softer] leiser
    }
mark-changing-line = markiere eine Zeile, die sich noch ändern kann
no-pencil-here = in dieser Datei ist kein Bleistift
pencil-begins = ein Bleistift beginnt mit format = 1; leadpipe pencil schreibt einen mit seinem ersten Zeichen
to-a-mark = zu einem Zeichen: setz es unter ein [[mark]]
mark-opened-twice = ein Zeichen beginnt mit [[mark]], mit zwei Klammern auf jeder Seite
mark-own-row = schreib [[mark]] in eine eigene Reihe
mark-opened = ein Zeichen beginnt mit [[mark]]
too-many-marks = dieser Bleistift hat { $marks } Zeichen; { $most-marks } sind das Meiste
rub-out-old = radiere aus, was nicht mehr gebraucht wird, oder ändere die Übungsfolge selbst
to-head-of-file = in den Kopf der Datei
mark-changes-nothing = dieses Zeichen ändert nichts
say-what = sag was: tempo = "slower", breath_after = 4, leave_out = true
nothing-of-whole = { $kind } sagt nichts über eine ganze Übungsfolge
name-line-for-it = nenne die Zeile: line = 3, oder ihren Namen in Anführungszeichen
line-named-so =
    eine Zeile wird mit ihrer Nummer genannt, von 1 bis { $most-lines }, oder mit ihrem Namen in Anführungszeichen
for-instance-line = zum Beispiel line = 3; für die ganze Übungsfolge lass line weg
date-written = ein Tag wird geschrieben: Jahr, Monat, Tag
for-instance-date = zum Beispiel date = 2026-11-25
leave-out-true = leave_out kann nur true sein
write-leave-out = schreib leave_out = true; um die Zeile wieder zu spielen, nimm das Zeichen zurück
percent-from = Prozent gehen von { $least-part }% bis { $most-part }%
tempo-mark-can-be = möglich sind "slower", "faster", Prozent des notierten Tempos ("85%") oder Schläge pro Minute (60)
rest-mark-can-be =
    möglich sind "longer", "shorter", Prozent ihrer Länge ("150%"), "same", "2 bars", "8 beats", "20 s" oder "none"
clicks-from = Schläge pro Minute gehen von { $slowest } bis { $fastest }, mit höchstens drei Nachkommastellen
tempo-cannot-be = tempo kann nicht { $shown } sein
mark-cannot-be = { $key } kann nicht "{ $shown }" sein
breath-names-no-note = breath_after nennt keine Note
count-from-one = zähle die Noten der Zeile von 1 an: breath_after = 4
breath-is-number = breath_after ist die Nummer einer Note
count-ties-as-one = zähle die Noten der Zeile von 1 an, übergebundene als eine, Pausen gar nicht: breath_after = 4
bend-hint = bend = true beugt jede Note, die einen Halbton unter der davor liegt; bend = 2 nur die zweite
finger-hint = finger = true greift jede Note, die notiert gebeugt ist; finger = 2 nur die zweite
true-or-number = { $kind } ist true oder die Nummer einer Note
stop-after-names = stop_after nennt, was als Letztes gespielt wird
stop-as-listed =
    wie die Zeile es aufzählt: eine Zahl aus half_steps (stop_after = -2), oder einer ihrer Griffe in
    Anführungszeichen (stop_after = "1-2")
of-a-marked-line = „{ $name }“: { $why }
say-which = sag, welche: rest longer, between longer
marks-are-words = Zeichen sind { $vocabulary }
no-number = „{ $text }“ ist keine Zahl
the-line-itself = sie
