## Regeln des Rüstsatzes: Werkzeuge, und ob es genug davon gibt.
tool-twice = `{ $item }` steht zweimal unter den Werkzeugen
    .way-out = einen Eintrag behalten; `count` sagt, wie viele es gibt
too-few-at-once = zu wenige von { $item }: es gibt { $count }; gebraucht werden { $wanted }, für { $jobs }: { $when }
    .way-out = einen Auftrag nach dem Ende des anderen beginnen lassen (`starts`), oder schreiben, wie viele es gibt: `count` des Teils, oder des Werkzeugs in stock.yaml
kit-alone = ein einziger Auftrag
kit-at-once = nach ihren geplanten Zeiten treffen sie sich
kit-cannot-tell = niemand kann sagen, ob zur selben Zeit: ein Auftrag sagt nicht, wann er beginnt oder wie lange er dauert
