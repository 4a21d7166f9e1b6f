# La page de l’élève, telle qu’elle est sans son script.

for-the-instrument = Instrument : { $instrument }, facile jusqu’à { $top }.
home-screen = Mettre sur l’écran d’accueil
sheet-to-print = { $open }{ $sheet }{ $close }, à imprimer.
list-of-tracks = { $open }La liste de toutes les pistes{ $close }, pour un lecteur qui ouvre les listes.
the-sheet = La feuille
the-sheet-in-a-key = La feuille, { $key }

## La carte avant la première note

card-silent = On n’entend rien ? Coupe le mode silencieux du téléphone, et monte le volume peu à peu.
card-wireless =
    Une enceinte ou un casque sans fil joue en retard. Le décompte arrive alors en retard : fie-toi à ce que tu
    entends, pas à ce que tu vois.
card-volume = Règle le volume de façon à entendre ton instrument mieux que la piste.
card-more = Pour jouer sans se faire mal

## Lignes et pistes

the-lines =
    { $n ->
        [one] La ligne
       *[other] Les { $n } lignes
    }
purpose-of-a-line = Pour : { $purpose }
not-played-here = N’est pas jouée ici.
play-from-line = Jouer à partir de la ligne { $number }{ $which }
save-this-track = Enregistrer cette piste
needs-script = Pour jouer, cette page a besoin de JavaScript. La musique se lit aussi sans lui.

## Pendant le jeu

stand-playing = En train de jouer
stand-more = Plus
stand-again = Encore
stand-pause = Arrêt
line-before = Ligne d’avant
next-line = Ligne suivante
stand-slower = Plus lent
stand-faster = Plus vite
again-and-again = Encore et encore
from-note-to-note = D’une note à l’autre
on-with-the-line = Continuer la ligne
stand-pencil = Crayon
stop-playing = Arrêter de jouer
left-hand = Grands boutons à gauche
back-to-the-music = Retour à la musique

## Ce qu’on peut choisir

choose-guide-along = joue avec
choose-guide-first = joue d’abord, puis te laisse le temps
choose-guide-silent = muet
marks-tempo = Vitesse
mark-slower = plus lent
mark-faster = plus vite
marks-rest = Repos après
marks-between = Repos d’une fois à l’autre
mark-longer = plus long
mark-shorter = plus court
marks-articulation = Détacher ou lier
mark-tongued = détaché
mark-slurred = lié
mark-both = les deux
marks-times = Combien de fois
marks-loudness = Force du son
mark-softer = plus doux
mark-louder = plus fort
marks-drone = Bourdon
mark-off = sans
mark-tonic = tonique
mark-tonic-and-fifth = tonique et quinte
marks-guide = Guide sonore
mark-guide-along = joue avec
mark-guide-first = joue d’abord
marks-whole-line = Toute la ligne
mark-leave-out = ne pas jouer
mark-bend = infléchir les demi-tons

## La page d’un élève en texte

practice-what = Ce que tu joues
practice-lines =
    { $n ->
        [one] { $n } ligne
       *[other] { $n } lignes
    }, instrument : { $instrument }. Joue-les avec une de ces pistes :
practice-columns = piste | battements par minute | tonalité | guide sonore | durée | jeu | repos
practice-line-columns = ligne | tempo | fois | comment
practice-pencil = Ton crayon
practice-how-long = Combien de temps
practice-take = { $take } : { $length }, dont { $playing } de jeu et { $rest } de repos
