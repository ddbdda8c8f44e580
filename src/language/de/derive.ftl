# `derive`: wie jede Zahl eines Auftrags ausgerechnet wurde. Glossar: findings.ftl.
derive-head = { $job } an { $machine }: { $from } -> { $to }
derive-other-signed = Hinweis: unterschrieben wurde ein anderes Paket dieses Auftrags; dies sind die Zahlen der heutigen Dateien
derive-unknown = nichts heißt `{ $name }` in diesem Auftrag; er hat: { $known }
derive-dropped = { $name } ({ $id }): wird nicht mehr eingestellt, vorher { $was }

## Köpfe der Zeilen: kurz.
derive-formula = Formel
derive-numbers = Werte
derive-step = Schritt
derive-result = Ergebnis
derive-set-to = Sollwert
derive-limits = Grenzen
derive-with = mit
derive-where = wo
derive-note = Hinweis
derive-source = Quelle
derive-thread = Gewinde
derive-key = Schlüssel
derive-torque = Moment
derive-proof = Prüfkraft
derive-caution = Achtung
derive-datum = Bezug
derive-web = Folie
derive-bar = Balken
derive-scale = Maßstab
derive-tip = Spitze
derive-fixed = fest
derive-holder = Halter
derive-old = alt
derive-position = neu
derive-move = Weg { $number }

## Was hinter einem Kopf steht.
derive-new = neu
derive-was = vorher { $was }
derive-maker-first = das Drehmoment des Maschinenherstellers geht jedem berechneten vor
derive-steps-of = Teilung { $fact }
derive-off-by = Abweichung bis { $fact }
derive-rail = { $name } ({ $id }), Positionen ({ $unit }) ab dem Bezug
derive-lanes = { $count ->
    [one] 1 Bahn
   *[other] { $count } Bahnen
}
derive-tip-left = { $distance } links von der Mitte ihres Halters; die Spitze zählt
derive-tip-right = { $distance } rechts von der Mitte ihres Halters; die Spitze zählt
derive-stepping = ab dem Bezug höchstens { $each } daneben; abgetragen in { $count ->
    [one] 1 Schritt
   *[other] { $count } Schritten
}: schlimmstenfalls { $worst }, als Wurzel der Quadratsumme { $rss }
derive-on-scale = Maßstab { $scale }
derive-not-on-it = nicht darauf
derive-not-known = nicht bekannt
derive-no-move = kein Halter wird verschoben
derive-of-holder = Halter { $number }:
derive-way-set = auf { $to } einstellen
derive-way-off = den Halter bei { $from } von der Schiene nehmen
derive-way-fit = bei { $to } aufsetzen
derive-way-left = { $distance } nach links, auf { $to }
derive-way-right = { $distance } nach rechts, auf { $to }
