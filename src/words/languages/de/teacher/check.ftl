# Was die Prüfung findet.

placed = { $place } { $what }
in-quotes = „{ $name }“
the-nth-note = { $pitch }, die { $nth } Note
place-of-notes = { $line }: { $note }{ $pass }{ $more },
further-pass = , { $pass }
in-brackets = { " " }({ $what })
and-other-phrases = { " " }(und auch { $phrases } dieser Zeile)
air-from-to = von { $from }, bis { $to }, muss die Luft { $air } reichen
air-of-one-note = { $note }, braucht { $air } Luft
seconds-at = { $seconds } s bei { $clicks }
long-breath =
    { $line }{ $pass }: { $what }{ $others }; ein bequemer Atemzug reicht { $who } bei dieser Lautstärke etwa
    { $lasts } s
faster-or-softer = spiel es schneller oder leiser, oder lass eine Note weg: ein Atemzug würde die Bindung zerreißen
shorten-the-note = kürze die Note, oder spiel sie leiser oder schneller
breath-would-help = `breath` würde helfen nach { $places }
breath-after-more = , nach{ " " }
end-of-bar = { " " }(dem Ende von Takt { $bars })
after-note = der { $nth } Note, { $pitch }{ $bar }
above-reach = liegt über { $reach }, dem höchsten Ton, den die Übungsfolge anstrebt
write-it-within-reach = schreib ihn tiefer oder auf ein Rohr, auf dem er leicht ist; `reach` ist { $reach }
above-comfort = liegt höher, als mit { $top } als oberstem bequemen Ton bequem ist
write-it-lower =
    schreib ihn tiefer oder auf ein Rohr, auf dem er leicht ist; soll die Übungsfolge so weit hinauf, sag es in
    ihrem Kopf mit `reach`
early-stretch = geht schon im ersten Drittel des Spielens über { $top } hinaus, bevor die Lippen warm sind
move-the-line-back = setz die Zeile weiter nach hinten, oder lege sie tiefer
loud-stretch = geht über { $top } hinaus und ist lauter als { $stretch-loudest }
softer-stretch = schreib { $stretch-loudest } oder leiser, wo ein Ton fordert
much-stretch =
    { $part } % des Spielens gehen über { $top } hinaus: mehr als { $most } % ermüdet beim Einspielen die Lippen
more-comfort = schreib mehr Zeilen, die bequem bleiben, oder lege einige der fordernden tiefer
no-further = weiter als { $room } kann diese Zeile nicht
leave-tube-out = lass dieses Rohr aus, oder schreib höhere Töne in `open`
does-not-sound =
    klingt { $on } nicht: { $tube ->
        [position] auf dieser Zugposition
       *[tube] mit diesem Griff
    } klingen { $notes }
write-open-notes =
    schreib in `open` Naturtöne des offenen Rohrs ({ $notes }); die Zeile geht dann von selbst durch ihre Rohre
out-of-tune =
    ist der { $nth } Naturton { $of-tube }, { $cents } Cent zu { $side ->
        [flat] tief
       *[sharp] hoch
    }: den spielt niemand sauber
leave-partial-out = lass den { $nth } Naturton in `open` weg ({ $notes })
starts-the-pass = ist eine Beugung, beginnt aber den Durchgang: da ist kein Ton, von dem sie ausgeht
bend-after-breath = ist eine Beugung, kommt aber nach einem Atemzug: da ist kein Ton, von dem sie ausgeht
bend-after-rest = ist eine Beugung, kommt aber nach einer Pause: da ist kein Ton, von dem sie ausgeht
follow-right-after = lass sie unmittelbar auf { $from } folgen, oder lass `(bend)` weg und greif den Ton
bend-of-nothing = ist eine Beugung von { $from }, demselben Ton
bend-upwards = ist eine Beugung aufwärts von { $from }: Lippen beugen einen Ton abwärts, nicht aufwärts
bend-too-far = ist von { $from } um { $interval } abwärts gebeugt: weiter als der Halbton, den eine Lippe beugt
bend-a-half-step = beuge { $from } zu { $to }, oder lass `(bend)` weg und greif den Ton
bend-first = ist von { $from } gebeugt, bevor { $from } und { $to } gegriffen wurden
finger-it-first =
    erst greifen, dann beugen: spiel { $from } { $to } { $from } in einer früheren Zeile oder einem früheren
    Durchgang mit den Ventilen, damit das Ohr weiß, wohin die Lippe muss
of-position = der Zugposition { $tube }
of-fingering = von Griff { $tube }
outside-the-instrument = { $pitch } liegt außerhalb des Umfangs: { $instrument }
sounds-on = { $pitch } klingt { $on }
sounds-on-others =
    { $pitch } klingt { $on }; auch { $what ->
        [positions] in den Zugpositionen
       *[fingerings] mit den Griffen
    }: { $others }
wide-slur =
    { $place } ist auf einem Rohr von { $from } her gebunden und überspringt { $partials }: mit { $top } als
    oberstem Ton sollte man { $allowed } überspringen
no-more-than = nicht mehr als { $most }
by-the-partials = geh über die Naturtöne dazwischen, oder stoß den zweiten Ton an
pencil-cuts-rest = mit diesem Zeichen ist in { $whose } die Pause kürzer als das Spielen
the-routine = der Übungsfolge
take-the-mark-back =
    Lippen werden in der Pause stark: nimm das Zeichen zurück, oder schreib "same", das so lange pausiert, wie
    gespielt wird
in-passes = in { $passes }
and-notes = und { $notes }
and-notes-in-passes = und { $notes }, { $in-passes }
long-pass = ein Durchgang spielt { $lasts } lang ohne Pause
divide-it = teil ihn, mit ein paar Takten Pause oder auf zwei Zeilen, oder spiel ihn schneller
long-playing = die Lippen spielen { $lasts } lang, bevor eine Pause kommt, die so lang ist wie der letzte Durchgang
rest-sooner =
    früher pausieren: `between = "same"` oder eine Pause nach einer Zeile; die Pause ist so lang wie das Spielen
short-rest = { $line }: sie spielt { $plays } und pausiert { $rests }
rest-as-long = pausiere mindestens so lange, wie du spielst: `rest = "same"` und `between = "same"`
short-rest-whole = die Übungsfolge spielt { $plays } und pausiert dazwischen { $rests }
longer-rests = beim Einspielen ist die Pause mindestens so lang wie das Spielen: gib einigen Zeilen längere Pausen
with-reasons = { $line }: { $what }: { $reasons }
named-note = { $pitch } (die { $nth } Note{ $pass })
louder-than = { $note } ist lauter als { $than }
not-comfortable = { $note } liegt höher, als bequem ist
is-fast = { $note } ist schnell
begin-easily =
    beginn mit Atmen, mit dem Mundstück oder mit ein paar langen Tönen innerhalb einer Quinte, nicht lauter als mf
hard-beginning = die erste Zeile ist nicht leicht
goes-from-to = sie geht von { $low } bis { $high }, über { $interval }
only-climbs = die Übungsfolge steigt nur: in keiner Zeile liegt der höchste Ton tiefer als in der Zeile davor
come-down-again =
    komm unterwegs wieder herunter, und hör tiefer auf, als du warst: in den tiefen Tönen werden die Lippen locker
end-gently =
    hör mit ruhigen, tiefen, bequemen Tönen auf, { $end-loudest } oder leiser (ein Durchgang beginnt in mf, wenn
    kein Zeichen etwas anderes sagt)
hard-ending = die letzte Zeile ist kein sanftes Ende
bend-past-the-slide = ist eine Beugung, und der Zug ist schon ganz ausgezogen
bend-shorter = beuge einen Ton einer kürzeren Zugposition: eine Posaune beugt mit dem Zug
soft-tongue = ist von { $from } her gebunden, wo der Zug schmieren würde; sie wird deshalb weich gestoßen, ohne Lücke
soft-tongue-usual =
    das ist auf der Posaune üblich; für eine Bindung ohne Zunge nimm Töne auf einem anderen Naturton, gegen den der
    Zug sich bewegt
long-arm = liegt in Zugposition { $number }, und viele Arme von 8–10 Jahren enden davor
stop-the-walk = hör mit dem Gang auf, wo der Arm endet, oder nimm ein Quartventil oder eine kleinere Posaune
skip-none = keinen
of-a-line = { $line }: { $what }
pass-goes-to = „{ $name }“: der Durchgang { $pass } geht bis { $note }, { $place }
above-the-highest = über { $highest }, den höchsten Ton hier ({ $instrument })
between-pedal-and-lowest = zwischen { $open }, einem Pedalton, und { $lowest }, dem tiefsten anderen Ton ({ $instrument })
below-the-last-pedal = unter { $last }, den tiefsten Pedalton ({ $instrument })
below-the-lowest = unter { $lowest }, den tiefsten Ton ({ $instrument })
