# Words around findings: severities, suggestions, notes of the plant's policy.
words-foreign = { $text }
finding-error = error
finding-warning = warning
finding-help = help
findings-more = there are more: mend these first
finding-raised = an error in this plant, by `raise` in plant.yaml
finding-justified = justified by { $by }, { $date }: { $reason }
either-or = { $one } or { $other }

## Suggestions.
nearest-name = did you mean `{ $name }`?
nearest-none = there is none to choose from
nearest-all = known here: { $names }
nearest-some = known here: { $names } and { $more } more
nearest-no-unit = write a unit such as mm, N·m, °C, bar
nearest-fact = add `{ $fact }` to the `facts` of the rail `{ $rail }` in the machine's file
nearest-no-step = the file has no steps: leave `step` out
