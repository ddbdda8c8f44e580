## Schemata der Dateien, die geschrieben werden: wofür jedes da ist, und die Seite, die sie aufzählt.
schemas-plant = Das Werk: sein Name, die Domäne seiner Unterschriften, Rollen, wer sperren darf und wer eine Abweichung annimmt, Einheiten, Beurteilung der Messwerte, was aus Befunden wird.
schemas-people = Personen, ihre Rollen von wann bis wann, und Schlüssel, die nicht mehr gelten.
schemas-machine = Eine Maschine, wie sie dasteht: Schienen, Halter, Schrauben, Messmittel, gesicherte Bereiche, jede Energiequelle, die Reihenfolge der Verfahren.
schemas-recipe = Ein Produktformat: Eingaben, Tabellen, die Bahn, Formeln der Einstellungen, Toleranzen, Anordnungen, Füllmenge, die ersten Stücke.
schemas-job = Ein Auftrag auf einer Maschine: von welchem Rezept zu welchem, wie viele Stücke, wann, und wer unter seiner Sperrung arbeitet.
schemas-stock = Folien mit Dicke und Masse, und ihre Rollen.
schemas-hazards = Eigene Gefahrenhinweise des Werks, neben den mitgelieferten.
schemas-procedure = Der Kopf eines Verfahrens, zwischen den beiden Zeilen ---.
schemas-step = Die Angaben eines Schritts, in seinem Block mit der Marke step.
schemas-translation = Der Kopf der Übersetzung eines Verfahrens.
schemas-texts = Die Texte eines Schritts einer Übersetzung, in seinem Block mit der Marke texts.
schemas-title = Schlüsselwörter der Dateien
schemas-lead = Jedes Schema zählt die Schlüsselwörter einer Art von Datei auf, sagt, wofür jedes da ist und was gilt, wenn es fehlt. Ein Editor, der JSON Schema kennt, ergänzt sie und zeigt an, was abgelehnt würde. Die Schemata sind auf Englisch.
schemas-how = Die Schemata neben die Dateien kopieren. Dann eine YAML-Datei mit dieser Zeile beginnen, mit dem Namen ihres Schemas:
schemas-limits = Ein Schema sieht nur eine Datei. Ob es einen Namen gibt, eine Formel ein Ergebnis hat oder ein Schritt sicher ist, sagt die Prüfung.
schemas-schema = Schema
schemas-file = Datei
schemas-about = Wofür
schemas-link = Schlüsselwörter der Dateien, für Editoren
schemas-count = { $count ->
        [one] 1 Schema
       *[other] { $count } Schemata
    }
schemas-written = { $count } in { $folder } geschrieben
