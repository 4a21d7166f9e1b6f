# What the script of the pupil's page says. A choice by number stands alone in its message.

## The card

have-read = I have read this
before-playing = Before you play

## Kept on the phone

kept-needs-https = Plays here; to keep it on the phone, open it from an https site.
kept-no-room = There was no room on the phone for all tracks: they play from the network.
kept = Kept on this phone: it plays without a network.
being-kept = Being kept on this phone: track { $kept } of { $of }.
not-kept = It could not be kept on this phone: { $why }

## Again and again

once-more = Once more to the end, and on with the line.
slower-percent = Slower { $percent }{ "\u00A0" }%
good-percent = Good: { $percent }{ "\u00A0" }%
again = Again
loop-bar = Bar { $n }
loop-time = Time { $n }, whole
loop-line = The whole line
looping = Again and again, each time after one bar. Touch Good after a good go: the next is faster.
touch-first = Touch the first note
touch-last = Touch the last note
back = Back
from-note = From note { $note }
to-note = To note { $note }

## Marks

marks-not-kept = This phone does not keep your marks: its memory for pages is full or shut off. They are here until you close the page; send them first.
undo = Undo
done-marking = Done
marks-everywhere = Marks on every line
marks-of = Marks: { $title }
rub-out = Rub out
words = Words
words-for-the-sheet = For the sheet
nickname = Your nickname (may stay empty)
percent-of-written = Percent of what is written
make-mark = Mark
mark-example = For example: rest 2 bars, tempo 60, half steps 0,-1,-2, tubes 0,2, drone Bb3.
another-mark = Another mark, in words
touch-a-note = Touch a note
breathe-after-it = Breathe after it
bend-it = Bend it
breath-after-note = breath after note { $note }
bend-note = bend note { $note }
no-notes-to-mark = This line has no notes to mark.
stop-after = Stop after
clicks-a-minute = { $tempo } clicks a minute

## A file with marks is opened

file-too-large = This file is too large to be a pencil.
file-is-routine = This is a routine, not a pencil. Your teacher makes a page from it.
file-is-routine-of = This is a routine, “{ $title }”, not a pencil. Your teacher makes a page from it.
file-is-no-pencil = This is not a pencil. { $why }
leave-my-marks = Leave my marks as they are
pencil-with-marks = The pencil of { $player }, with { $marks }.
nobodys-pencil-with-marks = A pencil without a name, with { $marks }.
so-many-marks =
    { $n ->
        [one] 1 mark
       *[other] { $n } marks
    }
yours-is = Yours is the pencil of { $player }.
marks-new = New
mark-instead = { $mark }, instead of “{ $words }”
marks-there = You have them already
marks-gone = Only yours: they stay if you add, and go if you replace
marks-left-out = Not for this routine: they are left out
add-them = Add them to my marks
replace-mine = Replace my marks with them
use-these = Use these marks
every-line = Every line

## The pencil

pencil = Pencil
pencil-at = Pencil: { $title }
send-marks = Send my marks to my teacher
mark-every-line = Mark every line
about-the-pencil = Slower here, a breath there: your marks stay on this phone until you send them.
open-marks = Open marks from a file
marks-unreadable = Marks that this phone keeps for this routine could not be read. They are laid aside, and nothing is written over them.
save-unreadable = Save them as a file for my teacher
throw-away = Throw them away
use-new-marks = Use the marks of the new handout instead of mine
marks-to-send = Marks: { $title }

## Sound

guide = Guide
click = Click
held-note = Held note
volume = Volume
volumes = Volumes
own-volume = This phone’s own buttons set the volume.
player-broke = the player of this page broke down
load-again = load the page again
finished-tracks-play = The player broke down. From now on the finished tracks play: touch Go on.
broke-alone = The player broke down. Load the page again.
no-engine-alone = This browser is too old to play this page. Try another one, or ask your teacher for the tracks.
finished-tracks = Finished tracks to save

## How to play it

how-to-play = How to play it
slower = Slower
faster = Faster
key = Key
busy = This phone is busy. If nothing changes, load the page again.
tempo-now = { $tempo } clicks a minute ({ $percent }{ "\u00A0" }%)
tempo-printed = A tempo printed over the music is that of 100{ "\u00A0" }%: it is played at { $percent }{ "\u00A0" }% of it.
start-from-one = Start from line 1

## What the screen says while it plays

go-on = Go on
pause = Pause
try-again = Try again
from-the-top = From the top
interrupted = The phone has taken the sound away, as for a call. Touch Go on when you are ready.
silent-device = No sound comes out of this phone. Close other apps that play, look after the headphones, and touch Try again. If it stays silent, load the page again.
silent-engine = The sound is late: this phone is busy. It may come yet; if not, touch Try again.
silent-network = The track does not arrive. Is the phone still connected? Then touch Try again.
which-time = { $n } of { $times }
ready = ready
count = count
breathe = breathe
rest-left = rest { $seconds }
listen = listen
your-turn = your turn
done = done
line-and-tempo = Line { $name }. { $tempo } clicks a minute.
last-line-done = That was the last line. You have done it.
next-is = Next: { $name }
rest-then = Rest { $seconds } seconds. Next: { $name }.
take-your-time = take your time
im-ready = I’m ready
hold-the-rest = Hold the rest
rest-held = The rest is held. Touch again when you are ready.
