# Palabras que el programa escribe en los pasos de un paquete.
lines-translation-old = Traducción de la revisión { $from }. El procedimiento está en la revisión { $revision }: donde difieran, vale el procedimiento.
lines-not-translated = Sin traducir. Idioma de estos pasos: { $language }.
