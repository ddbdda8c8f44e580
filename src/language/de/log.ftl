## Das Logbuch einer Maschine: ein Baum über ihre unterschriebenen Einträge, der nur wächst.
log-note-too-long = länger als { $most } Byte
log-note-not-text = kein UTF-8-Text, oder mit Steuerzeichen
log-note-unsigned = keine Unterschrift nach einer leeren Zeile
log-note-crowded = mehr als { $most } Unterschriften
log-note-line = Unterschrift { $line } hat nicht die Form `— Name Base64`
log-checkpoint-line = Zeile { $line } ist nicht das, was ein Prüfpunkt dort hat
log-signed-without-time = ohne Angabe, wann unterschrieben wurde
log-signed-unlisted = unterschrieben von { $by }; dieser Schlüssel steht nicht in der Liste der Unterzeichner
log-signed-badly = die Unterschrift von { $by } passt nicht zum Text
log-kept-other-plant = gehört zu { $origin }, keiner Maschine dieses Werks
log-kept-form = weder eine Datei mit einem Prüfpunkt noch Maschine, Zahl der Einträge und 32 Ziffern
log-not-a-folder = ein Verweis oder kein Ordner
log-no-leaf = Name oder Länge hat im Logbuch keinen Platz
log-broken = die Listen `leaves` und `hashes` gehören nicht zusammen, darum lässt sich nichts anfügen: `audit` nennt den Unterschied; eine Kopie des Ordners zurücklegen, oder ihn wegräumen und mit `checkpoint` ein neues Logbuch beginnen
log-set-aside = die letzten { $bytes } Byte von { $list } waren keine ganze Zeile oder Prüfsumme: sie liegen jetzt in { $file }
log-completed = { $count ->
        [one] 1 Eintrag, der schon aufgezeichnet war, wurde dem Logbuch angefügt
       *[other] { $count } Einträge, die schon aufgezeichnet waren, wurden dem Logbuch angefügt
    }
log-adopted = { $count ->
        [one] 1 Eintrag, der keinen Platz im Logbuch hatte, wurde angefügt
       *[other] { $count } Einträge, die keinen Platz im Logbuch hatten, wurden angefügt
    }
log-checkpoint-aside = der Prüfpunkt war nicht zu lesen ({ $fault }): er liegt jetzt in { $file }
log-did-not-grow = das Logbuch ist nicht aus seinem Prüfpunkt mit { $count } Einträgen gewachsen, darum wurde kein neuer unterschrieben: `audit` nennt den Unterschied

## Die Prüfung eines Logbuchs.
log-line = Blatt { $leaf }: die Liste der Blätter hat dort keines und lässt sich nicht weiter lesen
log-order = Blatt { $leaf } ist Eintrag { $entry } von { $record } und folgt nicht auf die Blätter dieses Nachweises davor
log-entry-gone = Blatt { $leaf }: Eintrag { $entry } von { $record } ist nicht mehr aufgezeichnet
log-entry-changed = Blatt { $leaf }: Eintrag { $entry } von { $record } ist nicht mehr, was unterschrieben wurde
log-hash = Blatt { $leaf }: was das Logbuch von seinem Baum aufhebt, ist von hier an nicht, was seine Blätter ergeben
log-lengths = die Liste der Blätter und die der Prüfsummen sind verschieden lang
log-lacks = { $record }: { $count ->
        [one] 1 Eintrag, Nummer { $first }, hat
       *[other] { $count } Einträge, ab Nummer { $first }, haben
    } kein Blatt im Logbuch; `checkpoint` mit --by und --key fügt an, was unterschrieben wurde, bevor es ein Logbuch gab
log-pending = { $record }: { $count ->
        [one] 1 Eintrag, Nummer { $first }, hat
       *[other] { $count } Einträge, ab Nummer { $first }, haben
    } noch kein Blatt: beim Unterschreiben unterbrochen, die nächste Unterschrift fügt es an
log-aside = { $file } liegt neben dem Logbuch: Rest eines abgebrochenen Schreibens, oder fremd
log-none = hat noch kein Logbuch: die nächste Unterschrift, oder `checkpoint` mit --by und --key, beginnt eines
log-unsigned = das Logbuch hat noch keinen unterschriebenen Prüfpunkt
log-checkpoint-form = der Prüfpunkt ist nicht lesbar: { $fault }
log-checkpoint-other = der Prüfpunkt gehört zu einem anderen Logbuch
log-checkpoint-signature = der Prüfpunkt: { $fault }
log-checkpoint-longer = das Logbuch ist abgeschnitten: sein Prüfpunkt hat mehr Einträge
log-checkpoint-root = die Einträge bis zum Prüfpunkt sind nicht die, die mit ihm unterschrieben wurden
log-checkpoint-future = der Prüfpunkt liegt nach dem Zeitpunkt dieser Prüfung
log-after = { $count ->
        [one] 1 Eintrag kam
       *[other] { $count } Einträge kamen
    } nach dem neuesten Prüfpunkt
log-signers-changed = die Liste der Unterzeichner wurde seit dem neuesten Prüfpunkt geändert
log-kept-holds = bis Eintrag { $leaves } ist nichts geändert, seit dieser Prüfpunkt aufgehoben wurde
log-kept-longer = das Logbuch ist abgeschnitten, oder ein anderes: der aufgehobene Prüfpunkt hat mehr Einträge
log-kept-differs = das Logbuch ist nicht das, von dem der Prüfpunkt mit { $leaves } Einträgen aufgehoben wurde; der erste Unterschied ist einer der Einträge { $from } bis { $leaves }
log-kept-differs-at = das Logbuch ist nicht das, von dem der Prüfpunkt mit { $leaves } Einträgen aufgehoben wurde: zuerst anders ist Blatt { $leaf }, Eintrag { $entry } von { $record }
log-kept-contradicts = zwei der aufgehobenen Prüfpunkte haben { $leaves } Einträge und nennen verschiedene Wurzeln: jemandem wurde ein anderes Logbuch gezeigt
log-time-later = { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } im Prüfpunkt mit { $leaves } Einträgen, unterschrieben { $at }, { $count ->
        [one] nennt
       *[other] nennen
    } eine spätere Zeit, um bis zu { $seconds } s; zuerst Blatt { $leaf }, Eintrag { $entry } von { $record }: fragen, wessen Uhr falsch ging
log-time-earlier = { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } nach dem Prüfpunkt mit { $leaves } Einträgen, unterschrieben { $at }, { $count ->
        [one] nennt
       *[other] nennen
    } eine frühere Zeit, um bis zu { $seconds } s; zuerst Blatt { $leaf }, Eintrag { $entry } von { $record }: fragen, ob er auf einer Kopie, nach einer falschen Uhr oder zurückdatiert unterschrieben wurde
log-kept-unreadable = was aufgehoben wurde, { $kept }, ist unbrauchbar: { $fault }
log-head = Logbuch { $machine }: { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
log-tail = Logbuch { $machine }: { $errors ->
        [one] 1 Fehler
       *[other] { $errors } Fehler
    }, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    }
log-tail-keep = { $tail }; anderswo aufheben: { $short }
log-newest = unterschrieben von { $by } um { $at }
log-nothing = noch keine Maschine hat ein Logbuch
log-no-machine = es gibt weder Maschine noch Logbuch `{ $machine }`

## Die Seite eines Logbuchs, und seine Zeile auf Blättern und Nachweisen.
log-block = Prüfpunkt des Logbuchs der Maschine
log-place = Logbuch { $machine }
log-title = Logbuch von { $machine }
log-what = Jeder unterschriebene Eintrag dieser Maschine in der Reihenfolge der Unterschriften, als Merkle-Baum, der nur wächst (RFC 6962). Maschine:
log-keep = Diese Zeile anderswo aufheben
log-keep-how = Mit dem Tag aufschreiben, oder die Datei <code>checkpoint</code> aufheben, wo niemand hinkommt, der den Ordner des Werks ändern kann. Später beweist <code>witnessmark audit PLANT --checkpoint "..."</code>, dass bis dahin nichts geändert wurde.
log-proves = Was das beweist, und was nicht
log-proves-what = Ein aufgehobener Prüfpunkt zeigt, dass bis zu ihm seither kein Eintrag geändert, entfernt oder umgestellt wurde, von niemandem, wer auch die Schlüssel hat.
log-proves-not = Er zeigt nicht, dass das Unterschriebene wahr ist, nichts über das, was danach kam, und nicht, wann er aufgehoben wurde.
log-proves-other = Wer jeden Schlüssel und jeden aufgehobenen Prüfpunkt hat, kann ein anderes Logbuch machen, das aufgeht. Darum einen dort aufheben, wo niemand von ihnen hinkommt: auf Papier, beim Kunden, an einem anderen Standort.
log-files = Dateien dieses Logbuchs
log-fact-leaves = Einträge im Prüfpunkt
log-fact-at = Unterschrieben
log-fact-by = Von
log-fact-root = Wurzel (SHA-256)
log-file-checkpoint = Der neueste unterschriebene Prüfpunkt (C2SP signed note)
log-file-leaves = Prüfsumme, Eintrag und Nachweis jedes Blatts
log-file-tiles = Prüfsummen des Baums (C2SP tlog-tiles); die erste Datei
log-file-bundles = Einträge mit ihren Unterschriften, wie die Blätter sie haben; die erste Datei
