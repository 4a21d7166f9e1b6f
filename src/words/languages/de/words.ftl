# Zahlen, Dauern, Tonarten und Töne, wie sie überall gesagt werden.

language-name = Deutsch
decimal-sign = ,
list-and = { $most } und { $last }
one-then-another = { $first }, dann { $second }
times =
    { $n ->
        [1] einmal
        [2] zweimal
        [3] dreimal
        [4] viermal
        [5] fünfmal
       *[other] { $n }-mal
    }
nth = { $n }.

## Dauern

seconds =
    { $n ->
        [one] { $n } Sekunde
       *[other] { $n } Sekunden
    }
minutes =
    { $n ->
        [one] { $n } Minute
       *[other] { $n } Minuten
    }
hours =
    { $n ->
        [one] { $n } Stunde
       *[other] { $n } Stunden
    }
minutes-on-a-clock = { $clock } Minuten
hours-on-a-clock = { $clock } Stunden
hours-and-minutes = { $hours } und { $minutes }
bars =
    { $n ->
        [one] { $n } Takt
       *[other] { $n } Takte
    }
beats =
    { $n ->
        [one] { $n } Schlag
       *[other] { $n } Schläge
    }
playing-less-than-a-second = etwa { $whole }, davon weniger als eine Sekunde gespielt
playing-so-many-of-them = etwa { $whole }, davon { $n } gespielt
playing-most-of-it = etwa { $whole }, davon das meiste gespielt
playing-part-of-it = etwa { $whole }, davon { $playing } gespielt
clicks-a-minute = { $tempo } Schläge pro Minute

## Tonarten

as-written = wie notiert
half-steps-up =
    { $n ->
        [one] { $n } Halbton höher
       *[other] { $n } Halbtöne höher
    }
half-steps-down =
    { $n ->
        [one] { $n } Halbton tiefer
       *[other] { $n } Halbtöne tiefer
    }
all-half-steps-up = { $sizes } Halbtöne höher
all-half-steps-down = { $sizes } Halbtöne tiefer
up-to-the-half-step = aufwärts bis zum { $n }. Halbton
down-to-the-half-step = abwärts bis zum { $n }. Halbton
up-short = { $n } höher
down-short = { $n } tiefer
# Noch mit den englischen Namen der Töne, wie sie auf dem Blatt stehen.
key-name =
    { $letter }{ $alter ->
        [1] #
        [-1] b
       *[0] { "" }
    }-{ $mode ->
        [minor] Moll
       *[major] Dur
    }

## Töne

note-name =
    { $letter }{ $alter ->
        [1] -Kreuz
        [-1] -Be
        [2] -Doppelkreuz
        [-2] -Doppel-Be
       *[0] { "" }
    }
on-a-line = { $pitch }, { $name } auf der { $nth } Linie
in-a-space = { $pitch }, { $name } im { $nth } Zwischenraum
on-top-of-the-staff = { $pitch }, { $name } über der obersten Linie
just-below-the-staff = { $pitch }, { $name } unter der untersten Linie
ledger-line-above = { $pitch }, { $name } auf der { $nth } Hilfslinie oben
above-a-ledger-line = { $pitch }, { $name } über der { $nth } Hilfslinie oben
ledger-line-below = { $pitch }, { $name } auf der { $nth } Hilfslinie unten
below-a-ledger-line = { $pitch }, { $name } unter der { $nth } Hilfslinie unten

## Spielen

on-valves = mit Griff { $tube }
on-the-open-horn = ohne Ventile
in-position = in Zugposition { $tube }
articulation =
    { $word ->
        [slurred] gebunden
        [tongued] gestoßen
       *[as-written] wie notiert
    }

## What stands before a message

severity =
    { $word ->
        [error] Fehler
        [warning] Warnung
       *[advice] Rat
    }
help = Hilfe
