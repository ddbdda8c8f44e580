# Anhänger eines Auftrags. Absätze: 29 CFR 1910.147.
tags-title = Anhänger zu Auftrag { $id }
tags-one-each = Ein Anhänger für jedes Trenngerät. Jede Person, die hinter den Schutzeinrichtungen arbeitet, bringt ein eigenes Schloss und einen eigenen Anhänger an. Diese Blätter drucken, an den Linien schneiden und das Loch an der Markierung stanzen.
tags-warns-only = Ein Anhänger warnt und hält nicht: Das tut das Schloss. Wo ein Gerät abschließbar ist, kommt das Schloss daran (29 CFR 1910.147(c)(2)-(3)). Das Papier schützen, damit der Text am Einsatzort lesbar bleibt. Von Hand anbinden, mit einem selbstsperrenden Band, das nicht zweimal verwendet wird und mindestens 50 lb (222 N) zum Lösen braucht, etwa einem einteiligen Kabelbinder aus Nylon (29 CFR 1910.147(c)(5)(ii)). Nur wer Schloss und Anhänger angebracht hat, nimmt sie ab.
tags-first = Örtliche Vorschriften, die Anleitung des Maschinenherstellers und befugte Personen gehen vor. Hat das Werk eigene Anhänger, diese verwenden.
tags-name = Anhänger { $number }: { $device }
tags-legend = NICHT BETÄTIGEN
tags-danger = <strong>GEFAHR.</strong> Das Bewegen dieses Geräts kann einen Menschen töten.
tags-keep = Stellung halten: <strong>{ $safe }</strong>
tags-lock = Schloss: { $lock }.
tags-why = Auftrag <strong>{ $id }</strong>: Umrüsten von { $from } auf { $to }.
tags-person = Name
tags-phone = Telefon
tags-since = Angebracht seit: Datum, Zeit
tags-end = Voraussichtliches Ende: Datum, Zeit
tags-holder = Dieser Anhänger warnt. Er hält das Gerät nicht: Das tut das Schloss. Wo das Gerät abschließbar ist, kommt das Schloss daran. Nur die genannte Person nimmt beide ab.
tags-number = Anhänger { $number } von { $total }, Paket { $digest }
tags-none = Das Paket führt keine Energiequelle auf, daher gibt es kein Gerät zu kennzeichnen.
