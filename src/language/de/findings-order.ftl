## Rules of the order of work around the lockout.
second-person-missing = einen Schritt `{ $what }` tut eine Person, und niemand sonst sieht ihn
    .way-out = `sign: {"{"} performed: <role>, verified: <role> {"}"}` schreiben; eine andere Person als die ausführende prüft (Praxis; 21 CFR 211.188(b)(11))
line-not-cleared = `{ $step }` bringt Material, bevor die Linie geräumt ist
    .way-out = davor einen Schritt `marks: [line-cleared]` setzen, ausgeführt und geprüft (21 CFR 211.130(e); EU-GMP Kapitel 5)
allergen-not-cleaned = `{ $step }` bringt Material, bevor { $allergens } des alten Produkts ausgereinigt ist; das neue Produkt enthält es nicht
    .way-out = davor einen Schritt `marks: [cleaned]` mit Messwert oder Kontrolle setzen, ausgeführt und geprüft (21 CFR 117.135(c))
label-not-checked = `{ $step }` fährt die Linie mit ungeprüftem Etikett; { $allergens } stand auf dem alten
    .way-out = davor einen Schritt `marks: [label-checked]` setzen, ausgeführt und geprüft (21 CFR 117.135(c))
run-without-first-piece = `{ $step }` fährt die Linie, bevor ihre Erststücke gemessen sind
    .way-out = davor einen Schritt `marks: [first-piece]` mit Messwerten setzen, ausgeführt und geprüft (Praxis)
    .why = Ohne Erststücke weiß niemand, dass die Einstellungen stimmen, bevor viele Stücke gemacht sind.
run-not-last = `{ $step }` kommt, nachdem die Linie zum Fahren freigegeben wurde
    .way-out = den Schritt `marks: [run]` den letzten sein lassen (Praxis)
    .why = Was nach der Freigabe getan wird, sieht niemand mehr.
order-unmarked = kein Schritt sagt, dass Material kommt oder die Linie fährt; Räumung, Reinigung und Erststücke lassen sich so nicht beurteilen
    .way-out = `marks: [material-in]` und `marks: [run]` an die Schritte schreiben, die es tun (21 CFR 211.130(e))
