## Why a file of a page is not taken in.
refusal-file-form = { $file }: { $path }: { $fault }
    .way-out = die Seite noch einmal in eine Datei sichern, und die Datei lassen, wie die Seite sie geschrieben hat
refusal-file-of-another-job = die Datei wurde für einen anderen Auftrag ausgefüllt
    .way-out = den Auftrag der Datei nennen
refusal-file-of-another-packet = die Datei wurde auf einer anderen Ausgabe des Pakets ausgefüllt
    .way-out = das Paket wurde neu ausgegeben: das neue drucken oder öffnen; die Datei bleibt unberührt
refusal-signed-first = die Datei enthält { $count ->
        [one] 1 Eintrag, der auf der Seite unterschrieben und noch nicht im Nachweis ist
       *[other] { $count } Einträge, die auf der Seite unterschrieben und noch nicht im Nachweis sind
    }
    .way-out = zuerst das Unterschriebene aufnehmen: --from allein, ohne --by und --key
refusal-signed-unreadable = signed[{ $index }].entry { $fault }
    .way-out = { $remedy }
refusal-entries-missing = die Datei fährt mit Eintrag { $entry } fort, und der Nachweis hat { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
    .way-out = zuerst die Datei mit den Einträgen dazwischen aufnehmen
refusal-record-moved-on = der Nachweis ist weiter als beim Erstellen der Seite: er hat heute { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
    .way-out = neu veröffentlichen und die Seite neu öffnen: das Eingegebene bleibt erhalten; dort neu unterschreiben, oder am Schreibtisch mit --by PERSON --key FILE
refusal-made-at-the-desk = Eintrag { $entry } ist von der Art { $kind }, die keine Seite unterschreibt
    .way-out = am Schreibtisch mit { $option } unterschreiben
refusal-key-of-yesterday = Eintrag { $entry } { $words }, heute
    .way-out = am Schreibtisch mit einem Schlüssel unterschreiben, der gilt: --by PERSON --key FILE
refusal-of-entry = Eintrag { $entry }: { $words }
    .way-out = { $remedy }
refusal-of-record = { $words }
    .way-out = { $remedy }
refusal-sign-anew = neu unterschreiben: auf der Seite, oder am Schreibtisch mit --by PERSON --key FILE; das Eingegebene bleibt erhalten
refusal-reading-differs = { $blank } hat im Nachweis einen anderen Wert, in Eintrag { $entry }
    .way-out = erneut messen; wenn der Nachweis falsch ist, --correct '{ $blank }=VALUE' --reason TEXT ergänzen

## What is wrong with the form of such a file.
filled-too-large = hat mehr als { $most } Bytes
filled-too-many = enthält { $items } Dinge; höchstens { $most } werden gelesen
filled-no-object = ist kein Objekt mit benannten Feldern
filled-other-form = ist Form { $form }; dieses Programm liest Form { $read }
filled-no-identifier = ist kein Bezeichner
filled-no-digest = ist nicht 64 kleingeschriebene Hexadezimalziffern
filled-field-foreign = gehört nicht zu dem, was dies ist
filled-field-missing = fehlt
filled-no-signature = ist weder `performed` noch `verified`
filled-bad-text = ist leer, zu lang oder hat Steuer- oder Richtungszeichen
filled-nobody = ist weder eine Person aus people.yaml noch ein Kürzel

## What of a file was not added.
filled-reading = { $blank } = { $value } (Eintrag { $entry })
filled-signature = { $step } { $kind } (Eintrag { $entry })
filled-signed = { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } auf der Seite unterschrieben
filled-on-record = schon im Nachweis: { $what }
filled-readings = { $count ->
        [one] 1 Messwert
       *[other] { $count } Messwerte
    }
filled-signatures = { $count ->
        [one] 1 Unterschrift
       *[other] { $count } Unterschriften
    }
filled-both = { $readings } und { $signatures }
filled-left = nicht aufgenommen: { $what } von { $by }; mit --by und --key unterschreiben
filled-left-unnamed = nicht aufgenommen: { $what } von { $by }; die Person auf der Seite nennen
filled-doubtful-clock = die Seite fand die Uhr ihres Geräts zweifelhaft: auf die Zeiten in der Datei ist kein Verlass
