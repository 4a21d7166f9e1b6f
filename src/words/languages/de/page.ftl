# Die Seite für Lernende, wie sie ohne ihr Skript ist.

for-the-instrument = Instrument: { $instrument }, bequem bis { $top }.
home-screen = Zum Startbildschirm hinzufügen
sheet-to-print = { $open }{ $sheet }{ $close } zum Ausdrucken.
list-of-tracks = { $open }Die Liste aller Aufnahmen{ $close } für ein Abspielprogramm, das Listen öffnet.
the-sheet = Das Notenblatt
the-sheet-in-a-key = Das Notenblatt, { $key }

## Die Karte vor dem ersten Ton

card-silent = Es ist nichts zu hören? Schalte den Stummschalter des Handys aus und die Lautstärke nach und nach höher.
card-wireless =
    Ein kabelloser Lautsprecher oder Kopfhörer spielt verspätet. Auch der Vorzähler kommt dann zu spät: Richte dich
    nach dem, was du hörst, nicht nach dem, was du siehst.
card-volume = Stell die Lautstärke so ein, dass du dein eigenes Instrument besser hörst als die Aufnahme.
card-more = Mehr zum gesunden Spielen

## Zeilen und Fassungen

the-lines =
    { $n ->
        [one] Die Zeile
       *[other] Die { $n } Zeilen
    }
purpose-of-a-line = Wofür: { $purpose }
not-played-here = Wird hier nicht gespielt.
play-from-line = Ab Zeile { $number } spielen{ $which }
save-this-track = Diese Aufnahme sichern
needs-script = Zum Abspielen braucht diese Seite JavaScript. Lesen lassen sich die Noten auch ohne.

## Beim Spielen

stand-playing = Beim Spielen
stand-more = Mehr
stand-again = Noch einmal
stand-pause = Anhalten
line-before = Zeile davor
next-line = Nächste Zeile
stand-slower = Langsamer
stand-faster = Schneller
again-and-again = Immer wieder
from-note-to-note = Von Note zu Note
on-with-the-line = Mit der Zeile weiter
stand-pencil = Bleistift
stop-playing = Aufhören
left-hand = Große Tasten für die linke Hand
back-to-the-music = Zurück zu den Noten

## Was man wählen kann

choose-guide-along = spielt mit
choose-guide-first = spielt vor und lässt dir dann die Zeit
choose-guide-silent = stumm
marks-tempo = Wie schnell
mark-slower = langsamer
mark-faster = schneller
marks-rest = Pause danach
marks-between = Pause zwischen den Durchgängen
mark-longer = länger
mark-shorter = kürzer
marks-articulation = Stoßen oder binden
mark-tongued = gestoßen
mark-slurred = gebunden
mark-both = beides
marks-times = Wie oft
marks-loudness = Wie laut
mark-softer = leiser
mark-louder = lauter
marks-drone = Bordun
mark-off = aus
mark-tonic = Grundton
mark-tonic-and-fifth = Grundton und Quinte
marks-guide = Führungsstimme
mark-guide-along = spielt mit
mark-guide-first = spielt vor
marks-whole-line = Die ganze Zeile
mark-leave-out = auslassen
mark-bend = Halbtöne abwärts beugen

## Die Seite als Text

practice-what = Was du spielst
practice-lines =
    { $n ->
        [one] { $n } Zeile
       *[other] { $n } Zeilen
    }, Instrument: { $instrument }. Spiel mit einer dieser Aufnahmen:
practice-columns = Aufnahme | Schläge pro Minute | Tonart | Führungsstimme | Länge | Spiel | Pause
practice-line-columns = Zeile | Tempo | Durchgänge | wie
practice-pencil = Dein Bleistift
practice-how-long = Wie lange
practice-take = { $take }: { $length }, davon { $playing } Spiel und { $rest } Pause
