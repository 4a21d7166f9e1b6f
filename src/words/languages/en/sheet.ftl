# What stands on the sheet and the chart beside the teacher's own words.

## Over a line

mouthpiece-alone = mouthpiece alone
listen-first = listen first, then play
# Passes that are not written out.
then-the-passes = then { $passes };
the-last-pass = last { $words }
as-at-first = as at first
# A tube or a walk, and the note that it begins on.
from-the-note = { $what } from { $note }
times-each = { $times } each

## Under a line

rest-between-tempos = Once at each tempo; between them rest { $lengths }.
then-rest = Then rest { $length }.
no-rest-between = No rest between the times.
after-the-first-time-rest = After the first time rest { $bars }, the click goes on.
after-each-time-rest = After each time rest { $bars }, the click goes on.
after-the-first-time-rest-about = After the first time rest { $least } to { $most } bars, the click goes on.
after-each-time-rest-about = After each time rest { $least } to { $most } bars, the click goes on.

## Head and foot

enough-to-begin = { $note } { $tube } is enough to begin
enough-to-begin-described = { $note }, { $tube }, is enough to begin
should-be-easy = { $note } should be easy
should-be-easy-described = { $note }, the highest open note that should be easy
fingerings-used = Fingerings of the notes used
positions-used = Positions of the notes used
fingerings-described = Fingerings: { $notes }
positions-described = Positions: { $notes }
its-shape = Its shape: pitch against time
before-you-play = Before you play
page-number = { " " }· page { $page } of { $pages }

## At notes

bend = bend
third-slide-out = third slide out
air = air
ku = ku
breathe-in = in
breathe-out = out
breathe-hold = hold

## The shape of a routine

shape-easy = easy
shape-stretch = a stretch
shape-beyond = beyond
shape-rest = rest
shape-one-breath = on one breath
shape-play = play
shape-time = time
shape-line = line { $number } { $playing } playing, { $resting } rest
shape-range = { $length }, from { $low } to { $high }
shape-described = Pitch against time of { $title }, { $length }: { $lines }

## A system described, for readers who cannot see it

system = Line { $number }, { $name }: { $bars }
system-goes-on = Line { $number }, { $name }, goes on: { $bars }
meter = { $beats } { $unit } time
triplet = triplet { $value }
dotted = dotted { $value }
note-value =
    { $division ->
        [1] whole
        [2] half
        [4] quarter
        [8] eighth
        [16] sixteenth
        [32] thirty-second
       *[64] sixty-fourth
    }
tied-to = tied to { $length }
slurred-to = slurred to { $note }
bent-to = bent to { $note }
with-fingering = { $note } on { $fingering }
breath-after = { $note }, breath
air-goes-on = on for { $length }
bar-of-rest = a bar of rest
rest-of = rest { $length }

## With a pencil

pencil-of = With the pencil marks of { $player }
pencil-of-nobody = With pencil marks
pencil-in-every-line = { $whose }; in every line: { $marks }
