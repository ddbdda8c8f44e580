# Das Handbuch: es ist auf Englisch; dies sind die Wörter darum herum.
handbook-foot = Wie es geht
handbook-link = Handbuch (Englisch)
handbook-written = { $files } in { $folder }: { $page } öffnen
