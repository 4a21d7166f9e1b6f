# What the commands say.

output-unwritten = the output could not be written: { $error }
instruments-are = the instruments are { $names }
carried-by = a routine is carried by partials or in concert
no-line-for = { $source } has no line that the { $instrument } can play at its level
for-instrument = { $source }, for the { $instrument }
line-left-out-on = note: line { $number } “{ $name }” is left out on the { $instrument }: { $why }{ $hint }
lies-above = { $lowest } lies above { $highest }
lowest-and-highest = --lowest is the lowest note that is easy, --highest the highest
german-h = the note called H in German is B here: B4
how-a-note-is-typed =
    write a letter, # or b if there is one, and the octave: G4 is second-line G, C4 the C on the first ledger line
    below
is-not-a-note = “{ $text }” is not a note
folder-no-pencil = { $shown } is a folder, not a pencil
name-the-pencil = name the pencil's file in it
no-file-called = there is no file called { $shown }
pencil-writes-one = leadpipe pencil ROUTINE { $shown } LINE slower writes one with its first mark
keep-going-marks = --keep-going applies the other marks and leaves these out
advice-shown-by = { $name }: { $advice } on breath and rest; { $command }{ $tempos }{ $key } shows it.
warnings-shown-by = { $command } shows them
has-warnings =
    { $name } has { $warnings } { $how ->
        [with-pencil] with this pencil
       *[as-written] as it is written
    }
no-problems = no problems found
formats-are = a format is wav, flac or mp3; a comma parts two of them
no-page-made = the routine was not rendered, and no page was made
others-not-on-page = { $others } of earlier runs in this folder: not on the page.
page-is = The page is { $file }: open it in a browser.
share-shows-it = leadpipe share --lan with this folder shows it to phones.
built-without-pdf = This leadpipe was built without PDF, so there is no sheet to print.
sheet-is = The sheet to print is { $file }.
sheets-are = Sheets to print, one for each key: { $files }.
leadpipe-speaks = leadpipe speaks { $languages }
skills-are = the skills are { $skills }
no-such-routine-of-all = No built-in routine is all of that; leave one of the options out.
choose-names-it = leadpipe choose G4 names the one for a player whose highest easy open note is G4.
no-built-in = there is no built-in routine called “{ $name }”
copy-is-yours = { $shown } is a copy of { $preset }, yours to change.
next-check = Next: leadpipe check { $file }
no-name-for-file = “{ $name }” is no name for a file
name-after-player = name it after a player: leadpipe new anna
there-already = { $shown } is there already and stays as it is
no-such-folder = { $shown } cannot be written: there is no such folder
make-the-folder = make the folder first, or leave it out of the name
folder-not-writable = { $shown } cannot be written: this folder may not be written to
own-folder = keep it in a folder of your own
disk-full = { $shown } cannot be written: the disk is full
cannot-write = { $shown } cannot be written: { $error }
choose-another-name = choose another name
list-shows-built-in = leadpipe list shows them
day-written = a day is written year, month, day: 2026-11-25
players-own-file = name a file of the player's own: anna.pencil.toml
is-built-in = { $shown } is a built-in routine
is-the-routine = { $shown } is the routine itself, and stays as it is
no-line-said = it is not said which line to mark
say-line = name it by its number or its name, or write all for the whole routine; --show reads out what is marked
nothing-marked-yet = nothing is marked yet
no-pencil-file = there is no file called { $shown }
old-row-ends = the rows of { $shown } end as no editor ends them any more, so it stays as it is
save-anew = open it in a text editor and save it anew
changed-just-now = { $shown } was changed by another program just now, so nothing was marked
close-it-there = close it there, and mark it again
all-tracks = All { $n } tracks
signs-are = signs are on or off
rates-are = the rate is 44100 or 48000
widths-are = the width is 16 or 24
threads-are = threads are a whole number from 1 to { $most-threads }
name-each-voice = name each voice once: --volume click=-6dB
one-pencil = a pencil is laid over one routine at a time
own-pencil = render each routine with its own pencil
another-routine =
    Another routine called “{ $title }” has tracks in { $folder }: those of { $routine } are called { $stem }.
stopped-tracks = Stopped; unfinished tracks were taken away.
cleared-away = Cleared away { $files } of an earlier run.
papers-are = the paper is a4 or letter
fingerings-are-shown = fingerings are unusual, all or none
passes-are = passes are ends or all
sizes-are = the size is normal or large
part-is-of-music = --part is for a file of music, and a routine has one part
font-lacks = the sheet's font has no { $shown }{ $more }: empty boxes stand for them
font-has = it has Latin, Greek and Cyrillic letters
more-not-shown = { $left-out } more in rows that are as long are not shown.
built-in = { $name } (built in)
folder-no-routine = { $shown } is a folder, not a routine
name-the-routine = name the routine's file in it
larger-than = { $shown } is larger than one mebibyte, which no routine needs
cannot-be-read = { $shown } cannot be read: { $said }
may-not-be-read = { $shown } may not be read by you
ask-its-owner = ask whoever it belongs to, or copy it into a folder of your own
empty-name = the name of a routine is empty
list-shows = leadpipe list shows the built-in routines
there-is-with-txt = there is { $with-txt }: take .txt off its name (the file manager may be hiding it)
there-is-with-toml = there is { $with-toml }
there-is-toml-txt = there is { $with-toml }.txt: take .txt off its name
built-in-called = the built-in routine is called { $name }
list-and-new = leadpipe list shows the built-in routines; leadpipe new writes one to change
save-as-utf8 = in the text editor choose “save as”, and UTF-8 as the encoding
saved-as-utf16 = { $name } is saved as UTF-16, not as UTF-8
not-plain = { $name } is not plain text, so it is no routine
text-editor = a routine is written with a text editor; a word processor can “save as” plain text, in UTF-8
not-utf8 = { $name } is not saved as UTF-8: line { $line } holds a letter in another encoding
no-command = there is no command called { $typed }
help-shows-commands = leadpipe --help shows the commands
no-option = there is no option { $typed } here
one-too-many = “{ $typed }” is one thing too many here
help-shows = { $command } --help shows what there is
is-missing = a { $missing } is missing
write-usage = write { $usage }
says-nothing = { $name } says nothing
option-cannot-be = { $name } cannot be “{ $value }”
right-after-option = write it right after the option
left-out-because = left out: { $why }
some-of = { $there } of { $all }
suggestion = A suggestion: { $player } { $advice }.
tracks-of-players = { $tracks } of { $players }.
tracks-of-players-made = { $tracks } of { $players }: { $made }.
lines-rendered = { $tracks } of { $players }: { $rendered } of { $lines } rendered
files-packed = , { $anew } of { $files } packed
others-shared = , the others shared or there already.
tracks-stay =
    { $others } of earlier runs, not asked for now and not on the pages: { $whose }. They stay until you take them
    away.
strangers-folders =
    In { $folder } { $n ->
        [one] { $n } is a folder
       *[other] { $n } folders are
    } of players who are not in this list: { $names }.
no-tracks-for = no tracks for { $players }
marks-of-players = marks of { $players }
not-understood-in-list = what is not understood in the list
left-out-parts = left out: { $parts }
and-more-of = { $said } and { $more } more
gets-folder = { $player } gets the folder { $given }: { $wanted } is { $owner }'s.
pencil-unfit = the pencil does not fit
pencil-unread = the pencil cannot be read
routine-faulty = faults in the routine
routine-unread = the routine cannot be read
cannot-be-played-by = { $group }: { $routine } cannot be played by the { $name }: { $problem }
group-cannot = a routine that its group cannot play together
played-in-turn = note: { $group }: line { $number } “{ $line }” is played in turn: first { $turns }
nobody-can-play =
    note: { $group }: line { $number } “{ $line }” is left out: nobody in the group can play it at its level
rests-in-line = note: { $group }: { $instrument } rests in line { $number } “{ $line }”: { $problem }{ $hint }
part-of-class = a part of a class is written 2/5: the second of five
nothing-rendered = nothing was rendered, because not everything in this class is as it should be
keep-going-others = --keep-going renders the others
stopped-class = Stopped; unfinished tracks were taken away, finished ones stay.
folder-no-list = { $shown } is a folder, not a class list
name-the-list = name the list's file in it
list-is-yours = a class list is a text file of yours; README.md shows one
has-no-tracks = { $player } has no tracks: { $why }.
player-warning = { $player }: { $warning }.
no-name-for-report = { $file } is no name for a file
name-the-report = name the report after the class: --report tuesday.html
report-is-in = The report is in { $file }.
player-number = player { $n }
player-not-understood = not understood in the class list
routine-errors = errors in the routine
take-unplayable = a take that cannot be played
record-unread = a record that cannot be read
with-marks = { " " }with { $marks }
player-summary = { $player }: { $title }{ $marks }, { $tracks }: { $said }.
warning-row = { " " } warning: { $warning }
more-row = { " " } and { $more } more
nothing-found = { $players }: no problems found.
gets-no-tracks = { $name } gets no tracks: { $why }
figures-title = { $title }, { $instrument }, { $lines }
ratio-to-one = { $ratio } to 1
ages-are = an age is 8-10, 11-13, 14-16 or adult
so-many-faults = { $name }: { $faults }.
rest-to-playing-leaves = Rest to playing leaves aside what is played after the last rest.
with-marks-of = { " " }with { $marks } of { $name }
check-tally = { $name }{ $with }: { $tally }.

## Headings of tables

heading-player = Player
heading-routine = Routine
heading-marks = Marks
heading-tracks = Tracks
heading-length = Length
heading-lines-rendered = Lines rendered
heading-clicks-a-minute = Clicks a minute
heading-playing = Playing
heading-rest = Rest
heading-rest-to-playing = Rest to playing
heading-lowest = Lowest
heading-highest = Highest
heading-breaths = Breaths
heading-level = Level
heading-name = Name
heading-easy-up-to = Easy up to
heading-from-age = From age
heading-purpose = Purpose
heading-track = Track
heading-size = Size
heading-instrument = Instrument
heading-clef = Clef
heading-half-steps = Half steps
heading-from = From
heading-to = To
heading-levels-1-to-5 = Levels 1 to 5
none = none
made-unchanged = unchanged
made-new = new
made-again = again
n-unchanged = { $n } unchanged
n-new = { $n } new
n-again = { $n } again
tracks-unchanged = { $n } unchanged
tracks-rendered = { $n } rendered
tracks-again = { $n } rendered again: { $rendered } of { $lines }
no-longer-as-rendered = ; { $tracks } no longer as rendered before
n-other-players =
    { $n ->
        [one] { $n } other player
       *[other] { $n } other players
    }
clef = { $clef }
sounds-lower = { $n } lower
sounds-higher = { $n } higher
sounds-as-written = as written
name-and-why = { $name } ({ $why })
runs-leftwards = “{ $text }” is written from right to left, which the sheet cannot draw
write-rightwards =
    write it for the sheet in letters that run from left to right: Latin, Greek or Cyrillic; tracks need no change
