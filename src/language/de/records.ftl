## Aufzeichnungen schreiben.
records-held = jemand anderes schreibt gerade in diese Aufzeichnung: gleich noch einmal versuchen
records-held-by = { $holder } schreibt gerade in diese Aufzeichnung: gleich noch einmal versuchen, oder diesen Prozess beenden, wenn er hängt
records-not-added = { $error }; { $added ->
        [0] nichts wurde hinzugefügt
       *[other] davor wurden { $added } von { $all } Einträgen hinzugefügt, und sie gelten
    }
audit-entry-unfinished = { $file }: ein Schreiben wurde unterbrochen, oder der Eintrag wurde entfernt
log-unfinished = ein Schreiben wurde angehalten, bevor seine Blätter hinzukamen; die nächste Unterschrift, oder `checkpoint` mit --by, ergänzt sie
