# How a track is played: on the page, and as players of music show it.

on-the-mouthpiece = On the mouthpiece.
without-the-horn = Breathing, without the horn.
the-others-play = Count: the others play.
count-while-they-play = Count while these play: { $names }.
lasts = Lasts { $length }.
times-through = { $times } times through, { $length }.
then-rest-for = Then rest for { $length }.
then-done = Then you have done it.
open-horn = open horn
take-guide =
    guide { $mode ->
        [echo] echo
        [off] off
       *[together] together
    }
# A chapter of a track: a line that is played at several tempos.
chapter-at = { $label }, at { $tempo }
# A track with one part alone.
part-alone =
    { $take }, { $part ->
        [click] click
        [drone] drone
       *[guide] guide
    } alone
