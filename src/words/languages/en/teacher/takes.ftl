# Takes, as they are asked for and refused.

tempo-expected = write clicks a minute (72) or a percentage of the written tempo (85%)
tempo-too-fine = a tempo has at most three decimals; round it
tempos-and-percent =
    tempos go from { $slowest } to { $fastest } clicks a minute; a percentage of the written tempo ends in % (85%);
    two tempos are separated by a comma
key-is-half-steps = a key is a number of half steps up or down (-2), at most { $farthest }
key-is-half-steps-or-name =
    a key is a number of half steps up or down (-2), at most { $farthest }, or a name: "B-flat major", Bb
stays-in-its-mode = “{ $title }” is in { $from }: moved, it stays in { $mode }
write-key = write --key "{ $tonic } { $mode }"
says-no-key = “{ $title }” does not say which key it is in
write-the-key =
    write it at the head of the routine, as the player reads it (key = "C major"), or move it by half steps (--key
    -2)
guide-expected = the guide is together, echo or off
a-four-from-to = A4 is from { $lowest } to { $highest } hertz: 442
temperament-expected = the temperament is equal, just or horn
at-the-take = at { $facts }
notice = note: line { $number }: { $message }
line-and-name = line { $number } “{ $name }”
would-come-to = at { $take }, { $whose } would come to { $clicks } clicks a minute
tempos-from-to = tempos go from { $slowest } to { $fastest } clicks a minute
take-too-long = “{ $title }” { $at } would last { $lasts } or more, and a track can last four hours
shorter-take = fewer times, half_steps or tubes make it shorter, and so do shorter rests
nothing-fits = no line of “{ $title }” { $at } fits the compass of the { $instrument }
nearer-key = choose a key closer to the written one
line-left-out = “{ $name }” { $why }
pass-left-out = “{ $name }” { $pass } { $why }
stays-in-its-key = “{ $name }” stays in its key, because fingerings are written in it
below-lowest = below { $pitch }
above-highest = above { $pitch }
outside-compass = is left out: { $outside } lies { $side }, outside the { $instrument }
