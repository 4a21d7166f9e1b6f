# What is wrong with a file, and what would be right.

bar-is-empty = bar { $number } is empty
bar-line-parts = one | parts two bars; a silent bar of { $meter } is written with rests
a-row = every row is a name, an equals sign and a value: tempo = 72; a remark starts with #
written-twice = { $key } is written twice
keep-one-under = keep one; under each { $opens } every name may stand once
has-no-value = { $key } has no value
value-after-equals = write it after the equals sign: { $key } = { $example }
list-in-brackets = a list stands in square brackets
write-list = write { $key } = [{ $bare }]
value-not-understood = this value is not understood
how-values-stand = text stands in straight quotes, a number alone, a list in brackets: { $key } = { $example }
text-over-rows = a text over several rows stands in three quotes
open-with-three = open it with { $key } = """ and close it with """
list-not-closed = this list is not closed
list-ends-with = it ends with a square bracket: { $key } = { $example }
backslash = a backslash means something else here
backslash-twice = write it twice, \\, or write a slash: /
text-not-closed = this text is not closed where it should be
text-in-quotes = it starts and ends with one straight quote, in one row: "…"
plain-hyphen = write the plain hyphen: { $key } = { $value }
longer-dash = this minus is a longer dash
write-value = write { $key } = { $value }
decimal-point = a number has a point, not a comma
tempo-alone = a tempo is a number alone, in clicks a minute
write-tempo = write tempo = { $number }
write-in-quotes = write { $key } = "{ $text }"
words-in-quotes = words stand in straight quotes
too-much-in-row = there is more in this row than a name and its value
next-in-own-row = write the next name in a row of its own; a remark starts with #
unseen-here = a character that cannot be seen stands here
delete-unseen = delete it, and type anew what is around it
row-not-understood = this row is not understood
opened-by = { $table } is opened by { $opens } in a row of its own
equals-parts = an equals sign parts a name from its value: { $name } = { $value }
name-is-one-word = a name is one word
write-joined = write { $joined } = { $value }
too-large-file = this file is larger than 1 MiB, so it is no { $what }
few-thousand-letters = a { $what } has a few thousand letters; name the right file
no-format = this file does not say which format it is in
write-format = write format = 1 as its first line
format-one-only = this leadpipe reads format 1 only
later-format = write format = 1; a file of a later format needs a later leadpipe
not-known-here = { $name } is not known here
belongs = { $name } belongs { $place }
write-this = write { $meant }
did-you-mean = did you mean { $meant }?
known-are = known are { $names }
words-in-quotes-for = { $key } is written as words in straight quotes
for-instance-quoted = for instance { $key } = "{ $example }"
is-empty = { $key } is empty
not-plain-text = { $key } is not plain text of at most { $longest-text } letters
keep-to-a-sentence = keep it to a sentence
whole-number-from = { $key } is a whole number from { $low } to { $high }
for-instance-number = for instance { $key } = { $example }
more-than-three-decimals = { $key } has more than three decimals
no-metronome = no metronome is that fine; round it
number-without-quotes = write the number alone, without quotes: { $key } = { $number }
for-instance-tempo = for instance { $key } = 72, without quotes
meters-clicked =
    a click is a half, a quarter or an eighth: 2/2, 3/4, 4/4, 3/8, 6/8, 9/8, 12/8 and others over 2, 4 or 8, up to
    16 beats
no-meter = { $text } is no meter leadpipe can click
cannot-be = { $key } cannot be "{ $text }"
did-you-mean-quoted = did you mean "{ $meant }"?
it-can-be = it can be { $words }
no-key = “{ $text }” is no key
how-keys-stand =
    a key is a note with major or minor, as the player reads it: "E-flat major", "F-sharp minor", or short "Eb
    major", "F# minor"
same-sound = write "{ $instead }", which sounds the same
no-pitch = { $text } is no pitch
how-pitches-stand = a pitch is a capital letter and an octave: G4, F#4, Bb3
to-the-head = to the head of the file, above the first [[line]]
line-without-name = this line has no name
write-line-name = write name = "Long tone" under its [[line]]
has-no-key = { $kind } has no key
leave-key-out = leave key out
tempos-from-one = tempo holds from 1 to { $most-tempos } entries
for-instance-tempos = for instance tempo = [80, 96, 112]: the line once at each
has-no-tonic = { $kind } has no key note
leave-tonic-out = leave tonic out
notes-or-open = a line has notes or open, not both
its-notes = its notes
notes-and-open = notes are written as they are played, open as on the open horn
line-without-notes = this line has no notes
write-notes-under = write notes = "{ $example }" under it
no-tubes = { $what } has no tubes, so it cannot be open
write-as-notes = write it as notes = "…"
write-each = write each = "{ $meant }"
no-drone-pitch = { $pitch } is no pitch for a drone
name-drone-pitch = name a concert pitch from E1 to C7; Bb2 to A3 carries best
drone-can-be = it can be "tonic", "tonic and fifth", "off", or a concert pitch such as "Bb3"
has-no-drone = { $kind } has no drone
leave-drone-out = leave drone out
not-articulated = { $kind } is neither slurred nor tongued
leave-articulation-out = leave articulation out
articulations-from-one = articulation holds from 1 to 10 entries
for-instance-articulations = for instance articulation = ["slurred", "tongued"]
rests-can-be = it can be "same" (as long as it took to play), "2 bars", "8 beats", "20 s" or "none"; an hour is the most
a-line-on-the-horn = a line on the horn
a-mouthpiece-line = a mouthpiece line
a-breathing-line = a breathing line
a-line-of-rest = a line of rest
quotes-never-closed = the text that these quotes open is never closed: { $quotes }
quotes-once-more = write { $quotes } once more, after its last word; one quote does not close it
no-routine-here = there is no routine in this file
routine-begins = a routine begins with format = 1 and title = "…"; leadpipe new writes one to start from
to-a-line = to a line: put it under a [[line]]
no-title = this routine has no title
write-title = write title = "Second steps" at its head
no-tempo = this routine has no tempo
write-tempo-at-head = write tempo = 72 at its head: clicks a minute, one click a beat
no-language = { $tag } does not name a language
write-tag = write its tag, such as "de" for German, "en" for English or "pt-BR"
no-instrument-said = this routine does not say what it is played on
write-instrument = write instrument = "trumpet in B-flat" at its head
no-instrument = { $name } is no instrument leadpipe knows
write-this-instrument = write instrument = "{ $meant }"; leadpipe list --instruments names all of them
instruments-known =
    leadpipe list --instruments names those it knows: trumpets, cornets, horns, trombones, euphoniums, tubas
no-comfortable-top = this routine does not say for whom it is comfortable
write-comfortable-top = write comfortable_top = "{ $second }" at its head: the highest open note played with ease
not-an-open-top = { $pitch } is not among the open notes that part the levels
tops-are = comfortable_top is one of { $names }
outside-the = { $pitch } lies outside the { $instrument }
notes-dealt-with = notes from { $low } to { $high } are dealt with
reach-below-top = the reach, { $pitch }, lies below the comfortable top
the-comfortable-top = the comfortable top
what-reach-is = reach is the highest note the routine stretches to; leave it out if none
no-lines = this routine has no lines
write-a-line = write [[line]] in a row of its own, and under it name = "…" and notes = "…"
line-opened-twice = a line is opened by [[line]], with two brackets on each side
line-own-row = write [[line]] in a row of its own
too-many-lines = this routine has { $lines } lines; { $most-lines } are the most
split-routine = split it into several routines
line-opened = a line is opened by [[line]]
no-pedals = its lowest note is { $low }; pedal tones are not dealt with
one-pedal = its lowest note is { $low }, and below that the pedal tone { $open }
pedals = its lowest note is { $low }, and below that the pedal tones { $open } to { $last }
bend-follows =
    a bend is lipped down from a note, and follows { $what ->
        [breath] a breath
        [rest] a rest
       *[nothing] nothing
    }
bend-right-after = put the note it starts from right before it, half a step higher
bend-has-position = a bend has the next position to that of the note before it
bend-keeps-valves = a bend keeps the valves of the note before it
leave-fingering-out = leave its fingering out
below-instrument = { $pitch } lies below the { $instrument }, among the pedal tones
above-instrument = { $pitch } lies above the { $instrument }
no-open-note =
    { $pitch } is no note of { $open ->
        [position] the first position
       *[tube] the open horn
    }
open-is-written =
    open = "…" is written with the notes { $notes }, and moved through { $tube ->
        [position] positions
       *[tube] tubes
    }
slur-over-rest = a slur over a rest
slur-starts = the slur starts here
close-slur-before-rest = close the slur with ) before the rest
tie-without-note = a tie with no note before it
tie-after-rest = a tie after a rest
longer-rest = a longer rest is one more rest:…
breath-before-tie = a breath before a tie
the-breath = the breath
tied-is-one = a tied note is one note: breathe after it, or repeat the pitch
tie-lengthens = a tie lengthens the note right before it: G4:whole tie:half
all-breath = a breathing line is all breath
write-in-half = write in:half instead
two-breaths = two breaths in one place
the-first-breath = the first
keep-one = keep one
breath-after-rest = a breath after a rest
breathe-in-rest = leave it out: everybody breathes in a rest
breath-before-first = a breath before the first note
breathe-in-count = leave it out: everybody breathes in the count-in
leads-wrong = { $word } leads from { $from } to { $to }
lead-to-louder = it has to lead to something { $way }
leads-over-nothing = { $word } has no note to lead over
leads-here = it leads here
notes-between = put the notes between { $word } and { $to }
leads-nowhere = this leads to no dynamic
dynamic-after = put the dynamic it leads to after its notes: cresc C4:half E4:half f
slur-of-one = a slur joins two notes or more
leave-slur-out = leave slur( and its ) out, or take the next note into it
empty-triplet = a triplet with nothing in it
leave-triplet-out = leave triplet( and its ) out
triplet-not-full = this triplet is not full
triplet-is = a triplet is three in the time of two: triplet( C4:eighth D4:eighth E4:eighth )
rest-line-notes = a line of rest has no notes
write-rest-whole = write rest:whole, or say on = "horn"
line-holds-none = there is no { $what } in this line
write-one = write at least one: G4:half
curly-quotes = curly quotes
write-straight = write straight ones: "{ $text }"
a-curly-quote = a curly quote
close-straight = close the text with a straight one: "
list-ends = it ends with a square bracket: half_steps = [0, -1, -2]
too-deep = brackets or points inside one another, deeper than any routine goes
one-pair = a list is one pair of brackets: half_steps = [0, -1, -2]
tubes-not-half-steps = a line on tubes is moved by its tubes, not by half_steps
fingerings-not-half-steps = a line with fingerings cannot be moved by half_steps
air-not-half-steps = a breathing line has no pitch to move by half_steps
rest-not-half-steps = a line of rest has no pitch to move by half_steps
leave-half-steps-out = leave half_steps out
tubes-want-open = tubes move a line that is written as on the open horn
write-as-open = write its notes as open = "…", with notes of the open horn
entries-from-one = { $key } holds from 1 to { $most-steps } entries
for-instance-entries = for instance { $key } = { $example }
half-steps-from = half_steps are whole numbers from -{ $furthest-move } to { $furthest-move }
for-instance-half-steps = for instance half_steps = [0, -1, -2]: as written, then half a step lower each time
no-tube = { $shown } is no tube
write-tube = write "{ $tube }", in quotes
tubes-are-named =
    tubes are named by their { $what ->
        [slide] positions of the slide
       *[valves] valves
    }, in quotes: "{ $names }"
b-or-b-flat = { $head }: B natural or B-flat? other notes of this file have German names
b-is-natural = here { $head } is B natural, the German H; where the German B is meant write { $flat }
here-and-more = here and { $more } more in this { $of }
stray-square-bracket = a square bracket that belongs to no fingering
fingering-after-note = a fingering stands in brackets right after its note: G4:half [1-3]
belongs-to-air = { $head } belongs to breathing lines
air-says-on = a breathing line says on = "air"
delete-it = delete it
type-anew = delete the word and type it anew: { $seen }
air-no-dynamics = a breathing line has no dynamics
air-holds = it holds in, out, hold and rest, each with its length: in:whole out:whole
note-in-air = { $pitch } is a note, and this is a breathing line
after-no-note =
    { $what ->
        [fingering] a fingering
       *[mark] { $what }
    } stands after no note
marks-follow = marks and fingerings follow the note they belong to: F#4:half (bend)
not-with-mark-before = ({ $word }) cannot stand with the mark before it
keep-one-of-two = keep one of the two
no-valves = a mouthpiece has no valves
fingering-or-horn = leave the fingering out, or play the line on the horn
tubes-finger = a line on tubes takes its fingerings from tubes
fingering-or-notes = leave the fingering out, or write the line as notes = "…"
one-fingering = a note has one fingering
triplet-over-bar = a triplet cannot cross a bar line
triplet-starts = the triplet starts here
close-triplet = close it before the bar line, and open another after it
opens-nothing = a bracket that opens nothing
group-not-known = { $word }( is not known
tie-or-slur =
    a tie stands after its note and lengthens it: D4:whole tie:half; notes of different pitch are joined by slur( …
    )
did-you-mean-group = did you mean { $meant }( ?
say-which-group = say what it is: slur( … ) or triplet( … )
write-a-group = write slur( … ) or triplet( … )
group-in-group = a { $word } inside a { $word }
first-group-starts = the first one starts here
close-first-group = close the first one with ) before you open another
air-no-slurs = a breathing line has no slurs
leave-brackets-out = leave slur( and its ) out
closes-nothing = a closing bracket with nothing open
groups-are-closed = slur( and triplet( are each closed by one )
slur-never-closed = this slur is never closed
triplet-never-closed = this triplet is never closed
close-after-last = put a ) after its last note
no-commas = notes are parted by blanks, not by commas
commas-out = leave the commas out; where a breath is meant write the word breath
has-no-length = { $head } has no length
tie-names-length = a tie names its own length: tie:quarter
write-quarter = write { $head }:quarter, and the notes after it that name no length are quarters, too
capital-letter = pitches are written with a capital letter
h-is-german = H is the German name of B
b-is-bb = write { $meant }; the German B is Bb here
german-name = { $written } is a German name
german-endings = write { $meant }: is is #, es or s is b, H is B
syllable-is = { $written } is { $meant } here
syllables-are =
    write { $meant }: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first ledger line below
no-octave = { $name } does not say in which octave
octave-after = the octave stands after the accidental
write-octave-after = write { $letter }{ $accidental }{ $octave }
no-doubles = double sharps and flats are not used
same-valve = write { $natural }, which is the same valve
not-written-so = { $head } is not how a pitch is written here
no-such-octave = { $head } is in an octave no brass player reads
octaves-numbered = octaves are numbered from C4, first ledger line below; G4 is second-line G
write-one-of = write { $places }
no-mark = ({ $word }) is no mark for a note
legato-is = held to the full and tongued softly is (legato)
write-accent = write (accent)
write-staccato = write (staccato)
fingering-in-square = a fingering stands in square brackets: [{ $joined }]
did-you-mean-mark = did you mean ({ $mark })?
marks-are = after a note may stand (bend), (staccato), (legato), (accent), (air) or (ku)
no-length-after-colon = { $head } has no length after its colon
write-head-quarter = write { $head }:quarter
no-note-value = { $text } is no note value
tied-by-tie = two notes are tied by the word tie: { $head }:{ $first } tie:{ $first }
blank-parts = a blank parts two notes: { $head }:{ $first } { $second }
no-double-dots = there are no double dots; tie the rest on: { $head }:{ $undotted }. tie:…
dot-after-value = a dot is a full stop after the value: { $head }:{ $undotted }.
write-value-dot = write { $head }:{ $meant }{ $dot }
values-are = values are whole, half, quarter, eighth, sixteenth, and dotted half. and so on
no-fingering = { "[" }{ $text }] is no { $what }
write-fingering = write [{ $meant }]
fingerings-are =
    valves are numbered and joined by hyphens: [1-3]; the open horn is [0]; positions of a slide are numbered 1 to 7
bar-off =
    bar { $number } is { $off } { $which ->
        [short] short
       *[long] too long
    }
bar-holds = a bar of { $meter } holds { $whole }; this one holds { $held }
pickup = { $holds }; a pickup is written as a whole bar that begins with rests
note-values =
    { $n ->
        [one] { $figures } { $value ->
            [half] half
            [quarter] quarter
            [dotted-quarter] dotted quarter
           *[eighth] eighth
        }
       *[other] { $figures } { $value ->
            [half] halves
            [quarter] quarters
            [dotted-quarter] dotted quarters
           *[eighth] eighths
        }
    }
small-number =
    { $n ->
        [1] one
        [2] two
        [3] three
        [4] four
        [5] five
       *[other] { $n }
    }
tempo-bounds = { $key } is a number of clicks a minute, from { $slowest } to { $fastest }
too-many-accidentals = “{ $text }” would have { $accidentals } { $sign }, and a key has at most { $most }
write-meter = write meter = "{ $meter }"
not-understood = { $word } is not understood
write-small = write { $small }
bracket-after = its bracket stands right after it: { $head }( … )
accent-after-note = an accent is written after its note: G4:half (accent)
single-bar-line = a bar line is a single |; a repeat is times = 2 on the line
air-line-holds = a breathing line holds in, out, hold and rest: in:whole out:whole
note-is = a note is its pitch and its length: G4:half
head-not-understood = { $head } is not understood
in-or-out = { $head } does not say whether it goes in or out
write-in-or-out = write in:{ $value } or out:{ $value }
breath-no-length = a breath has no length: its time is taken from the note before it
breath-or-rest = write breath; silence is written rest:{ $value }
write-breath = write breath
in-round-brackets = it stands in round brackets after its note: G4:half({ $mark })
unslurred-is-tongued = what stands in no slur( … ) is tongued
slurred-in-slur = slurred notes stand in slur( … )
repeat-is-times = a repeat is times = 2, in a row of its own under the line
colon-joins = a colon joins a note and its length: { $head }:{ $value }
colon-no-blanks = a colon joins a note and its length, without blanks
write-head-value = write { $head }:{ $value }
length-without-note = { $value } is a length without a note
colon-joins-length = a colon joins a note and its length: G4:{ $value }
not-in-names = { $written } is not one of the names that this file says its notes have
