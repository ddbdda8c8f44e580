# Palabras que aparecen en todas partes. Signal words after ANSI Z535.4 and ISO 3864-2 in Spanish, from memory.
language-tag = es
language-name = Español
count-of = { $what }: { $count }
count-steps = { $count ->
    [one] 1 paso
   *[other] { $count } pasos
}
signal-danger = PELIGRO
signal-warning = ADVERTENCIA
signal-caution = PRECAUCIÓN
signal-notice = AVISO
