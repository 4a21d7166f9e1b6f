# La mise en garde. Elle dit tout ce que dit l’anglaise.

caution-short =
    Arrête tout de suite en cas de douleur, d’engourdissement, de vertige, ou si la lèvre est coupée ou enflée : c’est
    fini pour aujourd’hui. Si cela revient, dis-le à ton professeur et va voir un médecin. S’il faut appuyer pour une
    note, joue plus bas. Commence à faible volume. Information générale : ton professeur, ton médecin et ton dentiste
    savent mieux.
caution-pain =
    Arrête tout de suite si quelque chose fait mal, s’engourdit ou donne le vertige, ou si la lèvre est coupée ou enflée.
    La douleur met fin au jeu pour aujourd’hui. Si elle revient, dis-le à ton professeur et va voir un médecin.
caution-pressing =
    Si une note ne vient qu’en appuyant l’embouchure contre la lèvre, elle est trop haute pour le moment : joue plus bas.
    Repose-toi au moins aussi longtemps que tu joues, et fais une pause plus longue toutes les demi-heures.
caution-break =
    Après une maladie ou un arrêt, avec un nouvel appareil dentaire ou après des soins dentaires, demande d’abord à ton
    professeur et à ton dentiste, et recommence par une routine plus facile. Augmente lentement le temps de jeu.
caution-breathing =
    Assieds-toi pour les exercices de respiration, et respire comme d’habitude dès que la tête te tourne.
caution-volume =
    Commence la piste à faible volume. Règle-la de façon à toujours entendre ton propre instrument, jamais si fort
    qu’elle le couvre, surtout au casque. Si tes oreilles sifflent, arrête, et baisse le volume la prochaine fois ; si
    le sifflement reste, va voir un médecin ou un audiologiste.
caution-general =
    Ceci est une information générale. Ce n’est ni un diagnostic ni la promesse que quelque chose est sans danger pour
    toi. Ce que disent ton professeur, ton médecin, ton dentiste ou ton audiologiste passe d’abord.
