# Namen der Instrumente.

instrument =
    { $id ->
        [trumpet-in-B-flat] Trompete in B
        [trumpet-in-C] Trompete in C
        [trumpet-in-E-flat] Trompete in Es
        [piccolo-trumpet-in-B-flat] Piccolotrompete in B
        [piccolo-trumpet-in-A] Piccolotrompete in A
        [cornet] Kornett
        [soprano-cornet] Sopran-Kornett
        [flugelhorn] Flügelhorn
        [horn-in-F] Horn in F
        [horn-in-B-flat] Horn in B
        [double-horn] Doppelhorn
        [tenor-horn] Althorn in Es
        [baritone-in-bass-clef] Bariton im Bassschlüssel
        [baritone-in-treble-clef] Bariton im Violinschlüssel
        [euphonium-in-bass-clef] Euphonium im Bassschlüssel
        [euphonium-in-treble-clef] Euphonium im Violinschlüssel
        [four-valve-euphonium-in-bass-clef] Euphonium mit vier Ventilen im Bassschlüssel
        [four-valve-euphonium-in-treble-clef] Euphonium mit vier Ventilen im Violinschlüssel
        [compensating-euphonium-in-bass-clef] Euphonium mit Kompensation im Bassschlüssel
        [compensating-euphonium-in-treble-clef] Euphonium mit Kompensation im Violinschlüssel
        [trombone] Posaune
        [trombone-in-treble-clef] Posaune im Violinschlüssel
        [trombone-with-F-attachment] Posaune mit Quartventil
        [bass-trombone] Bassposaune
        [tuba-in-E-flat] Tuba in Es
        [tuba-in-E-flat-in-treble-clef] Tuba in Es im Violinschlüssel
        [compensating-tuba-in-E-flat] Tuba in Es mit Kompensation
        [compensating-tuba-in-E-flat-in-treble-clef] Tuba in Es mit Kompensation im Violinschlüssel
        [tuba-in-B-flat] Tuba in B
        [four-valve-tuba-in-B-flat] Tuba in B mit vier Ventilen
        [tuba-in-B-flat-in-treble-clef] Tuba in B im Violinschlüssel
        [tuba-in-F] Tuba in F
        [tuba-in-C] Tuba in C
       *[other] { $name }
    }
