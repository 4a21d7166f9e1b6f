# Which built-in routine suits a player, and why.

ask-a-teacher =
    Before you start, have a word with a teacher: an hour with somebody who hears and sees you play does more at
    this point than any routine.
above-the-tops = { $top } lies above { $open-top }, the highest note these routines start from.{ " " }
not-an-open-note =
    { $top } is not one of the open notes the routines go by; it lies above { $open-top }, so { $open-top }
    counts.{ " " }
eased-by-tube = , and for { $note } where a long tube makes it easy ({ $tube })
fits-if-easy = { " " }It fits if { $note } { $on } speaks easily too.
why-level =
    { $name } (level { $level }) asks for { $top } and what lies below it, down to { $lowest }{ $eased }.
    { $beyond }{ $condition }
below-the-first = { $top } lies below { $first }, the lowest open note
below-the-instrument = { $top } lies below { $lowest }, the lowest note of the { $instrument }
finds-second = , finds { $note } { $on }
why-starter =
    { $below }, so the sound itself comes first: { $routine } begins with { $note } { $on }{ $second }, and shortens
    the tube step by step. { $beyond }
short-enough-for = { " " }Its phrases are short enough for the breath of { $who }.
no-longer-than = { " " }Its phrases are no longer than the breath of { $who }.
longer-breaths = { " " }The routines of level { $level } ask for longer breaths; nothing is lost at the easier level.
below-leave-out =
    { " " }Below { $lowest } { $what ->
        [one] lies a part of one line
       *[other] lie parts of { $what } lines
    } ({ $numbers }): leave out what does not speak.
when-effortless =
    when { $top } { $way } comes without effort on most days, which takes weeks to months; nothing is gained by
    hurrying
when-in-doubt = when in doubt, on a tired day or after a break: what is easy at { $easy } will soon be easy at { $soon }
if-not-easy = if { $note } { $on } does not speak easily yet, and when in doubt
none-beyond = No line goes beyond that.
lines-beyond =
    Only { $n ->
        [one] line { $numbers } goes
       *[other] lines { $numbers } go
    } beyond that, up to { $highest }{ $softly ->
        [softly] { ", softly" }
       *[no] { "" }
    }.
else-try = { " " }If that does not speak, try { $others }.
two-notes =
    { $note } sounds { $on } too, and { $second } lies near, { $interval } { $side } it. Tongue them, one at a time,
    with a rest between.{ $others }
then-slur = Then slur them, from { $high } down to { $low } first, then up again, with the same air.
then-shorten =
    Then shorten the tube, { $unit } by { $unit } ({ $tubes }), as far as both notes come by themselves: { $on }
    they are { $low } and { $high }. Stop there for today.
then-when = { $routine }, when two notes come by themselves. { $why }
without-valves = open
as-a-line = As a line of a routine (leadpipe new makes one to put it into):
start-with = Start with
why = Why
then-play = Then
easier = Easier
