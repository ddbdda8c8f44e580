# Words around findings: severities, suggestions, notes of the plant's policy.
words-foreign = { $text }
finding-error = error
finding-warning = warning
finding-help = help
findings-more = there are more: mend these first
finding-plant-folder = the folder of the plant
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

## Shapes of values, and how each is written.
shape-text = a text
    .way-out = write one text here, in quotes when it holds a colon or looks like a number
shape-list = a list
    .way-out = put it into brackets, `[first, second]`, or write one a line behind `- `
shape-mapping = keys with a value each
    .way-out = write them as `{"{"} key: value {"}"}`, or one a line, indented below this key
shape-truth = yes or no
    .way-out = write true or false
shape-count = a whole number
    .way-out = write a number without unit, point or quotes: 4
shape-the-text = the text `{ $value }`
shape-the-number = the number { $value }
shape-the-truth = `{ $value }`
shape-nothing = nothing
shape-other = { $words }
    .way-out = write { $words }
