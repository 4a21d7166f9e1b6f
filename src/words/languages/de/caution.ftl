# Der Vorsichtshinweis. Er sagt alles, was der englische sagt.

caution-short =
    Hör sofort auf bei Schmerzen, Taubheit, Schwindel oder einer verletzten oder geschwollenen Lippe: Damit ist
    das Üben für heute zu Ende. Kommt es wieder, sag es deiner Lehrkraft und geh zum Arzt. Musst du für einen Ton
    drücken, spiel tiefer. Fang leise an. Nur allgemeine Hinweise: Lehrkraft, Arzt und Zahnarzt wissen es besser.
caution-pain =
    Hör sofort auf, wenn etwas wehtut oder taub wird, wenn dir schwindlig wird oder wenn die Lippe verletzt oder
    geschwollen ist. Schmerz beendet das Üben für heute. Kommt er wieder, sag es deiner Lehrkraft und geh zum Arzt.
caution-pressing =
    Kommt ein Ton nur, wenn du das Mundstück an die Lippe drückst, ist er noch zu hoch: Spiel tiefer. Mach
    mindestens so lange Pause, wie du spielst, und jede halbe Stunde eine längere.
caution-break =
    Nach einer Krankheit oder Pause, mit neuer Zahnspange oder nach einer Zahnbehandlung frag zuerst deine Lehrkraft
    und deinen Zahnarzt, und fang mit einer leichteren Übungsfolge wieder an. Steigere die Spielzeit langsam.
caution-breathing =
    Setz dich für Atemübungen hin, und atme wieder wie gewohnt, sobald dir schwindlig wird.
caution-volume =
    Starte die Aufnahme leise. Stell sie so ein, dass du immer dein eigenes Instrument hörst, nie so laut, dass sie
    es übertönt, vor allem mit Kopfhörern. Klingeln dir die Ohren, hör auf und stell beim nächsten Mal leiser; bleibt
    das Klingeln, geh zum Arzt oder zur Hörberatung.
caution-general =
    Das sind allgemeine Hinweise. Sie sind keine Diagnose und kein Versprechen, dass etwas für dich unbedenklich ist.
    Was Lehrkraft, Arzt, Zahnarzt oder Hörberatung sagen, geht vor.
