# Der Rahmen jeder Seite.
frame-skip = Zum Text der Seite
frame-main = Hauptseiten
frame-here = Sie sind hier
frame-start = Nach Datum
frame-jobs = Aufträge
frame-machines = Maschinen
frame-procedures = Anweisungen
frame-records = Nachweise
frame-search = Suche
frame-to = nach
frame-table = Tabelle: { $name }
frame-limits = Die Prüfung der Dateien des Werks zeigt, dass die geschriebenen Anweisungen vollständig und in der richtigen Reihenfolge sind, mit Ausnahme dessen, was ein Paket ausdrücklich nennt. Sie zeigt nicht, dass eine Maschine sicher ist, dass ihre Liste der Energiequellen stimmt oder dass ein Schloss angebracht ist.
frame-data = Daten des Werks (SHA-256)
frame-plant = Werk
frame-made = Erstellt mit
frame-parts = Gezeichnet mit
frame-parts-link = Bausteine dieser Seiten
