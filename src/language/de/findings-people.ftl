## Regeln, wer für einen Auftrag da ist.
person-without-role = { $name } hat am { $day } keine Rolle
    .way-out = Personen nennen, die an diesem Tag eine Rolle haben, oder { $name } in people.yaml eine geben
crew-not-there = `{ $id }` arbeitet unter der Sperrung dieses Auftrags und steht nicht unter seinen Personen
    .way-out = `{ $id }` in `people` des Auftrags aufnehmen oder aus `crew` nehmen: ein Plan, der nicht weiß, wer ein Schloss angebracht hat, ist falsch (29 CFR 1910.147(f)(3)(ii)(B))
