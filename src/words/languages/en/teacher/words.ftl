# How many, how far, which one: as a teacher is told.

n-advice =
    { $n ->
        [one] { $n } piece of advice
       *[other] { $n } pieces of advice
    }
n-bars =
    { $n ->
        [one] { $n } bar
       *[other] { $n } bars
    }
n-beats =
    { $n ->
        [one] { $n } beat
       *[other] { $n } beats
    }
n-errors =
    { $n ->
        [one] { $n } error
       *[other] { $n } errors
    }
n-faults =
    { $n ->
        [one] { $n } fault
       *[other] { $n } faults
    }
n-files =
    { $n ->
        [one] { $n } file
       *[other] { $n } files
    }
n-half-steps =
    { $n ->
        [one] { $n } half step
       *[other] { $n } half steps
    }
n-hours =
    { $n ->
        [one] { $n } hour
       *[other] { $n } hours
    }
n-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
n-marks =
    { $n ->
        [one] { $n } mark
       *[other] { $n } marks
    }
n-minutes =
    { $n ->
        [one] { $n } minute
       *[other] { $n } minutes
    }
n-more-notes =
    { $n ->
        [one] { $n } more note
       *[other] { $n } more notes
    }
n-notes =
    { $n ->
        [one] { $n } note
       *[other] { $n } notes
    }
n-other-phrases =
    { $n ->
        [one] { $n } other phrase
       *[other] { $n } other phrases
    }
n-other-tracks =
    { $n ->
        [one] { $n } other track
       *[other] { $n } other tracks
    }
n-pages =
    { $n ->
        [one] { $n } page
       *[other] { $n } pages
    }
n-partials =
    { $n ->
        [one] { $n } partial
       *[other] { $n } partials
    }
n-passes =
    { $n ->
        [one] { $n } pass
       *[other] { $n } passes
    }
n-players =
    { $n ->
        [one] { $n } player
       *[other] { $n } players
    }
n-seconds =
    { $n ->
        [one] { $n } second
       *[other] { $n } seconds
    }
n-things =
    { $n ->
        [one] { $n } thing
       *[other] { $n } things
    }
n-tracks =
    { $n ->
        [one] { $n } track
       *[other] { $n } tracks
    }
n-unfinished-files =
    { $n ->
        [one] { $n } unfinished file
       *[other] { $n } unfinished files
    }
n-warnings =
    { $n ->
        [one] { $n } warning
       *[other] { $n } warnings
    }
interval =
    { $n ->
        [0] the same note
        [1] a half step
        [2] a whole step
        [3] a minor third
        [4] a major third
        [5] a fourth
        [6] a tritone
        [7] a fifth
        [8] a minor sixth
        [9] a major sixth
        [10] a minor seventh
        [11] a major seventh
        [12] an octave
        [13] a minor ninth
        [14] a ninth
        [15] a minor tenth
        [16] a major tenth
        [17] an eleventh
        [18] an octave and a tritone
        [19] a twelfth
        [20] an octave and a minor sixth
        [21] an octave and a major sixth
        [22] an octave and a minor seventh
        [23] an octave and a major seventh
        [24] two octaves
       *[other] { $n } half steps
    }
nth-in-figures = { $figures }
nth-written-out = { $written }
list-or = { $most } or { $last }
list-more = { $most } and { $more } more
no-beats = nothing
half-a-beat = half a beat
third-of-a-beat = a third of a beat
quarter-of-a-beat = a quarter of a beat
part-of-a-beat = { $n }/{ $d } of a beat
one-beat = one beat
some-beats = { $n } beats
beats-and-a-part = { $n } { $a }/{ $b } beats
whose-breath =
    { $age ->
        [adult] a grown player
       *[other] a pupil of { $age }
    }
list-all = { $most } and { $last }
writes-four-valves = valves are numbered 1, 2, 3, 4 and joined by hyphens: [2-4]; the open horn is [0]
writes-thumb-valve =
    valves are numbered 1, 2, 3 and joined by hyphens: [1-3]; the open horn is [0], and T is the thumb: [T0], [T12]
writes-valves = valves are numbered 1, 2, 3 and joined by hyphens: [1-3]; the open horn is [0]
writes-attachment =
    positions are numbered 1 to 7; [2+] is the second, a little shorter, for the seventh partial; the attachment is
    T: [T1], [T2], [T3], [T5], [T6], [T7]
writes-positions = positions are numbered 1 to 7: [4]; [2+] is the second, a little shorter, for the seventh partial
