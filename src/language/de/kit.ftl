# Der Rüstsatz: was vor dem Halt geholt wird.
kit-parts = Formatteile
kit-material = Material
kit-tools = Werkzeuge
kit-instruments = Messmittel
kit-protective = Schutzausrüstung
kit-locks = Schlösser und Anhänger
kit-for-order = { $rolls } für den Auftrag
kit-calibrated = kalibriert bis { $date }
kit-personal = Persönliches Schloss und Anhänger
kit-each-person = je { $count }, für jede Person, die sperrt
kit-device = Schloss und Anhänger für eine Einrichtung
kit-of-each = je { $count }
kit-box = Gruppensperrkasten
kit-personal-box = Persönliches Schloss für den Gruppenkasten
