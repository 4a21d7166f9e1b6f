# Ce qui est écrit sur la feuille et le graphique, à côté des mots du professeur.

## Au-dessus d’une ligne

mouthpiece-alone = embouchure seule
listen-first = écouter d’abord, puis jouer
then-the-passes = puis { $passes } ;
the-last-pass = enfin { $words }
as-at-first = comme au début
from-the-note = { $what } à partir de { $note }
times-each = { $times } chacun

## Sous une ligne

rest-between-tempos = Une fois à chaque tempo ; entre les deux, repos : { $lengths }.
then-rest = Ensuite, repos : { $length }.
no-rest-between = Pas de repos entre les fois.
after-the-first-time-rest = Après la première fois, { $bars } de repos ; le métronome continue.
after-each-time-rest = Après chaque fois, { $bars } de repos ; le métronome continue.
after-the-first-time-rest-about = Après la première fois, { $least } à { $most } mesures de repos ; le métronome continue.
after-each-time-rest-about = Après chaque fois, { $least } à { $most } mesures de repos ; le métronome continue.

## Tête et pied

enough-to-begin = { $note } { $tube } suffit pour commencer
enough-to-begin-described = { $note }, { $tube }, suffit pour commencer
should-be-easy = { $note } doit être facile
should-be-easy-described = { $note }, la note à vide la plus haute qui doit être facile
fingerings-used = Doigtés des notes utilisées
positions-used = Positions des notes utilisées
fingerings-described = Doigtés : { $notes }
positions-described = Positions : { $notes }
its-shape = Son profil : hauteur et temps
before-you-play = Avant de jouer
page-number = { " " }· page { $page } sur { $pages }

## Près des notes

bend = infléchir
third-slide-out = tirer la 3e coulisse
air = souffle
ku = ku
breathe-in = inspirer
breathe-out = souffler
breathe-hold = retenir

## Le profil

shape-easy = facile
shape-stretch = effort
shape-beyond = au-delà
shape-rest = repos
shape-one-breath = d’un souffle
shape-play = jeu
shape-time = temps
shape-line = ligne { $number } { $playing } de jeu, { $resting } de repos
shape-range = { $length }, de { $low } à { $high }
shape-described = Hauteur et temps de { $title }, { $length } : { $lines }

## Une portée en mots

system = Ligne { $number }, { $name } : { $bars }
system-goes-on = Ligne { $number }, { $name }, suite : { $bars }
meter = mesure à { $beats } { $unit }
triplet = { $value } de triolet
dotted = { $value } pointée
note-value =
    { $division ->
        [1] ronde
        [2] blanche
        [4] noire
        [8] croche
        [16] double croche
        [32] triple croche
       *[64] quadruple croche
    }
tied-to = tenue jusqu’à { $length }
slurred-to = lié à { $note }
bent-to = infléchi vers { $note }
with-fingering = { $note } avec { $fingering }
breath-after = { $note }, respiration
air-goes-on = encore { $length }
bar-of-rest = une mesure de repos
rest-of = silence { $length }

## Au crayon

pencil-of = Avec les marques au crayon de { $player }
pencil-of-nobody = Avec des marques au crayon
pencil-in-every-line = { $whose } ; à chaque ligne : { $marks }
