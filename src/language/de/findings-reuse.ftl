# Regeln für einen Text an vielen Maschinen.
unknown-parameter = die Anweisung `{ $id }` hat keinen Parameter `{ $name }`
    .way-out = { $nearest }
missing-parameter = der Anweisung `{ $id }` fehlt `{ $name }`: { $what }
    .way-out = {"{"} procedure: { $id }, with: {"{"} { $name }: ... {"}"} {"}"} schreiben, oder dem Parameter ein `default` geben
bad-parameter = `{ $name }` der Anweisung `{ $id }` ist { $what }, und `{ $value }` ist das nicht
    .way-out = { $nearest }
include-not-alone = eine eingefügte Anweisung steht allein unter ihrer Überschrift, und `{ $title }` enthält mehr
    .way-out = Text, Schritte und andere eingefügte Anweisungen unter eigene Überschriften stellen
include-circle = diese Anweisungen fügen einander im Kreis ein: { $circle }
    .way-out = eine davon herausnehmen
include-too-deep = `{ $id }` steht in { $most } anderen Anweisungen
    .way-out = dort einfügen, wo sie gebraucht wird; ein Leser folgt höchstens { $most }
too-many-procedures = diese Umrüstung braucht mehr als { $most } Anweisungen, eingefügte mitgezählt
    .way-out = eine Anweisung suchen, die eine andere immer wieder einfügt
unknown-feature = keine Maschine dieses Werks hat `{ $name }`, also würde dies nie getan
    .way-out = { $nearest }
unknown-kind = keine Maschine dieses Werks ist von der Art `{ $kind }`
    .way-out = { $nearest }
order-missing = diese Maschine hat kein `changeover`, und das Werk hat keine Reihenfolge für ihre Art
    .way-out = ihre Anweisungen unter `changeover` aufzählen, oder `changeovers: {"{"} "{ $kind }": [...] {"}"}` in plant.yaml schreiben

## Teile davon.
parameter-rail = eine Schiene der Maschine
parameter-zone = ein Bereich der Maschine
parameter-setting = eine Einstellung des gewünschten Rezepts
parameter-instrument = ein Messgerät an der Maschine
parameter-quantity = eine Größe in { $unit }
parameter-text = ein Text
parameter-none = sie hat keine: `with` herausnehmen
parameter-write = { $what } angeben
