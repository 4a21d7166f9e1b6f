# Welche mitgelieferte Übungsfolge zu einem Spieler passt, und warum.

ask-a-teacher =
    Sprich vor dem Anfang mit einer Lehrkraft: eine Stunde mit jemandem, der dich hört und spielen sieht, bewirkt an
    diesem Punkt mehr als jede Übungsfolge.
above-the-tops = { $top } liegt über { $open-top }, dem höchsten Ton, von dem diese Übungsfolgen ausgehen.{ " " }
not-an-open-note =
    { $top } ist keiner der Naturtöne, nach denen die Übungsfolgen gehen; er liegt über { $open-top }, also zählt
    { $open-top }.{ " " }
eased-by-tube = , und { $note }, wo ein langes Rohr ihn leicht macht ({ $tube })
fits-if-easy = { " " }Sie passt, wenn auch { $note } { $on } leicht anspricht.
why-level =
    { $name } (Stufe { $level }) verlangt { $top } und was darunter liegt, bis { $lowest }{ $eased }.
    { $beyond }{ $condition }
below-the-first = { $top } liegt unter { $first }, dem tiefsten Naturton
below-the-instrument = { $top } liegt unter { $lowest }, dem tiefsten Ton ({ $instrument })
finds-second = , findet { $note } { $on }
why-starter =
    { $below }, also kommt zuerst der Klang selbst: { $routine } beginnt mit { $note } { $on }{ $second } und
    verkürzt das Rohr Schritt für Schritt. { $beyond }
short-enough-for = { " " }Ihre Phrasen sind kurz genug für den Atem von { $who }.
no-longer-than = { " " }Ihre Phrasen sind nicht länger als der Atem von { $who }.
longer-breaths =
    { " " }Die Übungsfolgen der Stufe { $level } verlangen längere Atemzüge; auf der leichteren Stufe ist nichts
    verloren.
below-leave-out =
    { " " }Unter { $lowest } { $what ->
        [one] liegt ein Teil einer Zeile
       *[other] liegen Teile von { $what } Zeilen
    } ({ $numbers }): lass weg, was nicht anspricht.
when-effortless =
    wenn { $top } { $way } an den meisten Tagen mühelos kommt, was Wochen bis Monate dauert; mit Eile ist nichts
    gewonnen
when-in-doubt =
    im Zweifel, an einem müden Tag oder nach einer Unterbrechung: was bei { $easy } leicht ist, wird bald bei
    { $soon } leicht sein
if-not-easy = wenn { $note } { $on } noch nicht leicht anspricht, und im Zweifel
none-beyond = Keine Zeile geht darüber hinaus.
lines-beyond =
    Nur { $n ->
        [one] Zeile { $numbers } geht
       *[other] die Zeilen { $numbers } gehen
    } darüber hinaus, bis { $highest }{ $softly ->
        [softly] { ", leise" }
       *[no] { "" }
    }.
else-try = { " " }Spricht das nicht an, versuch { $others }.
two-notes =
    { $note } klingt auch { $on }, und { $second } liegt nah, { $interval } { $side ->
        [above] darüber
       *[below] darunter
    }. Stoß sie einzeln an, mit einer Pause dazwischen.{ $others }
then-slur = Dann binde sie, zuerst von { $high } hinunter zu { $low }, dann wieder hinauf, mit derselben Luft.
then-shorten =
    Dann verkürze das Rohr, { $unit ->
        [position] Zugposition für Zugposition
       *[valve] Ventil für Ventil
    } ({ $tubes }), so weit beide Töne von selbst kommen: { $on } sind es { $low } und { $high }. Dort hör für heute auf.
then-when = { $routine }, wenn zwei Töne von selbst kommen. { $why }
without-valves = ohne Ventile
as-a-line = Als Zeile einer Übungsfolge (leadpipe new macht eine, in die sie passt):
start-with = Fang an mit
why = Warum
then-play = Danach
easier = Leichter
