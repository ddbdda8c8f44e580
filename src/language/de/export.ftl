# Nachweise, die das Werk verlassen, und Ordner, die zurückkommen.

export-taken = { $path } gibt es schon und wird nicht ersetzt: einen anderen Ort nennen
export-folder = { $folder }: { $count ->
        [one] 1 Datei
       *[other] { $count } Dateien
    }; README.txt darin sagt, wie man es prüft
export-entries = { $path }: { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }
export-no-line = { $job }: Eintrag { $entry } ist keine Zeile JSON und wurde ausgelassen
export-judged-by = { $folder }: beurteilt nach allowed_signers { $signers } und people.json { $people }; beim Werk nachfragen, ob es diese Prüfsummen kennt
export-kept-holds = der aufgehobene Prüfpunkt mit { $leaves } Einträgen ist der in diesem Ordner: die Einträge darunter waren damals da, so wie sie sind
export-kept-differs = der Prüfpunkt mit { $leaves } Einträgen in diesem Ordner ist nicht der aufgehobene: der Ordner wurde aus einem anderen Logbuch gemacht
export-kept-elsewhere = dieser Ordner kann einen Prüfpunkt mit { $leaves } Einträgen nicht beweisen: seine Wege führen nur zu einem mit { $own } Einträgen; das Werk bitten, `audit PLANT --checkpoint` mit ihm auszuführen
export-under = { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    } von { $all } stehen im Logbuch des Prüfpunkts { $short }; mit einem vergleichen, der anderswo aufgehoben wurde

## Befunde zu einem Ordner.
export-people-unreadable = people.json fehlt oder ist nicht lesbar, darum ist niemand bekannt: { $said }
export-sums-missing = SHA256SUMS fehlt oder ist nicht lesbar
export-sums-form = SHA256SUMS hat eine Zeile, die keine Datei eines Exports nennt, oder eine zweimal
export-file-missing = { $file } fehlt, obwohl SHA256SUMS die Datei nennt
export-file-changed = { $file } ist nicht die Datei, die geschrieben wurde
export-log-unreadable = log.json fehlt oder ist nicht lesbar: { $said }
export-log-entry = Eintrag { $entry } steht nicht im Logbuch, das der Prüfpunkt nennt

## README.txt eines Ordners.
export-how-to =
    Nachweis zu Auftrag { $job }, { $count ->
        [one] 1 Eintrag
       *[other] { $count } Einträge
    }. Geschrieben von { $program }.

    WAS HIER LIEGT
    record/           Der Nachweis, Byte für Byte: packet.json, die Anweisung, nach der gearbeitet
                      wurde; 000001.json und so weiter, was unterschrieben wurde; .sig, die
                      Unterschriften.
    packet.html       Die Anweisung zum Lesen. Im Browser öffnen.
    record.html       Der Nachweis zum Lesen. Beide Seiten sind aus record/ gemacht. Selbst
                      beweisen sie nichts.
    allowed_signers   Wem welcher Schlüssel gehört, und von wann bis wann er gilt.
    people.json       Name und Rollen derer, die unterschrieben haben, und verlorene Schlüssel.
                      Diese Datei hat niemand unterschrieben.
    FORMAT.md         Das Format des Nachweises, genug für ein weiteres Prüfprogramm.
    verify.py         Ein solches Prüfprogramm: eine Seite Python.
    checkpoint        Wenn die Maschine ein Logbuch hat: sein neuester Prüfpunkt. Mit einem
                      vergleichen, der anderswo aufgehoben wurde.
    log.json          Der Weg jedes Eintrags zur Wurzel, die der Prüfpunkt nennt.
    SHA256SUMS        Prüfsummen aller Dateien.

    WIE MAN ES PRÜFT
    In diesem Ordner, mit Python ab 3.9 und ssh-keygen (OpenSSH ab 8.2):

      sha256sum -c SHA256SUMS       Die Kopie ist ganz.
      python3 verify.py             Der Nachweis hält. Nennt jeden Fehler.
      witnessmark audit .           Dasselbe mit dem Programm, das es schrieb, und die
                                    Reihenfolge des Sperrens.

    Ein Eintrag von Hand, hier der letzte:

      1  { $digest }
      2  { $verify }
      3  { $chain }

    Der erste Befehl gibt seine Prüfsumme. Der zweite sagt, wer unterschrieben hat, und ob der
    Schlüssel damals galt. Der dritte gibt den Kopf: was ein nächster Eintrag als "prev" nennen
    müsste.

    BEIM WERK NACHFRAGEN, auf einem anderen Weg als dem, auf dem dieser Ordner kam, nach diesen drei:

      SHA-256 von allowed_signers   { $signers }
      SHA-256 von people.json       { $people }
      Kopf des Nachweises           { $head }

    WAS ES BEWEIST
    - Jeder Eintrag ist mit dem Schlüssel unterschrieben, den allowed_signers der Person gibt, zu
      einer Zeit, zu der er galt, und kein Byte hat sich seitdem geändert.
    - Zwischen dem ersten und dem letzten Eintrag hier wurde keiner entfernt, eingefügt oder
      verschoben.
    - Die Anweisung ist die, für die unterschrieben wurde, mit ihren Grenzen.

    WAS ES NICHT BEWEIST
    - Dass wahr ist, was unterschrieben wurde. Eine Unterschrift sagt, wer dafür einsteht.
    - Dass kein Eintrag nach dem letzten hier weggelassen wurde: den Kopf vergleichen.
    - Dass nicht alle zusammen, die sämtliche Schlüssel haben, alles neu geschrieben haben: den
      Kopf mit einem vergleichen, der damals anderswo aufgehoben wurde.
    - Die Uhrzeit: es ist die der Uhr, an der unterschrieben wurde.
    - Dass ein Schlüssel in den Händen der Person ist, für die er eingetragen ist.

    Ein Nachweis ersetzt keine Vorschrift. Örtliche Vorschriften, das Handbuch des
    Maschinenherstellers und die zugelassene Praxis gehen vor.
