# Was auf Blatt und Schaubild neben den Worten der Lehrkraft steht.

## Über einer Zeile

mouthpiece-alone = nur Mundstück
listen-first = erst zuhören, dann spielen
then-the-passes = dann { $passes };
the-last-pass = zuletzt { $words }
as-at-first = wie zu Beginn
from-the-note = { $what } ab { $note }
times-each = je { $times }

## Unter einer Zeile

rest-between-tempos = In jedem Tempo einmal; dazwischen Pause: { $lengths }.
then-rest = Dann Pause: { $length }.
no-rest-between = Keine Pause zwischen den Durchgängen.
after-the-first-time-rest = Nach dem ersten Durchgang { $bars } Pause, der Klick läuft weiter.
after-each-time-rest = Nach jedem Durchgang { $bars } Pause, der Klick läuft weiter.
after-the-first-time-rest-about = Nach dem ersten Durchgang { $least } bis { $most } Takte Pause, der Klick läuft weiter.
after-each-time-rest-about = Nach jedem Durchgang { $least } bis { $most } Takte Pause, der Klick läuft weiter.

## Kopf und Fuß

enough-to-begin = { $note } { $tube } reicht für den Anfang
enough-to-begin-described = { $note }, { $tube }, reicht für den Anfang
should-be-easy = { $note } sollte leichtfallen
should-be-easy-described = { $note }, der höchste Naturton, der leichtfallen sollte
fingerings-used = Griffe der vorkommenden Töne
positions-used = Zugpositionen der vorkommenden Töne
fingerings-described = Griffe: { $notes }
positions-described = Zugpositionen: { $notes }
its-shape = Der Verlauf: Tonhöhe und Zeit
before-you-play = Vor dem Spielen
page-number = { " " }· Seite { $page } von { $pages }

## An Noten

bend = beugen
third-slide-out = 3. Zug ausziehen
air = Luft
ku = ku
breathe-in = ein
breathe-out = aus
breathe-hold = halten

## Der Verlauf einer Übungsfolge

shape-easy = leicht
shape-stretch = fordernd
shape-beyond = zu hoch oder zu tief
shape-rest = Pause
shape-one-breath = auf einen Atem
shape-play = Spiel
shape-time = Zeit
shape-line = Zeile { $number } { $playing } Spiel, { $resting } Pause
shape-range = { $length }, von { $low } bis { $high }
shape-described = Tonhöhe und Zeit von { $title }, { $length }: { $lines }

## Eine Notenzeile in Worten

system = Zeile { $number }, { $name }: { $bars }
system-goes-on = Zeile { $number }, { $name }, Fortsetzung: { $bars }
meter = { $beats }/{ $unit }-Takt
triplet = Triolen-{ $value }
dotted = punktierte { $value }
note-value =
    { $division ->
        [1] Ganze
        [2] Halbe
        [4] Viertel
        [8] Achtel
        [16] Sechzehntel
        [32] Zweiunddreißigstel
       *[64] Vierundsechzigstel
    }
tied-to = übergebunden zu { $length }
slurred-to = gebunden zu { $note }
bent-to = gebeugt zu { $note }
with-fingering = { $note } mit { $fingering }
breath-after = { $note }, Atemzeichen
air-goes-on = weiter, { $length }
bar-of-rest = ein Takt Pause
rest-of = Pause { $length }

## Mit Bleistift

pencil-of = Mit den Bleistiftzeichen von { $player }
pencil-of-nobody = Mit Bleistiftzeichen
pencil-in-every-line = { $whose }; in jeder Zeile: { $marks }
