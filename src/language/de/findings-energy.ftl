## Rules of sources, 29 CFR 1910.147(d)(1) and (b).
magnitude-not-quantity = `{ $text }` sagt nicht, wie viel Energie da ist
    .way-out = { $wanted } schreiben, mehrere mit `, ` dazwischen (29 CFR 1910.147(d)(1))
magnitude-does-not-fit = `{ $text }` ist keine Größe einer Quelle der Art `{ $kind }`
    .way-out = zuerst { $wanted } schreiben (29 CFR 1910.147(d)(1))
zero-does-not-fit = `{ $unit }` misst keine Energiefreiheit einer Quelle der Art `{ $kind }`
    .way-out = eine passende Einheit angeben, wie für: { $wanted } (29 CFR 1910.147(d)(6))
control-device = `{ $device }` ist eine Steuereinrichtung ({ $words }): sie hält die Maschine an und trennt nichts (29 CFR 1910.147(b), 1910.333(b)(2)(ii))
    .way-out = die Einrichtung nennen, die die Energie zurückhält: { $known }
zone-without-hazard = die Zone `{ $zone }` nennt keine Gefährdung
    .way-out = `hazards: [...]` ergänzen: wer hinter eine Schutzeinrichtung greift, muss wissen, warum sie da ist (29 CFR 1910.147(d)(1), 1910.212(a)(1))
source-without-hazard = { $name } nennt keine Gefährdung
    .way-out = `hazards: [...]` ergänzen: wer eine Energiequelle sperrt, muss wissen, was sie anrichten kann (29 CFR 1910.147(d)(1))

## Rules of relieving and proving, 29 CFR 1910.147(d)(5)-(6).
zero-without-high = diese Null hat keinen Höchstwert: die wirksame Quelle würde durchgehen
    .way-out = `high: 0` ergänzen, oder das Höchste, was niemanden verletzt (29 CFR 1910.147(d)(6))
zero-too-high = diese Null liegt nicht unter { $most }: eine wirksame Quelle würde durchgehen
    .way-out = das Höchste schreiben, was niemanden verletzt (29 CFR 1910.147(d)(6); 1910.333(a)(1) für Teile unter 50 V, aus dem Gedächtnis)
zero-not-shown = { $name } zeigt `{ $what }` nicht an
    .way-out = das Messgerät nennen, das diese Null nachweist (29 CFR 1910.147(d)(6))
instrument-below-source = der Bereich von { $name } endet unter { $magnitude }, das noch anliegen kann
    .way-out = ein Messgerät nennen, dessen Bereich die wirksame Quelle einschließt (29 CFR 1910.334(c)(3), aus dem Gedächtnis)
no-conductors = nichts sagt, zwischen welchen Leitern die Null von { $name } gemessen wird
    .way-out = `conductors: [L1, L2, L3]` ergänzen, mit N, wo er angeschlossen ist: daraus folgen die Paare (NFPA 70E 120.5, Schritt 7)
bad-conductor = `{ $conductor }` { $why }
    .way-out = jeden aktiven Leiter einer elektrischen Quelle einmal nennen, wie seine Klemme
wait-without-time = der Text sagt, { $said } zu warten, und es folgt kein Feld für die Zeit
    .way-out = `wait: { $said }` bei der Quelle ergänzen (29 CFR 1910.147(d)(5)(i))
wait-differs = die Wartezeit ist hier { $wait } und in `relieve` { $said }
    .way-out = die Zeit vom Schild des Herstellers schreiben, an einer Stelle
touch-missing = { $name } hat { $magnitude }, und nichts sagt, welche Teile berührt werden
    .way-out = `touch: [{"{"} part: ..., surface: bare-metal, lasts: 1 min {"}"}]` ergänzen (EN 563, ISO 13732-1: ab 43 °C kann eine Berührung verbrennen)
touch-not-thermal = eine Quelle der Art `{ $kind }` hat keine heißen Teile
    .way-out = die Teile bei einer Quelle der Art `thermal` auflisten
zero-above-touch = eine Berührung von { $part } ({ $surface }, { $lasts }) verbrennt über { $threshold }, und die Null lässt mehr zu ({ $source })
    .way-out = `high` der Null auf { $threshold } oder weniger senken, oder `gloves` nennen
contact-too-short = für eine Berührung von { $lasts } ist keine Verbrennungsschwelle bekannt
    .way-out = 0.5 s oder mehr schreiben (ISO 13732-1)
no-cooling = niemand kann sagen, wann dieses Teil abgekühlt ist: { $why }
    .way-out = die Zeitkonstante neu messen, oder `cools` und `air` weglassen
stop-position-missing = { $name } kann sich bewegen, und nichts sagt, wo es vor dem Trennen stehen muss
    .way-out = `stop_position: ...` bei der Maschine ergänzen: das Anhalten selbst darf keine Falle schaffen (übliche Praxis)

## Rules of powered movement with a guard open: UK HSE, printing machinery, an analogy.
not-hold-to-run = die Tippsteuerung ist `{ $held }`, keine Steuerung mit selbsttätiger Rückstellung
    .way-out = `held: hold-to-run` schreiben, wenn die Steuerung die Bewegung beim Loslassen sofort anhält (UK HSE, Druckmaschinen)
    .why = Bei offener Schutzeinrichtung muss Loslassen genügen, um die Bewegung anzuhalten (UK HSE, Druckmaschinen).
inching-too-far = die Tippsteuerung bewegt { $most }, das ist mehr als { $limit }
    .way-out = auf 25 mm je Druck oder 1 m/min begrenzen, höchstens 75 mm oder 5 m/min (UK HSE, Druckmaschinen)
    .why = Bei offener Schutzeinrichtung muss eine Bewegung zu kurz und zu langsam sein, um eine Hand einzuziehen (UK HSE, Druckmaschinen).
inching-not-measured = `{ $most }` ist weder eine Länge je Druck noch eine Geschwindigkeit
    .way-out = `most: 25 mm` oder `most: 1 m/min` schreiben

## Rules of the lockout program, 29 CFR 1910.147(c)(4) and (c)(6).
inspection-missing = keine regelmäßige Prüfung der Sperrung dieser Maschine ist aufgeschrieben
    .way-out = prüfen und `lockout_inspection: {"{"} date, inspector, people {"}"}` ergänzen (29 CFR 1910.147(c)(6)(i)-(ii))
    .why = Einmal im Jahr muss jemand nachsehen, ob noch so gesperrt wird, wie es geschrieben steht (29 CFR 1910.147(c)(6)(i)).
inspection-over = die Sperrung von { $machine } wurde am { $date } geprüft, mehr als 12 Monate vor diesem Auftrag
    .way-out = erneut prüfen und den neuen Tag schreiben (29 CFR 1910.147(c)(6)(i))
    .why = Einmal im Jahr muss jemand nachsehen, ob noch so gesperrt wird, wie es geschrieben steht (29 CFR 1910.147(c)(6)(i)).
inspector-among-people = { $inspector } prüft und gehört zu denen, die geprüft werden
    .way-out = eine befugte Person prüfen lassen, die diese Anweisung nicht anwendet (29 CFR 1910.147(c)(6)(i)(A))
nobody-enforces = nichts sagt, wer die Sperranweisungen durchsetzt
    .way-out = `enforced_by: ...` mit den Mitteln ergänzen (29 CFR 1910.147(c)(4)(ii))
    .why = Eine Anweisung muss sagen, womit sie durchgesetzt wird (29 CFR 1910.147(c)(4)(ii)).
no-intended-use = die Sperranweisung `{ $procedure }` sagt nicht, wofür sie ist
    .way-out = `use: ...` bei ihren Angaben ergänzen (29 CFR 1910.147(c)(4)(ii)(A))
    .why = Wer sperrt, muss wissen, für welche Arbeit diese Anweisung reicht (29 CFR 1910.147(c)(4)(ii)(A)).

## Parts of the above.
magnitude-voltage = eine Spannung, `400 V`
magnitude-pressure = einen Druck, `6 bar`
magnitude-temperature = eine Temperatur, `180 °C`
magnitude-mass = eine Masse oder Kraft, `38 kg`
magnitude-force = eine Kraft, eine Länge oder ein Drehmoment, `60 N`
magnitude-speed = eine Geschwindigkeit, eine Masse, ein Drehmoment oder Umdrehungen je Minute, `1500 1/min`
magnitude-other = eine Zahl mit Einheit
control-is-interlock = eine Verriegelung einer Zone
conductor-alone = steht allein, und Strom hat einen Rückweg
conductor-not-electrical = ist keine elektrische Quelle
conductor-without-name = hat keinen Namen
conductor-twice = steht zweimal da
conductor-is-earth = ist Erde, gegen die jeder Leiter ohnehin gemessen wird
inching-of-a-press = { $most } je Druck
inching-while-held = { $most } beim Gedrückthalten
finding-bare-metal = blankes Metall
finding-coated-metal = beschichtetes Metall
finding-ceramic = Keramik, Glas oder Stein
finding-plastic = Kunststoff
finding-wood = Holz
