# El manual: está en inglés; estas son las palabras alrededor.
handbook-foot = Cómo funciona
handbook-link = Manual (en inglés)
handbook-written = { $files } en { $folder }: abra { $page }
