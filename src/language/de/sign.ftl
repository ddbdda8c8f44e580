# Unterschreiben auf dem Tablet: was das Programm mit einem Wort meldet, und was man vorher wissen muss.
sign-no-key = Auf diesem Tablet ist kein Schlüssel von Ihnen mehr. Nichts wurde unterschrieben, das Eingegebene bleibt erhalten.
sign-lost = Hatten Sie hier schon einen Schlüssel? Dann wurden die Daten des Browsers gelöscht, und dieser Schlüssel ist endgültig weg. Einen neuen anlegen und der Schichtleitung sagen, dass sie die Zeile des alten in der Liste der Unterschriftsberechtigten beendet. Was der alte Schlüssel unterschrieben hat, bleibt gültig.
sign-there-is-one = Ein anderes Fenster hat schon einen Schlüssel für Sie angelegt. Diese Seite neu öffnen und ihn verwenden.
sign-signed-elsewhere = Ein anderes Fenster dieser Seite hat inzwischen unterschrieben. Nichts wurde doppelt unterschrieben, nichts ist verloren: diese Seite neu öffnen, das Unterschriebene ansehen und den Rest unterschreiben.
sign-no-person = Inzwischen wurde jemand anderes gewählt. Nichts wurde unterschrieben. Den eigenen Namen wählen und noch einmal unterschreiben.
sign-remove = Meinen Schlüssel von diesem Tablet entfernen
sign-remove-sure = Den Schlüssel entfernen? Er lässt sich nicht zurückholen. Was er unterschrieben hat, bleibt gültig. Der Schichtleitung sagen, dass sie seine Zeile in der Liste der Unterschriftsberechtigten beendet.
