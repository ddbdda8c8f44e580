# Findings of comparing two states of a plant: revisions.
revision-unchanged = { $text } wurde geändert und steht noch bei Revision { $revision }
    .way-out = in `revision` die nächste Nummer schreiben, mit Datum, Verfasser und Grund: wer ein Blatt der Revision { $revision } hat, muss beide unterscheiden können
revision-goes-back = { $text } geht von Revision { $before } auf { $now } zurück
    .way-out = eine Nummer nach { $before } schreiben; einen älteren Text unter einer neuen Revision neu herausgeben
revision-date-goes-back = { $text } trägt das Datum { $now }, vor dem { $before } der Revision davor
    .way-out = in `date` den Tag dieser Revision schreiben
reason-unchanged = { $text } hat eine neue Revision mit dem Grund der Revision { $before }
    .way-out = in `reason` sagen, was sich diesmal geändert hat und warum
