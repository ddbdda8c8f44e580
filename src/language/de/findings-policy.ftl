## Rules of the plant's own policy.
cannot-be-raised = `{ $rule }` ist keine Regel, die warnt, und lässt sich nicht anheben
    .way-out = { $nearest }
cannot-be-justified = `{ $rule }` lässt sich nicht verantworten: nur was Ermessenssache ist, und nie, dass eine Person innen ist, während eine Energiequelle wirkt
    .way-out = beheben, was gefunden wird, und diesen Eintrag entfernen; { $nearest }
may-not-justify = { $name } hat die Rolle { $roles } am { $day } nicht
    .way-out = jemanden mit der Rolle { $roles } urteilen und dafür einstehen lassen
justification-later = Auftrag `{ $job }` ist für { $day } geplant; `{ $rule }` ist erst ab einem späteren Tag verantwortet
    .way-out = beheben, was gefunden wird, oder den Auftrag auf einen späteren Tag legen
justification-over = Auftrag `{ $job }` ist für { $day } geplant; `{ $rule }` ist dann nicht mehr verantwortet
    .way-out = beheben, was gefunden wird, oder neu urteilen und einen neuen Eintrag schreiben
justification-unused = hier ist an dieser Stelle nichts ein Fehler der Regel `{ $rule }`
    .way-out = diesen Eintrag entfernen: er würde den nächsten verdecken
unknown-step = die Datei hat keinen Schritt `{ $step }`
    .way-out = { $nearest }
