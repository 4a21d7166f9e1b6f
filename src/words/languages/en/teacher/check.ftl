# What the checker finds.

placed = { $place } { $what }
in-quotes = “{ $name }”
the-nth-note = { $pitch }, the { $nth } note
place-of-notes = { $line }: { $note }{ $pass }{ $more },
further-pass = , { $pass }
in-brackets = { " " }({ $what })
and-other-phrases = { " " }(and also { $phrases } of this line)
air-from-to = from { $from }, to { $to }, the air must last { $air }
air-of-one-note = { $note }, takes { $air } of air
seconds-at = { $seconds } s at { $clicks }
long-breath =
    { $line }{ $pass }: { $what }{ $others }; an easy breath lasts { $who } about { $lasts } s at this loudness
faster-or-softer = play it at a faster tempo or softer, or leave out a note: a breath would break the slur
shorten-the-note = shorten the note, or play it softer or at a faster tempo
breath-would-help = `breath` would help after { $places }
breath-after-more = , after{ " " }
end-of-bar = { " " }(the end of bar { $bars })
after-note = the { $nth } note, { $pitch }{ $bar }
above-reach = lies above { $reach }, the highest note the routine reaches for
write-it-within-reach = write it lower, or on a tube where it is easy; `reach` is { $reach }
above-comfort = lies above what is comfortable with { $top } as the top
write-it-lower =
    write it lower, or on a tube where it is easy; if the routine is meant to stretch that far, say so at its head
    with `reach`
early-stretch = stretches above { $top } in the first third of the playing, before the lips are warm
move-the-line-back = move the line further back, or lower it
loud-stretch = stretches above { $top } and is louder than { $stretch-loudest }
softer-stretch = write { $stretch-loudest } or softer where a note is a stretch
much-stretch = { $part } % of the playing stretches above { $top }: more than { $most } % tires the lips in a warm-up
more-comfort = write more lines that stay comfortable, or lower some that stretch
no-further = this line can go no further than { $room }
leave-tube-out = leave this tube out, or write higher notes in `open`
does-not-sound = does not sound { $on }: that { $tube } sounds { $notes }
write-open-notes = write notes of the open horn in `open` ({ $notes }); the line then moves through its tubes by itself
out-of-tune = is the { $nth } partial { $of-tube }, { $cents } cents { $side }: nobody plays it in tune
leave-partial-out = leave the { $nth } partial out of `open` ({ $notes })
starts-the-pass = is a bend but starts the pass: there is no note to bend it from
bend-after-breath = is a bend but comes after a breath: there is no note to bend it from
bend-after-rest = is a bend but comes after a rest: there is no note to bend it from
follow-right-after = let it follow right after { $from }, or leave `(bend)` out and finger it
bend-of-nothing = is a bend from { $from }, the same note
bend-upwards = is a bend upwards from { $from }: lips bend a note down, not up
bend-too-far = is bent down from { $from } by { $interval }: further than the half step that a lip bends
bend-a-half-step = bend { $from } to { $to }, or leave `(bend)` out and finger the note
bend-first = is bent from { $from } before { $from } and { $to } were fingered
finger-it-first =
    first finger it, then bend it: play { $from } { $to } { $from } on the valves, in an earlier line or pass, so
    that the ear knows where the lip must go
of-position = of position { $tube }
of-fingering = of { $tube }
outside-the-instrument = { $pitch } lies outside the { $instrument }
sounds-on = { $pitch } sounds { $on }
sounds-on-others = { $pitch } sounds { $on }; other { $what } for it: { $others }
wide-slur =
    { $place } is slurred from { $from } on one tube and skips { $partials }: a player whose top is { $top } should
    skip { $allowed }
no-more-than = no more than { $most }
by-the-partials = go by way of the partials between, or tongue the second note
pencil-cuts-rest = with this mark { $whose } rests for less time than it plays
the-routine = the routine
take-the-mark-back =
    lips grow strong while they rest: take the mark back, or write "same", which rests as long as it plays
in-passes = in { $passes }
and-notes = and { $notes }
and-notes-in-passes = and { $notes }, { $in-passes }
long-pass = one pass plays for { $lasts } without a rest
divide-it = divide it, with a few bars of rest or over two lines, or play it faster
long-playing = the lips play for { $lasts } before there is a rest as long as the last pass
rest-sooner = rest sooner: `between = "same"`, or a rest after a line; it rests as long as it plays
short-rest = { $line }: it plays for { $plays } and rests for { $rests }
rest-as-long = rest at least as long as you play: `rest = "same"` and `between = "same"`
short-rest-whole = the routine plays for { $plays } and rests for { $rests } in between
longer-rests = a warm-up rests at least as long as it plays: give some lines longer rests
with-reasons = { $line }: { $what }: { $reasons }
named-note = { $pitch } (the { $nth } note{ $pass })
louder-than = { $note } is louder than { $than }
not-comfortable = { $note } lies above what is comfortable
is-fast = { $note } is fast
begin-easily = begin with breathing, with the mouthpiece, or with a few long notes within a fifth, not louder than mf
hard-beginning = the first line is not easy
goes-from-to = it goes from { $low } to { $high }, { $interval }
only-climbs = the routine only climbs: no line's highest note is lower than that of the line before it
come-down-again = come down again on the way, and end lower than you have been: the lips relax in the low notes
end-gently =
    end with quiet, low, comfortable notes, { $end-loudest } or softer (a pass starts at mf unless a mark says
    otherwise)
hard-ending = the last line is not a gentle end
bend-past-the-slide = is a bend, and the slide is out as far as it goes
bend-shorter = bend a note of a shorter position: a trombone bends with the slide
soft-tongue =
    is slurred from { $from } where the slide would smear, so it is played with a soft tongue and without a gap
soft-tongue-usual =
    that is usual on a trombone; for a slur without the tongue choose notes on another partial, against which the
    slide moves
long-arm = lies in position { $number }, and many arms of 8–10 years end before it
stop-the-walk = stop the walk where the arm ends, or use an F attachment or a smaller trombone
skip-none = none
of-a-line = { $line }: { $what }
pass-goes-to = “{ $name }”: the pass { $pass } goes to { $note }, { $place }
above-the-highest = above { $highest }, the highest note here for the { $instrument }
between-pedal-and-lowest = between { $open }, a pedal tone, and { $lowest }, the lowest other note of the { $instrument }
below-the-last-pedal = below { $last }, the lowest pedal tone of the { $instrument }
below-the-lowest = below { $lowest }, the lowest note of the { $instrument }
