## Rules of reading: YAML and its shape.
not-yaml = das ist kein YAML: { $message }
    .way-out = auf Einrückung (Leerzeichen, keine Tabulatoren) und Klammern achten; Text mit Doppelpunkt in Anführungszeichen setzen
unknown-key = unbekannter Schlüssel `{ $key }`
    .way-out = { $nearest }
missing-key = der Schlüssel `{ $key }` fehlt
    .way-out = `{ $key }: ...` ergänzen
key-twice = der Schlüssel `{ $key }` steht zweimal da
    .way-out = einen der beiden stehen lassen
    .why = Leser von YAML nehmen mal den einen, mal den anderen.
unknown-word = `{ $word }` ist hier kein bekanntes Wort
    .way-out = { $nearest }
wrong-shape = erwartet: { $expected }, gefunden: { $found }
    .way-out = { $remedy }

## Rules of files.
no-such-file = der Betrieb hat keine Datei { $name }
    .way-out = { $name } schreiben
link-refused = das ist eine Verknüpfung oder keine gewöhnliche Datei und wird nicht verfolgt
    .way-out = die Datei selbst in den Ordner des Betriebs legen
    .why = Eine Verknüpfung kann aus dem Ordner hinausführen, zu einer Datei, die sich ändert, ohne dass es hier jemand sieht.
file-too-large = diese Datei ist größer als { $kibibytes } KiB
    .way-out = sie aufteilen
    .why = So viel schreibt niemand von Hand: es ist ein Versehen oder soll schaden.
not-utf8 = diese Datei ist kein UTF-8-Text (Byte { $byte })
    .way-out = als UTF-8 speichern
stray-file = Dateien in diesem Ordner enden auf { $ending }; diese wird nicht gelesen
    .way-out = den Namen auf { $ending } enden lassen, oder die Datei woanders ablegen
    .why = Eine Datei mit anderer Endung wird leicht für eine gehalten, die zählt.
id-is-not-file-name = die Kennung ist `{ $id }`, die Datei heißt `{ $stem }`
    .way-out = beiden denselben Namen geben
    .why = Wer eine Kennung sucht, sucht ihre Datei.
bad-id = `{ $id }` kann keine Kennung sein
    .way-out = Buchstaben, Ziffern und Bindestriche verwenden, höchstens 64
    .why = Eine Kennung steht in Verweisen, Dateinamen und Unterschriften.

## Rules of keys.
bad-signer = diesem Unterzeichner wird nicht vertraut: { $words } ({ $code })
    .way-out = je Schlüssel eine Zeile schreiben: person namespaces="signoff@DOMAIN",valid-after="...Z",valid-before="...Z" ssh-ed25519 ...
    .why = Eine halb verstandene Zeile könnte einen Schlüssel gelten lassen, den niemand gemeint hat.

## Parts of the above.
yaml-too-deep = mehr als { $most } Klammern stehen ineinander
yaml-grows = seine Aliase wiederholen zu viel
braces-with-percent = erlaubt sind nur Werte in doppelten geschweiften Klammern, keine anderen mit %
braces-unclosed = das schließende {"}"}{"}"} fehlt
braces-without-name = zwischen doppelten Klammern steht ein einziger Name, etwa strip oder strip.limits
braces-in-code = in Code kann kein Wert eingesetzt werden
