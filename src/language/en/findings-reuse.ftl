# Rules of one text for many machines.
unknown-parameter = the procedure `{ $id }` has no parameter `{ $name }`
    .way-out = { $nearest }
missing-parameter = the procedure `{ $id }` is not told its `{ $name }`: { $what }
    .way-out = write {"{"} procedure: { $id }, with: {"{"} { $name }: ... {"}"} {"}"}, or give the parameter a `default`
bad-parameter = `{ $name }` of the procedure `{ $id }` is { $what }, and `{ $value }` is none
    .way-out = { $nearest }
include-not-alone = an include stands alone under its heading, and `{ $title }` holds more
    .way-out = put text, steps and other includes under headings of their own
include-circle = these procedures include each other in a circle: { $circle }
    .way-out = take one of the includes out
include-too-deep = `{ $id }` stands inside { $most } other procedures
    .way-out = include it where it is needed; a reader follows { $most } at most
too-many-procedures = this changeover uses more than { $most } procedures, those included counted
    .way-out = look for a procedure that includes another again and again
unknown-feature = no machine of this plant has `{ $name }`, so this would never be done
    .way-out = { $nearest }
unknown-kind = no machine of this plant is of the kind `{ $kind }`
    .way-out = { $nearest }
order-missing = this machine has no `changeover`, and the plant has no order for its kind
    .way-out = list its procedures under `changeover`, or write `changeovers: {"{"} "{ $kind }": [...] {"}"}` into plant.yaml

## Parts of the above.
parameter-rail = a rail of the machine
parameter-zone = a zone of the machine
parameter-setting = a setting of the recipe wanted
parameter-instrument = an instrument at the machine
parameter-quantity = a quantity in { $unit }
parameter-text = a text
parameter-none = it has none: take `with` out
parameter-write = write { $what }
