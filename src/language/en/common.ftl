# Words that stand everywhere. Signal words after ANSI Z535.4.
# The tag of this language, for the page.
language-tag = en
language-name = English
count-of = { $what }: { $count }
count-steps = { $count ->
    [one] 1 step
   *[other] { $count } steps
}
signal-danger = DANGER
signal-warning = WARNING
signal-caution = CAUTION
signal-notice = NOTICE
