# Warum das Programm nicht arbeiten konnte: was geschah, und der Ausweg. Glossar: findings.ftl.

## Dateien: was versucht wurde, und was das System sagt.
failure-read = { $path } war nicht zu lesen: { $cause }
failure-list = { $path } war nicht aufzulisten: { $cause }
failure-look-at = { $path } war nicht einzusehen: { $cause }
failure-find = { $path } war nicht zu finden: { $cause }
failure-write = { $path } war nicht zu schreiben: { $cause }
failure-make-the-folder = der Ordner { $path } war nicht anzulegen: { $cause }
failure-make-a-folder-in = in { $path } war kein Ordner anzulegen: { $cause }
failure-put-the-site-at = die Seiten waren nicht nach { $path } zu stellen: { $cause }
failure-set-aside = { $path } war nicht beiseitezulegen: { $cause }
failure-cannot-create = { $path } lässt sich nicht anlegen: { $cause }
failure-cannot-replace = { $path } lässt sich nicht ersetzen: { $cause }
failure-cannot-sync = { $path } lässt sich nicht auf dem Datenträger sichern: { $cause }
failure-cannot-write = { $path } lässt sich nicht schreiben: { $cause }
failure-cannot-read = { $path } lässt sich nicht lesen: { $cause }
failure-cannot-lock = { $path } lässt sich nicht sperren: { $cause }
failure-cannot-add = { $path } lässt sich nicht hinzufügen: { $cause }
failure-cannot-set-aside = { $path } lässt sich nicht beiseitelegen: { $cause }
failure-bytes = mehr als { $most } Bytes
failure-files = mehr als { $most } Dateien
failure-not-plain = es ist keine gewöhnliche Datei
failure-not-next = es ist nicht der nächste Eintrag
failure-json = JSON war nicht zu schreiben: { $cause }

## Orte, die nicht zu gebrauchen sind.
failure-no-plant = { $path } ist kein Betrieb: die Datei plant.yaml fehlt. `witnessmark start DIR` legt einen kleinen an
failure-part-of-plant = { $path } ist ein Teil des Betriebs oder der Betrieb ein Teil davon: einen Ort anderswo nennen
failure-foreign-folder = { $path } enthält Dateien, die keine Seiten von uns sind ({ $mark } fehlt): einen leeren oder neuen Ordner nennen
failure-no-plain-file = { $path } ist keine gewöhnliche Datei: eine Datei nennen, die geschrieben oder ersetzt werden darf
failure-not-empty = { $path } ist nicht leer: einen neuen oder leeren Ordner nennen
failure-link = { $path } ist eine Verknüpfung, der nicht gefolgt wird: den Ordner selbst dorthin legen

## Namen, die nichts trägt.
failure-no-job = es gibt keinen Auftrag `{ $job }`; der Betrieb hat: { $jobs }
failure-no-record = es gibt keinen Nachweis eines Auftrags `{ $job }`
