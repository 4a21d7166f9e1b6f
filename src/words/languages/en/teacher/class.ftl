# Class lists.

try-next-level =
    plays up to { $top } with ease, and “{ $title }” asks for { $of-routine }: might try the next level, such as
    { $next }
set-too-high =
    plays up to { $top } with ease, and “{ $title }” asks for { $of-routine }: it is set above what is comfortable;
    { $suits } would suit
group-opened-twice = a group is opened by [[group]], with two brackets on each side
group-own-row-named = write [[group]] in a row of its own; players name it: group = "Tuesday brass"
group-opened = a group is opened by [[group]]
group-own-row = write [[group]] in a row of its own
to-a-player = to a player: put it under a [[player]]
group-without-name = this group has no name
players-name-it = its players name it: name = "Tuesday brass"
together-is = together is true or false
write-together = write together = true, without quotation marks
two-groups-called = two groups are called { $name }
the-first-group = the first
another-group-name = give one of them another name
write-group = write [[group]] above the players, and under it name = "{ $name }"
groups-are = the groups of this list are { $names }
no-group-called = there is no group called { $name }
play-together = players of { $group } play together, so { $key } is the same for all
the-group = the group
leave-pencil-out = leave pencil out, or write the marks into the routine
leave-carry-out = leave carry out: they play at one concert pitch
under-the-group = leave { $key } out here, and write it under the [[group]]
no-class-list = there is no class list in this file
class-list-begins = a class list begins with format = 1; then comes a [[player]] for each player
no-players = there are no players in this list
write-a-player = write [[player]] in a row of its own, and under it name = "…" and routine = "…"
player-opened-twice = a player is opened by [[player]], with two brackets on each side
player-own-row = write [[player]] in a row of its own
too-many-players = this list has { $players } players; { $most-players } are the most
list-for-each-class = make a list for each class
player-opened = a player is opened by [[player]]
no-routine-of-player = this player has no routine
name-a-routine = name a built-in one or a file beside this list: routine = "second-steps"
player-without-name = this player has no name
nickname-enough = a nickname is enough: name = "Anna"
two-players-called = two players are called { $name }
the-first-player = the first
tell-them-apart = tell them apart with a nickname: each has a folder of that name
age-cannot-be = age cannot be "{ $age }"
age-can-be = it can be "8-10", "11-13", "14-16" or "adult"
key-is-number = a key is a number of half steps up or down
for-instance-keys = for instance key = [0, -1]; { $farthest-key } are the most
no-guide-mode = this is no guide mode
guide-can-be = it can be "together", "echo" or "off"
speaks-not = leadpipe does not speak “{ $tag }”
tag-for-language = "{ $tag }" for { $name }
list-entries-from = { $key } holds from 1 to { $most-of-each } entries
for-instance-list = for instance { $key } = { $example }
no-tempo-of-take = this is no tempo
tempo-of-take = write clicks a minute from 20 to 300 (72), or a part of what is written ("85%")
to-look-at = To look at
suggestions = Suggestions
who-plays-what = Who plays what
pencil-marks = Pencil marks
