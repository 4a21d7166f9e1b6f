# What a button does that mends a problem. Only what stands in quotes or is a word of the file is given.

mend-entry = Write { $entry }
mend-word = Write { $meant } instead of { $wrong }
mend-later = Move the line back: let it be line { $n }
mend-rests = Rest after every line as long as it plays
mend-fingering = Finger it { $fingering }
mend-no-fingering = Take its fingering out
mend-no-bend = Finger it instead of bending it
mend-breath = Breathe after note { $n }, { $pitch }
mend-breaths = Breathe after notes { $first } and { $second }
