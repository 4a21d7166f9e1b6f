# Ce que dit le script de la page.

have-read = J’ai lu ceci
before-playing = Avant de jouer

kept-needs-https = Joue ici ; pour la garder sur le téléphone, ouvre-la depuis une adresse https.
kept-no-room = Il n’y avait pas de place sur le téléphone pour toutes les pistes : elles viennent du réseau.
kept = Gardée sur ce téléphone : elle joue sans réseau.
being-kept = Mise en mémoire sur ce téléphone : piste { $kept } sur { $of }.
not-kept = Elle n’a pas pu être gardée sur ce téléphone : { $why }

once-more = Encore une fois jusqu’au bout, puis la suite de la ligne.
slower-percent = Plus lent { $percent }{ "\u00A0" }%
good-percent = Bien : { $percent }{ "\u00A0" }%
again = Encore
loop-bar = Mesure { $n }
loop-time = Fois { $n }, en entier
loop-line = Toute la ligne
looping = Encore et encore, chaque fois après une mesure. Touche Bien après un bon essai : le suivant est plus rapide.
touch-first = Touche la première note
touch-last = Touche la dernière note
back = Retour
from-note = De la note { $note }
to-note = À la note { $note }

marks-not-kept = Ce téléphone ne garde pas tes marques : sa mémoire pour les pages est pleine ou bloquée. Elles restent ici jusqu’à ce que tu fermes la page ; envoie-les d’abord.
undo = Annuler
done-marking = Terminé
marks-everywhere = Marques à chaque ligne
marks-of = Marques : { $title }
rub-out = Gommer
words = Mots
words-for-the-sheet = Pour la feuille
nickname = Ton surnom (peut rester vide)
percent-of-written = Pour cent de ce qui est écrit
make-mark = Marquer
mark-example = En anglais, par exemple : rest 2 bars, tempo 60, half steps 0,-1,-2, tubes 0,2, drone Bb3.
another-mark = Une autre marque, en mots
touch-a-note = Touche une note
breathe-after-it = Respirer après
bend-it = L’infléchir
breath-after-note = respiration après la note { $note }
bend-note = infléchir la note { $note }
no-notes-to-mark = Cette ligne n’a pas de notes à marquer.
stop-after = S’arrêter après
clicks-a-minute = { $tempo } battements par minute

file-too-large = Ce fichier est trop grand pour être un crayon.
file-is-routine = C’est une routine, pas un crayon. Ton professeur en fait une page.
file-is-routine-of = C’est une routine, « { $title } », pas un crayon. Ton professeur en fait une page.
file-is-no-pencil = Ce n’est pas un crayon. { $why }
leave-my-marks = Laisser mes marques comme elles sont
pencil-with-marks = Le crayon de { $player }, avec { $marks }.
nobodys-pencil-with-marks = Un crayon sans nom, avec { $marks }.
so-many-marks =
    { $n ->
        [one] { $n } marque
       *[other] { $n } marques
    }
yours-is = Le tien est le crayon de { $player }.
marks-new = Nouvelles
mark-instead = { $mark }, au lieu de « { $words } »
marks-there = Tu les as déjà
marks-gone = Seulement les tiennes : elles restent si tu ajoutes, et partent si tu remplaces
marks-left-out = Pas pour cette routine : elles sont laissées de côté
add-them = Les ajouter à mes marques
replace-mine = Remplacer mes marques par elles
use-these = Utiliser ces marques
every-line = Chaque ligne

pencil = Crayon
pencil-at = Crayon : { $title }
send-marks = Envoyer mes marques à mon professeur
mark-every-line = Marquer chaque ligne
about-the-pencil = Plus lent ici, une respiration là : tes marques restent sur ce téléphone jusqu’à ce que tu les envoies.
open-marks = Ouvrir des marques d’un fichier
marks-unreadable = Des marques que ce téléphone garde pour cette routine n’ont pas pu être lues. Elles sont mises de côté, et rien n’est écrit par-dessus.
save-unreadable = Les enregistrer dans un fichier pour mon professeur
throw-away = Les jeter
use-new-marks = Utiliser les marques de la nouvelle page au lieu des miennes
marks-to-send = Marques : { $title }

guide = Guide sonore
click = Clic
held-note = Bourdon
volume = Volume sonore
volumes = Volumes sonores
own-volume = Les boutons du téléphone règlent le volume.
player-broke = le lecteur de cette page est tombé en panne
load-again = recharge la page
finished-tracks-play = Le lecteur est tombé en panne. Désormais les pistes toutes faites jouent : touche Continuer.
broke-alone = Le lecteur est tombé en panne. Recharge la page.
no-engine-alone = Ce navigateur est trop ancien pour jouer cette page. Essaie-en un autre, ou demande les pistes à ton professeur.
finished-tracks = Pistes toutes faites à enregistrer

how-to-play = Comment jouer
slower = Plus lent
faster = Plus vite
key = Tonalité
busy = Ce téléphone est occupé. Si rien ne change, recharge la page.
tempo-now = { $tempo } battements par minute ({ $percent }{ "\u00A0" }%)
tempo-printed = Un tempo imprimé au-dessus de la musique vaut pour 100{ "\u00A0" }% : on joue à { $percent }{ "\u00A0" }%.
start-from-one = Commencer à la ligne 1

go-on = Continuer
pause = Arrêt
try-again = Réessayer
from-the-top = Depuis le début
interrupted = Le téléphone a coupé le son, comme pour un appel. Touche Continuer quand tu es prêt.
silent-device = Aucun son ne sort de ce téléphone. Ferme les autres applis qui jouent, vérifie le casque et touche Réessayer. S’il reste muet, recharge la page.
silent-engine = Le son tarde : ce téléphone est occupé. Il viendra peut-être ; sinon, touche Réessayer.
silent-network = La piste n’arrive pas. Le téléphone est-il encore connecté ? Alors touche Réessayer.
which-time = { $n } sur { $times }
ready = prêt
count = compte
breathe = respire
rest-left = repos { $seconds }
listen = écoute
your-turn = à toi
done = fini
line-and-tempo = Ligne { $name }. { $tempo } battements par minute.
last-line-done = C’était la dernière ligne. C’est fait.
next-is = Ensuite : { $name }
rest-then = Repos de { $seconds } secondes. Ensuite : { $name }.
take-your-time = prends ton temps
im-ready = Je suis prêt
hold-the-rest = Prolonger le repos
rest-held = Le repos dure. Touche encore quand tu es prêt.
