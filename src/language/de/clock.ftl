## Was die Zeiten der Einträge sagen.
audit-gap = kommt { $hours } h nach dem Eintrag davor, mehr als eine Schicht: fragen, was dazwischen war
audit-many-at-once = beginnt { $count } Schritte, die eine Person binnen einer Minute unterschrieben hat, bis Eintrag { $last }: fragen, ob jeder unterschrieben wurde, als er getan war
audit-clock-ahead = ist { $seconds } s vor Eintrag { $before }, der später kam: die Uhr des Geräts prüfen, das mit dem Schlüssel { $key } unterschreibt
audit-jobs-overlap = der erste Eintrag ist früher als der letzte von { $job } an { $machine }: zwei Aufträge zugleich an einer Maschine
log-clock-ahead = Blatt { $leaf } ist { $seconds } s vor Blatt { $before }, das später kam: die Uhr des Geräts prüfen, das mit dem Schlüssel { $key } unterschreibt
