# Marks of a pencil: what is wrong with them, and what was done.

would-come-to-clicks = { $whose } would come to { $clicks } clicks a minute
no-rest-after-it = there is no rest after it
air-not-articulated = a breathing line is neither slurred nor tongued
air-no-drone = a breathing line has no drone
played-once = it is played only once, so there is no rest in between
mark-rest-after = mark the rest after it: rest = "longer"
no-rest-between-passes = there is no rest from one time through to the next
not-on-the-horn = it is not played on the horn, so no fingering is spared
mark-horn-line = mark a line that is played on the horn
mark-line-with-notes = mark a line that has notes
say-how-long = say how long it is to be: "2 bars", "20 s" or "same"
fault-in-its-notes = with this mark there is a fault in its notes: { $why }
mark-another-note = mark another note
not-one-of-its =
    that is not one of its { $what ->
        [tubes] tubes
       *[half-steps] half steps
    }
they-are = they are { $names }
stops-there = it stops after { $step } as it is
name-one-before = name one before it
goes-through-tubes = it goes through tubes
name-tubes = name tubes: tubes = ["0", "2", "1"]
no-pitch-to-move = there is no pitch to move in it
fingered-not-moved = a line with fingerings cannot be moved
mark-unfingered = mark a line without fingerings
not-for-open-horn = it is not written for the open horn, so it has no tubes
move-by-half-steps = move it by half steps: half_steps = [0, -1, -2]
has-no-such-tube = the { $instrument } has no { $tube }
its-tubes-are =
    its { $what ->
        [position] positions
       *[tube] tubes
    } are { $names }
names-no-lines = { $first }-{ $last } names no lines
smaller-first = the smaller number comes first: { $last }-{ $first }
no-mark-to-make = there is no mark to make
is-not-a-mark = “{ $said }” is not a mark
marked-already = { $heading } is marked already: { $words }
say-how-much = where more is meant write how much: tempo 80%, times 5
take-that-back-first = take that back first: both cannot be ({ $mark })
in-place-of = , in place of { $mark }
marked = { $heading }: { $mark }{ $instead }.
has-not-this-mark = { $heading } does not have this mark: { $mark }
has-no-marks = it has no marks
is-marked = it is marked: { $marks }
has-no-mark = { $shown } has no mark { $number }
it-has-so-many = it has { $n }
not-of-its-own = this mark is not written under a [[mark]] of its own, so { $shown } stays as it is
take-out-by-hand = take it out with a text editor
taken-back = { $heading }: taken back: { $mark }.
every-line-left-out = every line is left out
keep-a-line = keep at least one line
no-line-number = there is no line { $number } in “{ $title }”
name-line-by-name = it has { $lines }; name the line by its name
did-you-mean-line = did you mean “{ $meant }”?
teacher-may-have-changed = the teacher may have changed it; its lines are numbered 1 to { $n }
no-line-called = there is no line called “{ $name }” in “{ $title }”
lines-called = { $n } lines are called “{ $name }”
name-by-number = name it by its number: { $numbers }
line-number = line { $n }
whole-routine = the whole routine
left-out-and-more = { $place } is left out and has another mark as well
one-of-the-two = keep one of the two: a line that is left out needs no other mark
mark-twice = { $place } has this mark twice
one-percentage = keep one; for a larger change write a percentage
marks-contradict = { $place } has two marks that contradict each other
keep-one-of-kind = keep one { $kind }
the-first-mark = the first
applies-to-no-line = this mark applies to no line of this routine
name-its-line = name the line that it is for
comes-last = “{ $name }” comes last, and there is no rest after it
rest-of-line-before = mark the rest after the line before
no-note-number = there is no note { $number }: the line has { $notes }
notes-counted = notes are counted from 1, tied ones as one, rests not at all
breath-there = there is a breath after note { $number } already
breath-elsewhere = a breath can be marked after another note
cannot-bend = note { $number } cannot be bent
what-bends = a bend is lipped down from the note right before it, a half step higher, with no breath or rest in between
nothing-to-bend = there is nothing to bend here
what-bends-short = a bend is lipped down from the note right before it, a half step higher
not-bent = note { $number } is not bent
none-bent = no note of it is bent
for-bent-notes = this mark is for notes that the teacher bends; they are played with their own fingering then
loud-throughout = the line is { $most } throughout, and there is nothing { $way }
mark-changing-line = mark a line that can still change
no-pencil-here = there is no pencil in this file
pencil-begins = a pencil begins with format = 1; leadpipe pencil writes one with its first mark
to-a-mark = to a mark: put it under a [[mark]]
mark-opened-twice = a mark is opened by [[mark]], with two brackets on each side
mark-own-row = write [[mark]] in a row of its own
mark-opened = a mark is opened by [[mark]]
too-many-marks = this pencil has { $marks } marks; { $most-marks } are the most
rub-out-old = rub out what is no longer needed, or change the routine itself
to-head-of-file = to the head of the file
mark-changes-nothing = this mark changes nothing
say-what = say what: tempo = "slower", breath_after = 4, leave_out = true
nothing-of-whole = { $kind } says nothing of a whole routine
name-line-for-it = name the line it is for: line = 3, or its name in quotes
line-named-so = a line is named by its number, from 1 to { $most-lines }, or by its name in quotes
for-instance-line = for instance line = 3; for the whole routine leave line out
date-written = a date is written year, month, day
for-instance-date = for instance date = 2026-11-25
leave-out-true = leave_out can only be true
write-leave-out = write leave_out = true; to play the line again take the mark back
percent-from = a percentage goes from { $least-part }% to { $most-part }%
tempo-mark-can-be = it can be "slower", "faster", a percentage of the written tempo ("85%"), or clicks a minute (60)
rest-mark-can-be =
    it can be "longer", "shorter", a percentage of its length ("150%"), "same", "2 bars", "8 beats", "20 s" or
    "none"
clicks-from = clicks a minute go from { $slowest } to { $fastest }, with at most three decimals
tempo-cannot-be = tempo cannot be { $shown }
mark-cannot-be = { $key } cannot be "{ $shown }"
breath-names-no-note = breath_after names no note
count-from-one = count the notes of the line from 1: breath_after = 4
breath-is-number = breath_after is the number of a note
count-ties-as-one = count the notes of the line from 1, tied ones as one, rests not at all: breath_after = 4
bend-hint =
    bend = true lips down every note that lies a half step below the one before it; bend = 2 only the second note
finger-hint = finger = true fingers every note that is bent as written; finger = 2 only the second note
true-or-number = { $kind } is true, or the number of a note
stop-after-names = stop_after names the last one that is played
stop-as-listed =
    as the line lists them: a number of half_steps (stop_after = -2), or one of its tubes in quotes (stop_after =
    "1-2")
of-a-marked-line = “{ $name }”: { $why }
say-which = say which: rest longer, between longer
marks-are-words = marks are { $vocabulary }
no-number = “{ $text }” is not a number
the-line-itself = it
