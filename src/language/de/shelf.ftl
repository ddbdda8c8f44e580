# Was zu holen ist, nach dem Ort, an dem es liegt: die Liste eines Auftrags und die einer Schicht.
shelf-title = Was zu holen ist
shelf-use = Alles holen, bevor die Linie hält, Ort für Ort. Abhaken, was auf dem Wagen liegt. Auf das Datum jedes Messmittels sehen: nicht mit einem messen, dessen Kalibrierung abgelaufen ist. Neues Material außerhalb des markierten Bereichs der Linie lassen, bis der Schritt kommt, der es holt.
shelf-here = An der Maschine: nichts zu holen
shelf-unknown = Niemand sagt, wo es liegt
shelf-other = Anderes
shelf-none = Die Pakete dieser Schicht verlangen nichts zu holen.
shelf-box = Auf dem Wagen
shelf-what = Was
shelf-jobs = Für welchen Auftrag, wann gebraucht
shelf-is-here = schon an der Maschine
shelf-for-stop = bis zum Halt
shelf-before-stop = vor dem Halt, Schritt { $step }
shelf-for-step = Schritt { $step }
shelf-counted = { $count } × { $item }
shelf-too-few = Zu wenige von { $item }: es gibt { $count }. Gebraucht werden { $wanted }, für { $jobs }: { $when }.
