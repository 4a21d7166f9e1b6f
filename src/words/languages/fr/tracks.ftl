# Comment on joue une piste : sur la page, et telle que la montrent les lecteurs de musique.

on-the-mouthpiece = À l’embouchure.
without-the-horn = Respiration, sans instrument.
the-others-play = Compte : les autres jouent.
count-while-they-play = Compte pendant que jouent : { $names }.
lasts = Dure { $length }.
times-through = { $times } fois, { $length }.
then-rest-for = Ensuite, repos : { $length }.
then-done = Et voilà, c’est fait.
open-horn = à vide
take-guide =
    { $mode ->
        [echo] le guide joue d’abord
        [off] sans guide
       *[together] le guide joue avec
    }
# Un chapitre : une ligne à plusieurs tempos.
chapter-at = { $label }, tempo { $tempo }
# Une voix seule.
part-alone =
    { $take }, { $part ->
        [click] clic seul
        [drone] bourdon seul
       *[guide] guide seul
    }
