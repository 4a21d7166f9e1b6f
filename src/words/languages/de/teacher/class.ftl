# Klassenlisten.

try-next-level =
    spielt bis { $top } mühelos, und „{ $title }“ verlangt { $of-routine }: könnte die nächste Stufe versuchen, etwa
    { $next }
set-too-high =
    spielt bis { $top } mühelos, und „{ $title }“ verlangt { $of-routine }: das ist höher als bequem; { $suits }
    würde passen
group-opened-twice = eine Gruppe beginnt mit [[group]], mit zwei Klammern auf jeder Seite
group-own-row-named = schreib [[group]] in eine eigene Reihe; Spieler nennen sie: group = "Tuesday brass"
group-opened = eine Gruppe beginnt mit [[group]]
group-own-row = schreib [[group]] in eine eigene Reihe
to-a-player = zu einem Spieler: setz es unter ein [[player]]
group-without-name = diese Gruppe hat keinen Namen
players-name-it = ihre Spieler nennen sie: name = "Tuesday brass"
together-is = together ist true oder false
write-together = schreib together = true, ohne Anführungszeichen
two-groups-called = zwei Gruppen heißen { $name }
the-first-group = die erste
another-group-name = gib einer von ihnen einen anderen Namen
write-group = schreib [[group]] über die Spieler, und darunter name = "{ $name }"
groups-are = die Gruppen dieser Liste sind { $names }
no-group-called = es gibt keine Gruppe namens { $name }
play-together = die Spieler von { $group } spielen zusammen, also ist { $key } für alle gleich
the-group = die Gruppe
leave-pencil-out = lass pencil weg, oder schreib die Zeichen in die Übungsfolge
leave-carry-out = lass carry weg: sie spielen in einer klingenden Tonhöhe
under-the-group = lass { $key } hier weg, und schreib es unter das [[group]]
no-class-list = in dieser Datei ist keine Klassenliste
class-list-begins = eine Klassenliste beginnt mit format = 1; dann kommt für jeden Spieler ein [[player]]
no-players = in dieser Liste sind keine Spieler
write-a-player = schreib [[player]] in eine eigene Reihe und darunter name = "…" und routine = "…"
player-opened-twice = ein Spieler beginnt mit [[player]], mit zwei Klammern auf jeder Seite
player-own-row = schreib [[player]] in eine eigene Reihe
too-many-players = diese Liste hat { $players } Spieler; { $most-players } sind das Meiste
list-for-each-class = mach für jede Klasse eine Liste
player-opened = ein Spieler beginnt mit [[player]]
no-routine-of-player = dieser Spieler hat keine Übungsfolge
name-a-routine = nenne eine mitgelieferte oder eine Datei neben dieser Liste: routine = "second-steps"
player-without-name = dieser Spieler hat keinen Namen
nickname-enough = ein Rufname reicht: name = "Anna"
two-players-called = zwei Spieler heißen { $name }
the-first-player = der erste
tell-them-apart = unterscheide sie mit einem Rufnamen: jeder hat einen Ordner dieses Namens
age-cannot-be = age kann nicht "{ $age }" sein
age-can-be = möglich sind "8-10", "11-13", "14-16" oder "adult"
key-is-number = key ist eine Zahl von Halbtönen aufwärts oder abwärts
for-instance-keys = zum Beispiel key = [0, -1]; höchstens { $farthest-key }
no-guide-mode = das ist keine Art der Führungsstimme
guide-can-be = möglich sind "together", "echo" oder "off"
speaks-not = leadpipe spricht nicht „{ $tag }“
tag-for-language = "{ $tag }" für { $name }
list-entries-from = { $key } enthält 1 bis { $most-of-each } Einträge
for-instance-list = zum Beispiel { $key } = { $example }
no-tempo-of-take = das ist kein Tempo
tempo-of-take = schreib Schläge pro Minute von 20 bis 300 (72), oder Prozent des notierten Tempos ("85%")
to-look-at = Zum Ansehen
suggestions = Vorschläge
who-plays-what = Wer was spielt
pencil-marks = Bleistiftzeichen
