# Das Verzeichnis der Regeln: was für einen Teil steht, der jedes Mal anders ist, und warum es Regeln sind.
rules-nearest = der nächste bekannte Name, oder was dort bekannt ist
rules-words = was dort falsch ist, in Worten
rules-remedy = wie das zu beheben ist

## Warum die Regeln eines Themas Regeln sind.
rules-why-energy = Wer eine Quelle sperrt, muss ihre Art, ihre Größe und den Nachweis ihres Nullzustands kennen (29 CFR 1910.147(d)(1), (d)(5)-(6)).
rules-why-hazards = Eine Warnung schützt nur, wenn sie sagt, was verletzt, wie schwer, und wie man es vermeidet (ANSI Z535.4).
rules-why-keys = Eine Unterschrift ist so viel wert wie die Liste der Schlüssel, auf der sie beruht.
rules-why-kit = Wonach zwei Gruppen zugleich greifen, darauf wartet eine von ihnen, während ihre Maschine offen steht.
rules-why-lockout = Nur ausgebildete und befugte Personen sperren, und jede mit einem eigenen Schloss (29 CFR 1910.147(d)(4), (f)(3)).
rules-why-names = Ein Name, der auf nichts zeigt, ließe weg, was jemand gemeint hat, und an der Maschine fiele es niemandem auf.
rules-why-numbers = Eine Einstellung, die nicht zu lesen, zu erreichen oder zu messen ist, wird geschätzt.
rules-why-order = Was vorher auf der Linie war, darf nicht in das nächste Produkt geraten (21 CFR 211.130; 21 CFR 117.135(c)).
rules-why-people = Ein Plan, der mit jemandem rechnet, der nicht da ist, endet in einer Abkürzung.
rules-why-policy = Wer eine Regel abschwächt, steht mit seinem Namen dafür ein, auf Zeit, und nur wo es Ermessen gibt.
rules-why-procedures = Jeder Schritt wird an seiner Überschrift gefunden, an seinem Platz unterschrieben und in seinem Block ausgefüllt.
rules-why-reading = Was nicht zu lesen ist, wird nicht geraten: ein stillschweigend übergangener Schlüssel ist eine Einstellung, die niemand vornimmt.
rules-why-redline = Wer ein altes Blatt liest, muss erkennen können, dass der Text geändert wurde, wann und warum.
rules-why-register = Was freigegeben und geprüft wurde, muss Jahre später zu zeigen sein, ohne dass man jemandem glauben muss.
rules-why-reuse = Ein Text gilt nur dann für viele Maschinen, wenn jede Stelle gesagt ist, die sich unterscheidet, und alles zu sehen ist, was wegblieb.
rules-why-safety = Eine Quelle, die niemand sperrt, entlädt oder nachweist, kann sich bewegen, während jemand hineingreift (29 CFR 1910.147(d)).
rules-why-stop = Je länger eine Linie steht, desto mehr wird in Eile ausgelassen; und je schneller sie umgerüstet wird, desto sicherer muss sein, wer wo ist.
rules-why-trade = Ein Paket darf nicht verlangen, was Maschine, Schraube, Folie oder Messmittel nicht können.
rules-why-translation = Wer in einer anderen Sprache liest, muss dasselbe erfahren, nicht mehr und nicht weniger.
rules-why-walk = Niemand darf innen sein, bevor jede Quelle gesperrt und nachgewiesen ist, und keine Energie darf kommen, bevor alle draußen sind (29 CFR 1910.147(d)-(f)).
rules-why-writing = Ein Schritt wird einmal gelesen, unter Zeitdruck, oft nicht in der ersten Sprache des Lesers.
