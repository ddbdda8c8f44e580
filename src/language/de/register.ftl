# Das Register: Freigaben von Anweisungen und Rezepten, Prüfungen des Sperrens.

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
register-still-draft = gibt { $subject } frei, das ein Entwurf ist: { $file } sagt es
    .way-out = `draft: true` herausnehmen, wenn der Text fertig ist, und ihn dann freigeben

## Pakete.
register-not-approved = { $file } (nicht freigegeben)

## Antworten von `approve` und `inspected`.
register-told = Eintrag { $entry }: { $subject }, Revision { $revision }, { $digest }: { $kind } von { $name }, { $at }
register-text = { $subject }, Revision { $revision }, { $digest }
register-is-approved = freigegeben von { $name } am { $day }, Eintrag { $entry }
register-was-approved = nicht freigegeben; Eintrag { $entry } gab Revision { $revision }, { $digest }, frei, von { $name } am { $day }
register-is-withdrawn = nicht freigegeben; die Freigabe wurde zurückgezogen: { $reason }
register-never-approved = nicht freigegeben
register-standing = { $count ->
        [one] 1 Text
       *[other] { $count } Texte
    }, { $open } nicht freigegeben
register-never-inspected = { $procedure } an { $machine }: nie geprüft
register-overdue = { $procedure } an { $machine }: überfällig seit { $due }
register-due = { $procedure } an { $machine }: fällig { $due }, nach der Datei der Maschine
register-last-and-due = { $procedure } an { $machine }: geprüft { $last }, fällig { $due }
register-inspections = { $count ->
        [one] 1 Prüfung
       *[other] { $count } Prüfungen
    }, { $over } überfällig
register-name-what = nennen, was freigegeben wird: `witnessmark approve PLANT` zeigt, was es braucht
register-no-subject = es gibt keinen Text `{ $subject }`: procedure:ID, procedure:ID@SPRACHE oder recipe:ID schreiben; `witnessmark approve PLANT` zeigt sie
register-nothing-to-withdraw = zieht eine Freigabe von { $subject } zurück, und keine zählt
    .way-out = weglassen
register-which-procedure = die Anweisung nennen, die geprüft wurde ({ $option })
register-which-machine = die Maschine mit { $option } nennen
register-what-found = mit { $option } sagen, was gefunden wurde
register-with-whom = mit { $option } jede Person nennen, die dabei war
register-not-used-there = die Maschine `{ $machine }` hat keine Sperranweisung `{ $procedure }`: `witnessmark inspected PLANT` zeigt sie

## Was die Prüfung der Nachweise sagt.
register-head = Register: { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
register-tail = Register: { $errors } Fehler, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    }; anderswo aufbewahren: Kopf { $head } von { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträgen
    }
register-subject-gone = die Dateien des Betriebs haben heute kein { $subject }
register-machine-gone = die Dateien des Betriebs haben heute keine Maschine { $machine }
register-changed-since = { $subject } hat heute andere Bytes als die freigegebenen
register-inspection-missing = { $procedure } an { $machine } wurde nie geprüft (29 CFR 1910.147(c)(6)(i))
register-inspection-overdue = die Prüfung von { $procedure } an { $machine } war am { $day } fällig (29 CFR 1910.147(c)(6)(i))
register-draft-used = Arbeit ist nach einem Text unterschrieben, der nicht freigegeben war: { $subject }; { $why }
register-no-claim = das Paket nennt keine Freigabe davon
register-claim-unknown = das Register hat keinen solchen Eintrag { $entry }, der zählt
register-claim-differs = Eintrag { $entry } des Registers sagt etwas anderes
register-claim-elsewhere = Eintrag { $entry } gibt Bytes frei, aus denen das Paket nicht gemacht ist
register-claim-not-then = Eintrag { $entry } zählte noch nicht oder nicht mehr, als die Arbeit begann

## Die Seite.
register-title = Freigaben und Prüfungen
register-lead = Wer freigegeben hat, woraus Pakete gemacht werden, und wer das Sperren welcher Maschine geprüft hat. Jeder Eintrag ist unterschrieben.
register-approvals = Woraus Pakete gemacht werden
register-text-head = Text
register-who = Von wem
register-by = { $name }, { $at }, Revision { $revision }, Eintrag { $entry }
register-inspections-head = Prüfungen des Sperrens
register-as-of = Jede Sperranweisung wird an jeder Maschine mindestens einmal im Jahr geprüft (29 CFR 1910.147(c)(6)(i)). Was überfällig ist, ist es am { $day }, als diese Seite gemacht wurde.
register-last = Letzte Prüfung
register-due-head = Fällig
register-never = nie geprüft
register-is-overdue = überfällig
register-is-inspected = geprüft
register-inspected-by = { $day }, von { $name } mit { $people }, Eintrag { $entry }
register-inspected-by-file = { $day }, von { $name } mit { $people }, nach der Datei der Maschine
register-found = Gefunden: { $text }
register-corrected = Berichtigt: { $text }
register-approves-procedures = Gibt Anweisungen frei
register-approves-recipes = Gibt Rezepte frei
register-keep-head = Kopf, anderswo aufzubewahren
register-subject = { $subject }, Revision { $revision }
register-withdraws = zieht Eintrag { $entry } zurück
register-withdrawn-by = zurückgezogen durch Eintrag { $entry }
register-on-machine = an { $machine }
register-of-procedure = Freigabe
register-approvals-of-packet = Freigegeben
register-approver = { $name } ({ $count ->
    [one] 1 Text
   *[other] { $count } Texte
    })
register-approvals-at-end = einzeln am Ende des Pakets
register-more-texts = { $count } weitere: <code>witnessmark approve</code> zeigt alle.
register-more-inspections = { $count } weitere: <code>witnessmark inspected</code> zeigt alle.
register-more-entries = { $count ->
    [one] 1 früherer Eintrag liegt neben dieser Seite, in derselben Form
   *[other] { $count } frühere Einträge liegen neben dieser Seite, in derselben Form
}
