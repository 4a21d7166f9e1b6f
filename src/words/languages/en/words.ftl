# Numbers, lengths of time, keys and notes, as they are said everywhere.

language-name = English
# What stands before the decimals of a number.
decimal-sign = .
list-and = { $most } and { $last }
# One way of playing after another: slurred, then tongued.
one-then-another = { $first }, then { $second }
times =
    { $n ->
        [1] once
        [2] twice
       *[other] { $n } times
    }
# A number in order; $figures is that of English.
nth =
    { $n ->
        [1] first
        [2] second
        [3] third
        [4] fourth
        [5] fifth
       *[other] { $figures }
    }

## Lengths

seconds =
    { $n ->
        [one] { $n } second
       *[other] { $n } seconds
    }
minutes =
    { $n ->
        [one] { $n } minute
       *[other] { $n } minutes
    }
hours =
    { $n ->
        [one] { $n } hour
       *[other] { $n } hours
    }
# 1:20 minutes.
minutes-on-a-clock = { $clock } minutes
hours-on-a-clock = { $clock } hours
hours-and-minutes = { $hours } and { $minutes }
bars =
    { $n ->
        [one] { $n } bar
       *[other] { $n } bars
    }
beats =
    { $n ->
        [one] { $n } beat
       *[other] { $n } beats
    }
# How long something lasts, and how much of that is playing.
playing-less-than-a-second = about { $whole }, less than a second of it playing
playing-so-many-of-them = about { $whole }, { $n } of them playing
playing-most-of-it = about { $whole }, most of it playing
playing-part-of-it = about { $whole }, { $playing } of it playing
clicks-a-minute = { $tempo } clicks a minute

## Keys

as-written = as written
half-steps-up =
    { $n ->
        [one] { $n } half step up
       *[other] { $n } half steps up
    }
half-steps-down =
    { $n ->
        [one] { $n } half step down
       *[other] { $n } half steps down
    }
# $sizes is a list: 1, 2 and 3.
all-half-steps-up = { $sizes } half steps up
all-half-steps-down = { $sizes } half steps down
# $ordinal is the English word: sixth; $n is the number.
up-to-the-half-step = up to the { $ordinal } half step
down-to-the-half-step = down to the { $ordinal } half step
# Where there is little room.
up-short = { $n } up
down-short = { $n } down
key-name =
    { $letter }{ $alter ->
        [1] { " sharp" }
        [-1] { " flat" }
       *[0] { "" }
    } { $mode ->
        [minor] minor
       *[major] major
    }

## Notes

note-name =
    { $letter }{ $alter ->
        [1] { " sharp" }
        [-1] { " flat" }
        [2] { " double sharp" }
        [-2] { " double flat" }
       *[0] { "" }
    }
on-a-line = { $pitch }, { $nth }-line { $name }
in-a-space = { $pitch }, { $nth }-space { $name }
on-top-of-the-staff = { $pitch }, on top of the staff, { $name }
just-below-the-staff = { $pitch }, just below the staff, { $name }
ledger-line-above = { $pitch }, { $nth } ledger line above, { $name }
above-a-ledger-line = { $pitch }, above the { $nth } ledger line above, { $name }
ledger-line-below = { $pitch }, { $nth } ledger line below, { $name }
below-a-ledger-line = { $pitch }, below the { $nth } ledger line below, { $name }

## Playing

on-valves = on { $tube }
on-the-open-horn = on the open horn
in-position = in position { $tube }
articulation =
    { $word ->
        [slurred] slurred
        [tongued] tongued
       *[as-written] as written
    }

## What stands before a message

severity =
    { $word ->
        [error] error
        [warning] warning
       *[advice] advice
    }
help = help
