# Was das Skript der Seite sagt.

have-read = Das habe ich gelesen
before-playing = Vor dem Spielen

kept-needs-https = Spielt hier; um es auf dem Handy zu behalten, öffne es über eine https-Adresse.
kept-no-room = Auf dem Handy war kein Platz für alle Aufnahmen: Sie kommen aus dem Netz.
kept = Auf diesem Handy gesichert: Es spielt ohne Netz.
being-kept = Wird auf diesem Handy gesichert: Aufnahme { $kept } von { $of }.
not-kept = Es konnte auf diesem Handy nicht gesichert werden: { $why }

once-more = Noch einmal bis zum Ende, dann mit der Zeile weiter.
slower-percent = Langsamer { $percent }{ "\u00A0" }%
good-percent = Gut: { $percent }{ "\u00A0" }%
again = Noch einmal
loop-bar = Takt { $n }
loop-time = Durchgang { $n }, ganz
loop-line = Die ganze Zeile
looping = Immer wieder, jedes Mal nach einem Takt. Tippe nach einem guten Versuch auf „Gut“: Der nächste ist schneller.
touch-first = Tippe auf die erste Note
touch-last = Tippe auf die letzte Note
back = Zurück
from-note = Von Note { $note }
to-note = Bis Note { $note }

marks-not-kept = Dieses Handy behält deine Zeichen nicht: Sein Speicher für Seiten ist voll oder gesperrt. Sie bleiben hier, bis du die Seite schließt; schick sie vorher ab.
undo = Rückgängig
done-marking = Fertig
marks-everywhere = Zeichen in jeder Zeile
marks-of = Zeichen: { $title }
rub-out = Ausradieren
words = Eigene Worte
words-for-the-sheet = Für das Notenblatt
nickname = Dein Spitzname (darf leer bleiben)
percent-of-written = Prozent des notierten Tempos
make-mark = Eintragen
mark-example = Auf Englisch, zum Beispiel: rest 2 bars, tempo 60, half steps 0,-1,-2, tubes 0,2, drone Bb3.
another-mark = Ein anderes Zeichen, in Worten
touch-a-note = Tippe auf eine Note
breathe-after-it = Danach atmen
bend-it = Beugen
breath-after-note = nach Note { $note } atmen
bend-note = Note { $note } beugen
no-notes-to-mark = Diese Zeile hat keine Noten, an denen man etwas eintragen könnte.
stop-after = Aufhören nach
clicks-a-minute = { $tempo } Schläge pro Minute

file-too-large = Diese Datei ist zu groß für einen Bleistift.
file-is-routine = Das ist eine Übungsfolge, kein Bleistift. Deine Lehrkraft macht eine Seite daraus.
file-is-routine-of = Das ist eine Übungsfolge, „{ $title }“, kein Bleistift. Deine Lehrkraft macht eine Seite daraus.
file-is-no-pencil = Das ist kein Bleistift. { $why }
leave-my-marks = Meine Zeichen lassen, wie sie sind
pencil-with-marks = Der Bleistift von { $player } mit { $marks }.
nobodys-pencil-with-marks = Ein Bleistift ohne Namen mit { $marks }.
so-many-marks =
    { $n ->
        [one] 1 Zeichen
       *[other] { $n } Zeichen
    }
yours-is = Deiner ist der Bleistift von { $player }.
marks-new = Neu
mark-instead = { $mark }, statt „{ $words }“
marks-there = Du hast sie schon
marks-gone = Nur deine: Sie bleiben beim Hinzufügen und verschwinden beim Ersetzen
marks-left-out = Nicht für diese Übungsfolge: Sie fallen weg
add-them = Zu meinen Zeichen hinzufügen
replace-mine = Meine Zeichen durch sie ersetzen
use-these = Diese Zeichen verwenden
every-line = Jede Zeile

pencil = Bleistift
pencil-at = Bleistift: { $title }
send-marks = Meine Zeichen an meine Lehrkraft schicken
mark-every-line = In jeder Zeile eintragen
about-the-pencil = Hier langsamer, dort ein Atemzeichen: Deine Zeichen bleiben auf diesem Handy, bis du sie abschickst.
open-marks = Zeichen aus einer Datei öffnen
marks-unreadable = Zeichen, die dieses Handy für diese Übungsfolge aufbewahrt, waren nicht lesbar. Sie sind beiseitegelegt, und nichts wird darübergeschrieben.
save-unreadable = Als Datei für meine Lehrkraft sichern
throw-away = Wegwerfen
use-new-marks = Die Zeichen der neuen Seite statt meiner verwenden
marks-to-send = Zeichen: { $title }

guide = Führungsstimme
click = Klick
held-note = Bordun
volume = Lautstärke
volumes = Lautstärken
own-volume = Die Lautstärke regeln die Tasten des Handys.
player-broke = das Abspielen dieser Seite ist ausgefallen
load-again = lade die Seite neu
finished-tracks-play = Das Abspielen ist ausgefallen. Von jetzt an spielen die fertigen Aufnahmen: Tippe auf „Weiter“.
broke-alone = Das Abspielen ist ausgefallen. Lade die Seite neu.
no-engine-alone = Dieser Browser ist zu alt, um diese Seite abzuspielen. Nimm einen anderen, oder bitte deine Lehrkraft um die Aufnahmen.
finished-tracks = Fertige Aufnahmen zum Sichern

how-to-play = Wie du es spielst
slower = Langsamer
faster = Schneller
key = Tonart
busy = Dieses Handy ist beschäftigt. Wenn sich nichts ändert, lade die Seite neu.
tempo-now = { $tempo } Schläge pro Minute ({ $percent }{ "\u00A0" }%)
tempo-printed = Ein Tempo über den Noten gilt für 100{ "\u00A0" }%: Gespielt wird mit { $percent }{ "\u00A0" }% davon.
start-from-one = Ab Zeile 1 beginnen

go-on = Weiter
pause = Anhalten
try-again = Neuer Versuch
from-the-top = Von vorn
interrupted = Das Handy hat den Ton weggenommen, wie bei einem Anruf. Tippe auf „Weiter“, wenn du so weit bist.
silent-device = Aus diesem Handy kommt kein Ton. Schließ andere Apps, die etwas abspielen, sieh nach den Kopfhörern und tippe auf „Neuer Versuch“. Bleibt es still, lade die Seite neu.
silent-engine = Der Ton verspätet sich: Dieses Handy ist beschäftigt. Vielleicht kommt er noch; sonst tippe auf „Neuer Versuch“.
silent-network = Die Aufnahme kommt nicht an. Ist das Handy noch verbunden? Dann tippe auf „Neuer Versuch“.
which-time = { $n } von { $times }
ready = bereit
count = mitzählen
breathe = atmen
rest-left = Pause { $seconds }
listen = hör zu
your-turn = du bist dran
done = fertig
line-and-tempo = Zeile { $name }. { $tempo } Schläge pro Minute.
last-line-done = Das war die letzte Zeile. Du hast es geschafft.
next-is = Danach: { $name }
rest-then = { $seconds } Sekunden Pause. Danach: { $name }.
take-your-time = lass dir Zeit
im-ready = Ich bin so weit
hold-the-rest = Pause verlängern
rest-held = Die Pause dauert an. Tippe noch einmal, wenn du so weit bist.
