# Das Register: Freigaben von Anweisungen und Rezepten, Prüfungen des Sperrens.

## Befunde der Prüfung.
register-entry = dieser Eintrag des Registers zählt nicht: { $what }
    .way-out = `witnessmark audit` ausführen; den Eintrag lassen, wie er ist, und neu unterschreiben, was er sagen sollte
register-nobody-can-sign = niemand mit der Rolle `{ $role }` hat einen Schlüssel, der für Freigaben eingetragen ist
    .way-out = in allowed_signers den Zweck bei den `namespaces` des Schlüssels ergänzen: namespaces="signoff@...,{ $namespace }"

## Arten von Einträgen.
register-approved = freigegeben
register-withdrawn = zurückgezogen
register-inspected = geprüft

## Warum ein Eintrag nicht der nächste sein darf.
register-version = hat die Formatversion { $version }, und dieses Programm liest 1
    .way-out = das Programm nehmen, das ihn geschrieben hat
register-nobody-approves = gibt { $subject } frei, und plant.yaml sagt nicht, welche Rolle das tut
    .way-out = `approvals: {"{"} procedures: <Rolle>, recipes: <Rolle> {"}"}` in plant.yaml schreiben
register-other-role = ist in einer anderen Rolle unterschrieben als `{ $role }`, die das freigibt
    .way-out = jemanden mit dieser Rolle unterschreiben lassen
register-own-work = gibt { $subject } frei, und dieselbe Person hat es geschrieben
    .way-out = eine andere Person mit dieser Rolle freigeben lassen, etwa { $name }
register-approved-already = gibt { $subject } mit denselben Bytes frei wie Eintrag { $entry }
    .way-out = weglassen
register-no-approval = zieht Eintrag { $entry } zurück, der keine Freigabe ist, die zählt
    .way-out = eine Freigabe nennen
register-withdrawn-already = zieht Eintrag { $entry } zurück, der schon zurückgezogen ist
    .way-out = weglassen
register-other-approval = zieht Eintrag { $entry } zurück, der etwas anderes freigibt
    .way-out = Text, Revision und Prüfsumme der Freigabe nennen
register-inspector-role = ist von jemandem unterschrieben, der nicht zum Sperren berechtigt ist ({ $roles })
    .way-out = eine berechtigte Person prüfen lassen, die die Anweisung nicht benutzt (29 CFR 1910.147(c)(6)(i)(A))
register-inspects-procedures = prüft { $subject }, und das ist keine Anweisung
    .way-out = die Anweisung in der Sprache nennen, in der sie geschrieben ist
register-inspects-self = ist von einer der geprüften Personen unterschrieben
    .way-out = eine berechtigte Person prüfen lassen, die die Anweisung nicht benutzt (29 CFR 1910.147(c)(6)(i)(A))
register-people-order = nennt nicht jede Person einmal und der Reihe nach
    .way-out = jede Person einmal nennen; höchstens 200
register-bad-date = hat einen Tag, den es nicht gibt: { $date }
    .way-out = den Tag der Prüfung als JJJJ-MM-TT schreiben
register-date-ahead = sagt, die Prüfung war am { $date }, nach der Unterschrift
    .way-out = unterschreiben, wenn die Prüfung gemacht ist
register-still-draft = ist ein Entwurf: { $file } sagt es
    .way-out = `draft: true` herausnehmen, wenn der Text fertig ist, und ihn dann freigeben
register-no-reason = nennt keinen Grund
    .way-out = in Worten sagen, warum

## Pakete.
register-not-approved = { $file } (nicht freigegeben)
