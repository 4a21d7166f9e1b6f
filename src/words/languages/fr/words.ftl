# Nombres, durées, tonalités et notes, comme on les dit partout.

language-name = Français
decimal-sign = ,
list-and = { $most } et { $last }
one-then-another = { $first }, puis { $second }
times =
    { $n ->
        [1] une fois
        [2] deux fois
       *[other] { $n } fois
    }
nth =
    { $n ->
        [1] 1re
       *[other] { $n }e
    }

## Durées

seconds =
    { $n ->
        [one] { $n } seconde
       *[other] { $n } secondes
    }
minutes =
    { $n ->
        [one] { $n } minute
       *[other] { $n } minutes
    }
hours =
    { $n ->
        [one] { $n } heure
       *[other] { $n } heures
    }
minutes-on-a-clock = { $clock } minutes
hours-on-a-clock = { $clock } heures
hours-and-minutes = { $hours } et { $minutes }
bars =
    { $n ->
        [one] { $n } mesure
       *[other] { $n } mesures
    }
beats =
    { $n ->
        [one] { $n } temps
       *[other] { $n } temps
    }
playing-less-than-a-second = environ { $whole }, dont moins d’une seconde de jeu
playing-so-many-of-them = environ { $whole }, dont { $n } de jeu
playing-most-of-it = environ { $whole }, presque tout de jeu
playing-part-of-it = environ { $whole }, dont { $playing } de jeu
clicks-a-minute = { $tempo } battements par minute

## Tonalités

as-written = comme écrit
half-steps-up =
    { $n ->
        [one] { $n } demi-ton plus haut
       *[other] { $n } demi-tons plus haut
    }
half-steps-down =
    { $n ->
        [one] { $n } demi-ton plus bas
       *[other] { $n } demi-tons plus bas
    }
all-half-steps-up = { $sizes } demi-tons plus haut
all-half-steps-down = { $sizes } demi-tons plus bas
up-to-the-half-step =
    en montant jusqu’au { $n }e demi-ton
down-to-the-half-step =
    en descendant jusqu’au { $n }e demi-ton
up-short = { $n } plus haut
down-short = { $n } plus bas
# Encore avec les noms anglais des notes, tels qu’ils sont sur la feuille.
key-name =
    { $letter }{ $alter ->
        [1] { " dièse" }
        [-1] { " bémol" }
       *[0] { "" }
    } { $mode ->
        [minor] mineur
       *[major] majeur
    }

## Notes

note-name =
    { $letter }{ $alter ->
        [1] { " dièse" }
        [-1] { " bémol" }
        [2] { " double dièse" }
        [-2] { " double bémol" }
       *[0] { "" }
    }
on-a-line = { $pitch }, { $name } sur la { $nth } ligne
in-a-space = { $pitch }, { $name } dans un interligne, le { $nth }
on-top-of-the-staff = { $pitch }, { $name } au-dessus de la portée
just-below-the-staff = { $pitch }, { $name } sous la portée
ledger-line-above = { $pitch }, { $name } sur la { $nth } ligne supplémentaire au-dessus
above-a-ledger-line = { $pitch }, { $name } au-dessus de la { $nth } ligne supplémentaire du haut
ledger-line-below = { $pitch }, { $name } sur la { $nth } ligne supplémentaire en dessous
below-a-ledger-line = { $pitch }, { $name } sous la { $nth } ligne supplémentaire du bas

## Jeu

on-valves = avec { $tube }
on-the-open-horn = à vide
in-position = en position { $tube }
articulation =
    { $word ->
        [slurred] lié
        [tongued] détaché
       *[as-written] comme écrit
    }

## What stands before a message

severity =
    { $word ->
        [error] erreur
        [warning] avertissement
       *[advice] conseil
    }
help = aide
