# Wörter, die überall stehen. Signal words after ISO 3864-2 in German, from memory.
language-tag = de
language-name = Deutsch
count-of = { $what }: { $count }
count-steps = { $count ->
    [one] 1 Schritt
   *[other] { $count } Schritte
}
signal-danger = GEFAHR
signal-warning = WARNUNG
signal-caution = VORSICHT
signal-notice = HINWEIS
