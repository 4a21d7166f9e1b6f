# Wie eine Aufnahme gespielt wird: auf der Seite, und wie Abspielgeräte sie zeigen.

on-the-mouthpiece = Auf dem Mundstück.
without-the-horn = Atmen, ohne Instrument.
the-others-play = Mitzählen: Die anderen spielen.
count-while-they-play = Mitzählen, während diese spielen: { $names }.
lasts = Dauert { $length }.
times-through = { $times } Durchgänge, { $length }.
then-rest-for = Dann { $length } Pause.
then-done = Dann hast du es geschafft.
open-horn = ohne Ventile
take-guide =
    { $mode ->
        [echo] Führungsstimme spielt vor
        [off] ohne Führungsstimme
       *[together] Führungsstimme spielt mit
    }
# Ein Kapitel: eine Zeile in mehreren Tempi.
chapter-at = { $label }, Tempo { $tempo }
# Eine Stimme allein.
part-alone =
    { $take }, nur { $part ->
        [click] Klick
        [drone] Bordun
       *[guide] Führungsstimme
    }
