# Noms des instruments.

instrument =
    { $id ->
        [trumpet-in-B-flat] trompette en si bémol
        [trumpet-in-C] trompette en ut
        [trumpet-in-E-flat] trompette en mi bémol
        [piccolo-trumpet-in-B-flat] trompette piccolo en si bémol
        [piccolo-trumpet-in-A] trompette piccolo en la
        [cornet] cornet
        [soprano-cornet] cornet soprano
        [flugelhorn] bugle
        [horn-in-F] cor en fa
        [horn-in-B-flat] cor en si bémol
        [double-horn] cor double
        [tenor-horn] saxhorn alto
        [baritone-in-bass-clef] baryton en clé de fa
        [baritone-in-treble-clef] baryton en clé de sol
        [euphonium-in-bass-clef] euphonium en clé de fa
        [euphonium-in-treble-clef] euphonium en clé de sol
        [four-valve-euphonium-in-bass-clef] euphonium à quatre pistons en clé de fa
        [four-valve-euphonium-in-treble-clef] euphonium à quatre pistons en clé de sol
        [compensating-euphonium-in-bass-clef] euphonium compensé en clé de fa
        [compensating-euphonium-in-treble-clef] euphonium compensé en clé de sol
        [trombone] trombone
        [trombone-in-treble-clef] trombone en clé de sol
        [trombone-with-F-attachment] trombone complet
        [bass-trombone] trombone basse
        [tuba-in-E-flat] tuba en mi bémol
        [tuba-in-E-flat-in-treble-clef] tuba en mi bémol en clé de sol
        [compensating-tuba-in-E-flat] tuba compensé en mi bémol
        [compensating-tuba-in-E-flat-in-treble-clef] tuba compensé en mi bémol en clé de sol
        [tuba-in-B-flat] tuba en si bémol
        [four-valve-tuba-in-B-flat] tuba à quatre pistons en si bémol
        [tuba-in-B-flat-in-treble-clef] tuba en si bémol en clé de sol
        [tuba-in-F] tuba en fa
        [tuba-in-C] tuba en ut
       *[other] { $name }
    }
