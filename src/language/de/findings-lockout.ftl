## Rules of who may lock.
role-held-by-nobody = niemand hat an diesem Tag die Rolle `{ $role }`, und Schritte verlangen sie
    .way-out = jemandem die Rolle in people.yaml geben, oder den Auftrag auf einen anderen Tag legen
nobody-authorised = der Betrieb sagt nicht, welche Rollen sperren dürfen
    .way-out = `authorised: [technician]` ergänzen, mit den Rollen unterwiesener und befugter Personen (29 CFR 1910.147(d)(4)(i) und (b))
no-electrical-role = der Betrieb sagt nicht, welche Rolle die Spannungsfreiheit misst
    .way-out = `electrical: electrician` ergänzen, mit der Rolle der Elektrofachkräfte (29 CFR 1910.333(b)(2)(iv)(B), aus dem Gedächtnis)
electrical-not-authorised = die Rolle `{ $role }` misst die Energiefreiheit und darf nicht sperren
    .way-out = `{ $role }` bei `authorised` ergänzen: Energiefreiheit weisen befugte Personen nach (29 CFR 1910.147(d)(6))
role-not-authorised = `{ $step }` { $why }
    .way-out = `performed: { $first }` schreiben: { $roles } darf sperren, wie `authorised` in plant.yaml sagt (29 CFR 1910.147(d)(4)(i))

## Rules of groups, shift changes and contractors.
primary-missing = niemand trägt die Hauptverantwortung für diese Gruppe
    .way-out = `primary: <person>` mit einer befugten Person ergänzen (29 CFR 1910.147(f)(3)(ii)(A))
coordinator-missing = mehrere Gewerke oder Firmen arbeiten hier, und niemand stimmt sie ab
    .way-out = `coordinator: <person>` mit einer befugten Person für den ganzen Auftrag ergänzen (29 CFR 1910.147(f)(3)(ii)(C))
person-not-authorised = { $name } hat am { $day } keine Rolle, die sperren darf
    .way-out = eine Person nennen, die an diesem Tag { $roles } ist (29 CFR 1910.147(f)(3)(ii), (d)(4)(i))
group-of-one = eine Person allein ist keine Gruppe
    .way-out = alle nennen, die innen arbeiten, oder `crew` weglassen: eine einzelne Person sperrt jede Einrichtung mit dem eigenen Schloss (29 CFR 1910.147(f)(3))
contractor-not-told = `{ $firm }` arbeitet hier, und `{ $key }` ist nicht gesagt
    .way-out = `{ $key }` ergänzen: Betrieb und Fremdfirma unterrichten einander über ihre Sperrregeln (29 CFR 1910.147(f)(2), aus dem Gedächtnis)
shift-change-misplaced = die Gruppe kann nicht vor `{ $before }` wechseln: es { $why }
    .way-out = eine Anweisung der Arbeit hinter den Schutzeinrichtungen nennen (29 CFR 1910.147(f)(4))
shift-change-gap = die Anweisung `shift-change` lässt eine Lücke: { $why }
    .way-out = in dieser Reihenfolge: ein Schritt mit `repeat: arriving`, einer mit `repeat: leaving`, einer mit `stage: verify` (29 CFR 1910.147(f)(4) und (d)(6))
no-personal-locks = eine Gruppe ist genannt, und die Umrüstung von `{ $machine }` hat keine Schritte, in denen alle ihr persönliches Schloss anbringen und abnehmen
    .way-out = Schritte mit `when: {"{"} job: crew {"}"}` und `repeat: crew` ergänzen: einen zwischen Sperren und erster Arbeit innen, einen zwischen dem Räumen der Personen und dem Entsperren (29 CFR 1910.147(f)(3)(ii)(D))
crew-in-test-block = eine Gruppe arbeitet unter einer Sperrung, und die Umrüstung von `{ $machine }` hat einen Prüfblock: die Energie käme, während persönliche Schlösser am Kasten sind
    .way-out = den Auftrag teilen, oder den Block in `changeover` weglassen: alle nehmen ihr eigenes Schloss ab, bevor die Energie kommt (29 CFR 1910.147(f)(1)(ii), (f)(3))
contractors-not-met = Fremdfirmen sind genannt, und die Umrüstung von `{ $machine }` hat keinen Schritt, in dem Sperrregeln mit ihnen ausgetauscht werden
    .way-out = einen Schritt mit `when: {"{"} job: contractors {"}"}` ergänzen, bevor die Schlösser angebracht werden (29 CFR 1910.147(f)(2), aus dem Gedächtnis)
shift-ends-under-locks = die Schicht `{ $shift }` endet um { $ends }, während die Maschine gesperrt ist
    .way-out = `shift_change` bei `lockout` des Auftrags ergänzen, oder früher beginnen (29 CFR 1910.147(f)(4))
bad-clock = `{ $text }` ist keine Uhrzeit
    .way-out = wie "06:00" oder "14:30" schreiben

## Parts of the above.
role-may-not-lock = wird von der Rolle `{ $role }` ausgeführt, die nicht sperren darf
role-is-nobody = gehört zum Sperren, und niemand unterschreibt, dass es getan wurde
change-not-in-changeover = steht nicht in der Umrüstung der Maschine
change-not-under-locks = steht nicht zwischen dem Nachweis der Energiefreiheit und dem Entsperren
change-without-locks = die Ankommenden bringen keine Schlösser an
change-locks-off-first = die Gehenden nehmen ihre Schlösser nicht erst ab, nachdem die Ankommenden ihre angebracht haben
change-zero-not-proved = die Energiefreiheit wird am Ende nicht erneut nachgewiesen
