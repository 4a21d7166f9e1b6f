# Wie etwas gespielt werden soll, und warum es nicht geht.

tempo-expected = schreib Schläge pro Minute (72) oder Prozent des notierten Tempos (85%)
tempo-too-fine = ein Tempo hat höchstens drei Nachkommastellen; runde es
tempos-and-percent =
    Tempi gehen von { $slowest } bis { $fastest } Schläge pro Minute; Prozent des notierten Tempos enden mit %
    (85%); zwei Tempi trennt ein Komma
key-is-half-steps = eine Tonart ist eine Zahl von Halbtönen aufwärts oder abwärts (-2), höchstens { $farthest }
key-is-half-steps-or-name =
    eine Tonart ist eine Zahl von Halbtönen aufwärts oder abwärts (-2), höchstens { $farthest }, oder ein Name,
    englisch geschrieben: "B-flat major", Bb
stays-in-its-mode =
    „{ $title }“ steht in { $from }: transponiert bleibt es { $mode ->
        [minor] Moll
       *[major] Dur
    }
write-key = schreib --key "{ $tonic } { $mode }"
says-no-key = „{ $title }“ sagt nicht, in welcher Tonart es steht
write-the-key =
    schreib sie in den Kopf der Übungsfolge, wie der Spieler sie liest (key = "C major"), oder transponiere um
    Halbtöne (--key -2)
guide-expected = die Führungsstimme ist together, echo oder off
a-four-from-to = A4 liegt zwischen { $lowest } und { $highest } Hertz: 442
temperament-expected = die Stimmung ist equal, just oder horn
at-the-take = { $facts }
notice = Hinweis: Zeile { $number }: { $message }
line-and-name = Zeile { $number } „{ $name }“
would-come-to = bei { $take } käme { $whose } auf { $clicks } Schläge pro Minute
tempos-from-to = Tempi gehen von { $slowest } bis { $fastest } Schläge pro Minute
take-too-long =
    „{ $title }“ würde ({ $at }) { $lasts } oder länger dauern, und eine Aufnahme dauert höchstens vier Stunden
shorter-take = weniger times, half_steps oder tubes machen sie kürzer, und kürzere Pausen auch
nothing-fits = keine Zeile von „{ $title }“ passt ({ $at }) in den Umfang: { $instrument }
nearer-key = wähle eine Tonart, die näher an der notierten liegt
line-left-out = „{ $name }“ fällt weg: { $why }
pass-left-out = „{ $name }“ { $pass } fällt weg: { $why }
stays-in-its-key = „{ $name }“ bleibt in seiner Tonart, weil Griffe darin stehen
below-lowest = unter { $pitch }
above-highest = über { $pitch }
outside-compass = { $outside } liegt { $side }, außerhalb des Umfangs: { $instrument }
