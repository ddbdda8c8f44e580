# Wörter, die das Programm in die Schritte eines Pakets schreibt.
lines-translation-old = Übersetzung der Revision { $from }. Die Anweisung steht bei Revision { $revision }: Wo beide abweichen, gilt die Anweisung.
lines-not-translated = Nicht übersetzt. Sprache dieser Schritte: { $language }.
