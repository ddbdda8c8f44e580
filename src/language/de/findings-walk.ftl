## Rules of the walk over the steps, 29 CFR 1910.147(d)-(f).
rail-not-isolated = `{ $step }` hantiert an dem, was auf `{ $rail }` steht, verlangt aber keine Sperrung seiner Zone
    .way-out = `needs: isolated` und `zone: { $rail }` schreiben, ohne `minor_servicing`: Einrichten ist Instandhaltung (29 CFR 1910.147(b), (d)(6))
lockout-step-optional = `{ $step }` gehört zum Sperren und steht unter einer Bedingung
    .way-out = die Bedingung entfernen: Schlösser, Nachweise und was den Leuten gesagt wird, hängen an keinem Einstellwert und keinem Teil der Maschine (29 CFR 1910.147(d), (e), (f))
minor-servicing-incomplete = kleine Arbeit ohne Sperrung sagt nicht `{ $missing }`
    .way-out = jedes in Worten sagen, alle müssen gelten, oder sperren (29 CFR 1910.147(a)(2)(ii), Anmerkung; 1910.212)
people-not-clear = `{ $step }` kommt ohne einen noch gültigen Schritt `clear-people`
    .way-out = diesen Schritt davor setzen (29 CFR 1910.147{ $paragraph })
stage-missing = `{ $step }` kommt ohne einen noch gültigen Schritt `{ $missing }`
    .way-out = diesen Schritt davor setzen (29 CFR 1910.147{ $paragraph })
source-not-held = `{ $step }` kommt, bevor die Energiequelle `{ $source }` ihr `{ $missing }` hatte
    .way-out = diesen Schritt davor setzen, für jede Energiequelle (29 CFR 1910.147{ $paragraph })
not-isolated = `{ $step }` greift in { $zone }, aber die Energiequelle `{ $source }` hatte ihr `{ $missing }` noch nicht
    .way-out = zuerst jede Energiequelle der Zone trennen, sperren, abbauen und prüfen (29 CFR 1910.147{ $paragraph })
reaches-in = `{ $step }` greift ohne Trennung in { $zone }
    .way-out = `needs: isolated` schreiben, oder die Zone entfernen, wenn niemand hineingreift (29 CFR 1910.147(d)(6), (e)(2)(i))
minor-servicing-unfit = `{ $step }` gilt als kleine Arbeit, ist aber kein kleiner Handgriff während der Produktion
    .way-out = ihm `zone`, `needs: energised` und kein `stage` geben, oder `minor_servicing` entfernen und sperren (29 CFR 1910.147(a)(2)(ii), Anmerkung)
zone-missing = `{ $step }` braucht Trennung, sagt aber nicht, wo jemand hineingreift
    .way-out = `zone: <zone or rail>` ergänzen (29 CFR 1910.147(d)(3))
locks-on = `{ $step }` braucht Energie, während die Energiequelle `{ $source }` gesperrt ist
    .way-out = vor dem Sperren tun, nach der Freigabe, oder in einem Prüfblock (29 CFR 1910.147(e), (f)(1))
locks-left = das Paket endet bei `{ $step }`, und die Energiequelle `{ $source }` ist noch gesperrt
    .way-out = die Umrüstung mit der Aufhebung der Sperrung beenden (29 CFR 1910.147(e))
stage-without-sources = `{ $step }` wirkt auf keine Energiequelle
    .way-out = `repeat: energy` ergänzen, damit jede Quelle darin steht, oder `repeat: inching` in einem Prüfblock (29 CFR 1910.147(d)(3)-(6), (e)(3))

## Rules of the test block, 29 CFR 1910.147(f)(1).
block-without-sources = `{ $step }` beginnt einen Prüfblock, aber die Maschine nennt keine Quelle dafür
    .way-out = `inching: {"{"} sources: [..], .. {"}"}` bei der Maschine ergänzen, oder die Schlösser dranlassen (29 CFR 1910.147(f)(1))
block-begins-unproved = `{ $step }` beginnt einen Prüfblock, aber die Energiequelle `{ $source }` hatte ihr `{ $missing }` noch nicht
    .way-out = den Block hinter den Nachweis der Energiefreiheit seiner Quellen setzen (29 CFR 1910.147(f)(1))
test-outside-block = `{ $step }` braucht Energie für eine Prüfung, steht aber in keinem Prüfblock
    .way-out = `block: test` an diesen Schritt schreiben und an die, die davor die Schlösser abnehmen und sie danach anbringen (29 CFR 1910.147(f)(1)(i)-(v))
block-takes-other-lock = `{ $step }` nimmt das Schloss von `{ $source }` ab, das die Maschine nicht für einen Prüfblock nennt
    .way-out = `repeat: inching` schreiben; jedes andere Schloss bleibt dran (29 CFR 1910.147(f)(1)(iii))
reaches-in-block = `{ $step }` greift in { $zone }, in einem Prüfblock, dessen Schlösser ab sind
    .way-out = diese Arbeit hinter den Block setzen, wenn seine Quellen erneut geprüft sind (29 CFR 1910.147(f)(1)(ii) und (v))
power-in-block = `{ $step }` steht in einem Prüfblock und braucht gewöhnliche Energie
    .way-out = `needs: test` schreiben, oder hinter die Freigabe setzen (29 CFR 1910.147(f)(1)(iv))
block-without-unlock = bei `{ $step }` endet ein Prüfblock, in dem kein Schloss abgenommen wurde
    .way-out = im Block einen Schritt `stage: unlock` mit `repeat: inching` ergänzen, oder `block` entfernen (29 CFR 1910.147(f)(1)(iii))
block-without-test = bei `{ $step }` endet ein Prüfblock, in dem nichts geprüft wurde
    .way-out = im Block einen Schritt `needs: test` ohne `stage` ergänzen, oder die Schlösser dranlassen (29 CFR 1910.147(f)(1)(iv))
block-left-open = bei `{ $step }` endet ein Prüfblock, aber die Energiequelle `{ $source }` hatte ihr `{ $missing }` nicht erneut
    .way-out = den Block mit Abschalten, Trennen, Sperren, Abbauen, Anlaufversuch und Prüfen seiner Quellen beenden (29 CFR 1910.147(f)(1)(v))

## Parts of the above.
zone-named = die Zone `{ $zone }`
zone-guarded = eine geschützte Zone
