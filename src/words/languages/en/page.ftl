# The pupil's page, as it is without its script.

for-the-instrument = For the { $instrument }, easy up to { $top }.
home-screen = Put it on the home screen
# $open and $close are the ends of a link.
sheet-to-print = { $open }{ $sheet }{ $close }, to print.
list-of-tracks = { $open }The list of all tracks{ $close }, for a player that opens lists.
the-sheet = The sheet
the-sheet-in-a-key = The sheet { $key }

## The card before the first note

card-silent = Nothing is heard? Turn the phone’s silent switch off, and its volume up a little at a time.
card-wireless =
    A wireless speaker or headphones play late. The count-in comes late with them, so play by what
    you hear, not by what you see.
card-volume = Set the volume so that you hear your own horn better than the track.
card-more = More on playing safely

## Lines and takes

the-lines =
    { $n ->
        [one] The line
       *[other] The { $n } lines
    }
purpose-of-a-line = For: { $purpose }
not-played-here = Not played here.
play-from-line = Play from line { $number }{ $which }
save-this-track = Save this track
needs-script = To play, this page needs JavaScript. The music can be read without it.

## While it is played

stand-playing = Playing
stand-more = More
stand-again = Again
stand-pause = Pause
line-before = Line before
next-line = Next line
stand-slower = Slower
stand-faster = Faster
again-and-again = Again and again
from-note-to-note = From note to note
on-with-the-line = Go on with the line
stand-pencil = Pencil
stop-playing = Stop playing
left-hand = Large buttons at the left hand
back-to-the-music = Back to the music

## What can be chosen

choose-guide-along = plays along
choose-guide-first = plays first, then leaves you the time
choose-guide-silent = silent
marks-tempo = Tempo
mark-slower = slower
mark-faster = faster
marks-rest = Rest after it
marks-between = Rest between the times
mark-longer = longer
mark-shorter = shorter
marks-articulation = Tongue or slur
mark-tongued = tongued
mark-slurred = slurred
mark-both = both
marks-times = How often
marks-loudness = How loud
mark-softer = softer
mark-louder = louder
marks-drone = Held note
mark-off = off
mark-tonic = key note
mark-tonic-and-fifth = key note and fifth
marks-guide = Guide
mark-guide-along = plays along
mark-guide-first = plays first
marks-whole-line = The whole line
mark-leave-out = leave out
mark-bend = bend half steps down

## The page of a player as text

practice-what = What to play
practice-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }, for the { $instrument }. Play it along with one of these tracks:
practice-columns = track | clicks a minute | key | guide | length | playing | rest
practice-line-columns = line | at | times through | how
practice-pencil = Your pencil
practice-how-long = How long
practice-take = at { $take }: { $length }, of it { $playing } playing and { $rest } rest
