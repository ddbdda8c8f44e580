## Nachweise schreiben.
records-held = jemand anderes schreibt hier gerade: gleich noch einmal versuchen
records-held-by = { $holder } schreibt hier gerade: gleich noch einmal versuchen, oder diesen Prozess beenden, wenn er hängt
records-not-added = { $error }; { $added ->
        [0] nichts wurde hinzugefügt
       *[other] davor wurden { $added } von { $all } Einträgen hinzugefügt, und sie gelten
    }
audit-entry-unfinished = { $file }: ein Schreiben wurde unterbrochen, oder der Eintrag wurde entfernt
