# Wie viele, wie weit, das wievielte: wie es der Lehrkraft gesagt wird. Intervalle und Schläge stehen im Akkusativ.

n-advice =
    { $n ->
        [one] { $n } Rat
       *[other] { $n } Ratschläge
    }
n-bars =
    { $n ->
        [one] { $n } Takt
       *[other] { $n } Takte
    }
n-beats =
    { $n ->
        [one] { $n } Schlag
       *[other] { $n } Schläge
    }
n-errors = { $n } Fehler
n-faults = { $n } Fehler
n-files =
    { $n ->
        [one] { $n } Datei
       *[other] { $n } Dateien
    }
n-half-steps =
    { $n ->
        [one] { $n } Halbton
       *[other] { $n } Halbtöne
    }
n-hours =
    { $n ->
        [one] { $n } Stunde
       *[other] { $n } Stunden
    }
n-lines =
    { $n ->
        [one] { $n } Zeile
       *[other] { $n } Zeilen
    }
n-marks = { $n } Zeichen
n-minutes =
    { $n ->
        [one] { $n } Minute
       *[other] { $n } Minuten
    }
n-more-notes =
    { $n ->
        [one] { $n } weitere Note
       *[other] { $n } weitere Noten
    }
n-notes =
    { $n ->
        [one] { $n } Note
       *[other] { $n } Noten
    }
n-other-phrases =
    { $n ->
        [one] { $n } andere Phrase
       *[other] { $n } andere Phrasen
    }
n-other-tracks =
    { $n ->
        [one] { $n } andere Aufnahme
       *[other] { $n } andere Aufnahmen
    }
n-pages =
    { $n ->
        [one] { $n } Seite
       *[other] { $n } Seiten
    }
n-partials =
    { $n ->
        [one] { $n } Naturton
       *[other] { $n } Naturtöne
    }
n-passes =
    { $n ->
        [one] { $n } Durchgang
       *[other] { $n } Durchgänge
    }
n-players = { $n } Spieler
n-seconds =
    { $n ->
        [one] { $n } Sekunde
       *[other] { $n } Sekunden
    }
n-things =
    { $n ->
        [one] { $n } Sache
       *[other] { $n } Sachen
    }
n-tracks =
    { $n ->
        [one] { $n } Aufnahme
       *[other] { $n } Aufnahmen
    }
n-unfinished-files =
    { $n ->
        [one] { $n } unfertige Datei
       *[other] { $n } unfertige Dateien
    }
n-warnings =
    { $n ->
        [one] { $n } Warnung
       *[other] { $n } Warnungen
    }
interval =
    { $n ->
        [0] denselben Ton
        [1] einen Halbton
        [2] einen Ganzton
        [3] eine kleine Terz
        [4] eine große Terz
        [5] eine Quarte
        [6] einen Tritonus
        [7] eine Quinte
        [8] eine kleine Sexte
        [9] eine große Sexte
        [10] eine kleine Septime
        [11] eine große Septime
        [12] eine Oktave
        [13] eine kleine None
        [14] eine große None
        [15] eine kleine Dezime
        [16] eine große Dezime
        [17] eine Undezime
        [18] eine Oktave und einen Tritonus
        [19] eine Duodezime
        [20] eine Oktave und eine kleine Sexte
        [21] eine Oktave und eine große Sexte
        [22] eine Oktave und eine kleine Septime
        [23] eine Oktave und eine große Septime
        [24] zwei Oktaven
       *[other] { $n } Halbtöne
    }
nth-in-figures = { $n }.
nth-written-out = { $n }.
list-or = { $most } oder { $last }
list-more = { $most } und { $more } weitere
no-beats = nichts
half-a-beat = einen halben Schlag
third-of-a-beat = ein Drittel Schlag
quarter-of-a-beat = einen Viertelschlag
part-of-a-beat = { $n }/{ $d } Schlag
one-beat = einen Schlag
some-beats = { $n } Schläge
beats-and-a-part = { $n } { $a }/{ $b } Schläge
whose-breath =
    { $age ->
        [adult] Erwachsenen
       *[other] Jugendlichen von { $age } Jahren
    }
list-all = { $most } und { $last }
writes-four-valves =
    Ventile haben die Nummern 1, 2, 3, 4 und werden mit Bindestrichen verbunden: [2-4]; ohne Ventile ist [0]
writes-thumb-valve =
    Ventile haben die Nummern 1, 2, 3 und werden mit Bindestrichen verbunden: [1-3]; ohne Ventile ist [0], und T ist
    der Daumen: [T0], [T12]
writes-valves = Ventile haben die Nummern 1, 2, 3 und werden mit Bindestrichen verbunden: [1-3]; ohne Ventile ist [0]
writes-attachment =
    Zugpositionen haben die Nummern 1 bis 7; [2+] ist die zweite, etwas kürzer, für den siebten Naturton; das
    Quartventil ist T: [T1], [T2], [T3], [T5], [T6], [T7]
writes-positions =
    Zugpositionen haben die Nummern 1 bis 7: [4]; [2+] ist die zweite, etwas kürzer, für den siebten Naturton
