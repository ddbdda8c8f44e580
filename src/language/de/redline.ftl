# What changed between two states of a plant.
redline-title = Was sich geändert hat
redline-since = Seit { $since }
redline-summary = Übersicht
redline-read-all = Was für die Sicherheit zählt, ist bezeichnet. Was nicht bezeichnet ist, wurde nicht für harmlos befunden: auch das lesen.
redline-sum-nothing = Seit { $since } hat sich nichts geändert.
redline-sum-changes = { $changes } in { $texts } seit { $since }.
redline-changes = { $count ->
    [one] 1 Änderung
   *[other] { $count } Änderungen
}
redline-texts = { $count ->
    [one] 1 Text
   *[other] { $count } Texten
}
redline-sum-no-weight = Sicherheit: nichts ist bezeichnet. Trotzdem jede Änderung lesen.
redline-sum-weight = Sicherheit: { $count ->
    [one] 1 Änderung bezeichnet
   *[other] { $count } Änderungen bezeichnet
}: { $list }.
redline-sum-packets = Pakete, die sich ändern: { $jobs }. Unterschrieben und noch in Arbeit: { $printed }.
redline-sum-lapse = Freigaben, die erlöschen: { $approvals }. Übersetzungen, die nun alt sind: { $translations }. Sperrverfahren, die neu zu prüfen sind: { $inspections }.
redline-sum-revisions = Revisionen: { $count ->
    [0] in Ordnung.
    [one] 1 Befund.
   *[other] { $count } Befunde.
}
redline-none = keine

redline-weighing = Änderungen, die für die Sicherheit zählen
redline-findings = Revisionen, die zu berichtigen sind
redline-all-texts = Alle Texte, die sich geändert haben
redline-marked = { $count ->
    [one] 1 zur Sicherheit
   *[other] { $count } zur Sicherheit
}

## Changes.
redline-mark = Sicherheit: { $why }
redline-text-added = neuer Text
redline-text-removed = Text entfallen
redline-only-blanks = nur Kommentare oder Leerzeichen geändert
redline-whole = Das Ganze
redline-step-added = Schritt hinzugefügt
redline-step-removed = Schritt entfernt
redline-step-moved = Schritt an anderer Stelle
redline-step-renamed = Schritt umbenannt; er hieß: { $before }
redline-reworded = anders formuliert
redline-field-added = { $field } hinzugefügt
redline-field-removed = { $field } entfernt
redline-field-changed = { $field } geändert
redline-field-moved = { $field } in anderer Reihenfolge
redline-gone = entfallen
redline-new = neu
redline-end = Ende
redline-revision = Revision
redline-date = Datum
redline-author = Verfasser
redline-reason = Grund
redline-was = { $now } (vorher { $before })
redline-bar = Ein Strich am Rand zeigt, was sich geändert hat. Entfallenes ist durchgestrichen, Neues unterstrichen.

## Why it weighs for safety.
redline-hazard-dropped = Gefahr nicht mehr genannt
redline-lockout-step-removed = Schritt des Sperrens entfernt
redline-guarded-step-removed = Schritt mit Schutz entfernt
redline-lockout-step-added = das Sperren hat einen neuen Schritt
redline-lockout-step-moved = Reihenfolge geschützter Arbeit geändert
redline-lockout-reworded = Schritt des Sperrens anders formuliert
redline-second-person-dropped = zweite Person entfallen
redline-sign-off-dropped = Unterschrift entfallen
redline-signer-changed = andere Rolle unterschreibt
redline-limit-widened = Grenze erweitert oder entfallen
redline-limit-changed = Grenze geändert, vielleicht weiter
redline-may-be-accepted = Messwert außerhalb darf nun angenommen werden
redline-may-be-left-out = Schritt darf entfallen
redline-check-dropped = Prüfung des Sperrens entfallen
redline-energy-state-changed = Energiezustand oder Abschnitt geändert
redline-zone-changed = Bereich geändert
redline-minor-servicing = Arbeit ohne Sperren
redline-repeat-changed = Zeilen des Sperrens geändert
redline-energy-source = Energiequelle geändert
redline-zero-changed = Nachweis des Nullzustands geändert
redline-guard-changed = geschützter Bereich geändert
redline-inching-changed = Bewegung bei offener Schutzeinrichtung geändert
redline-changeover-changed = Anweisungen des Umrüstens geändert
redline-message-changed = Gefahrenhinweis geändert
redline-allergen-dropped = Allergen nicht mehr genannt
redline-who-may = geändert, wer tun, annehmen oder unterschreiben darf
redline-crew-changed = Personen unter dem Sperren geändert
redline-line-runs = ein Schritt darf bei laufender Linie getan werden
redline-fewer-people = weniger Personen tun einen Schritt
redline-more-at-once = in einem Bereich darf mehr zugleich getan werden
redline-after-changed = geändert, was vor Beginn einer Anweisung getan ist

## What it touches.
redline-touches = Was es berührt
redline-jobs = Pakete, die sich ändern
redline-machines = Maschinen
redline-recipes = Rezepte
redline-printed = Unterschriebene Pakete, die nicht mehr gelten
redline-approvals = Freigaben, die erlöschen
redline-translations = Übersetzungen, die nun alt sind
redline-inspections = Sperrverfahren, die neu zu prüfen sind
redline-job = { $job } an { $machine }: { $what }
redline-job-new = das Paket ist nun herzustellen
redline-job-gone = das Paket ist nicht mehr herzustellen: check aufrufen
redline-job-digests = nur die Prüfsummen seiner Dateien
redline-job-steps = Schritte: { $list }
redline-job-numbers = Zahlen: { $list }
redline-job-parts = andere Teile: { $list }
redline-more = { $count ->
    [one] 1 weitere
   *[other] { $count } weitere
}
redline-printed-line = { $record }: { $state }
redline-approval-line = { $subject }, Revision { $revision }, freigegeben von { $by } (Eintrag { $entry })
redline-translation-line = { $subject } übersetzt Revision { $translates }; die Anweisung steht bei { $revision }
redline-inspection-line = { $procedure } an { $machine }, geprüft am { $date } (Eintrag { $entry })

## Could not run.
redline-written = { $file } geschrieben
redline-bad-revision = { $revision } ist kein Name einer Revision: einen Commit, ein Tag oder einen Zweig nennen
redline-no-repository = { $path } liegt in keinem Git-Repository: mit --from eine ältere Kopie des Werks nennen
redline-no-revision = git hat hier keine Revision { $revision }: `git log --oneline` zählt sie auf
redline-no-plant-then = bei { $name } lag in diesem Ordner kein Werk: eine spätere Revision nennen
redline-too-large = { $path } war bei dieser Revision größer als jede Datei, aus der ein Werk gelesen wird: mit --from gegen eine Kopie vergleichen
redline-unreadable = git gab { $path } nicht heraus: { $cause }
redline-no-git = git ist nicht auszuführen: { $cause }; installieren oder mit --from eine ältere Kopie des Werks nennen
redline-no-subject = kein Stand des Werks hat { $subject }: procedure:ID, recipe:ID, machine:ID, job:ID oder file:PFAD schreiben
