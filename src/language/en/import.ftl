# Recipes from a table: what is said of table, mapping and recipes.
import-ending = a table's name ends in .csv, .xlsx or .ods; save an older workbook as .xlsx
import-too-large = the table is too large: at most { $rows } rows and { $columns } columns are read, 16 MB of file and 64 MB unpacked; split it, or take out what is no setting
import-long-cell = cell { $cell } has more than { $most } letters; shorten it, or take it out
import-not-utf8 = the file is not UTF-8; save it as "CSV UTF-8"
import-unreadable = the table cannot be read: { $why }; open it in your spreadsheet program and save it anew
import-no-sheet = there is no such sheet; it has: { $sheets }
import-which-sheet = the workbook has several sheets ({ $sheets }); name one with --sheet, or as `sheet` in the mapping
import-near = ; near to it: `{ $near }`
import-separator = `separator` is { $text }, which is not one plain letter
    .way-out = write one letter, for example separator: ";"
import-no-pattern = there is no recipe `{ $pattern }`{ $near }
    .way-out = name a recipe of the plant as `pattern`: its formulas, layouts and parts are taken over
import-heading-twice = `{ $heading }` heads two columns in row { $row }
    .way-out = give one of the two another heading in the table
import-no-heading = no column is headed `{ $heading }` in row { $row }{ $near }
    .way-out = write the heading as it stands in the table, and the number of its row as `head`
import-not-mapped = the mapping does not say what column `{ $heading }` is
    .way-out = map it, or leave it out knowingly: { "{" } is: left-out { "}" }
import-no-column = no column is the { $is } of a recipe
    .way-out = map one: { "{" } is: { $is } { "}" }
import-target-twice = two columns are `{ $what }`
    .way-out = leave one of them out: { "{" } is: left-out { "}" }
import-skip-column = `skip` names column `{ $heading }`, which the mapping does not have{ $near }
    .way-out = map that column, if only as { "{" } is: left-out { "}" }
import-of-missing = the column is an { $is }, but the mapping does not say which
    .way-out = add `of` with the name in the pattern
import-of-idle = a column that is { $is } has no `of`
    .way-out = take `of` out
import-not-in-pattern = the recipe `{ $pattern }` has no `{ $of }`{ $near }
    .way-out = write a name that the pattern has, or put it into the pattern first
import-is-computed = `{ $of }` is worked out by a formula in `{ $pattern }`; a value would take its place
    .way-out = map the inputs of the formula, or take a pattern in which it is a plain value
import-no-tolerance = `{ $of }` has no tolerance in `{ $pattern }`
    .way-out = give it one in the pattern
import-unit-of-column = `{ $unit }` is no unit{ $near }
    .way-out = write a unit as recipes do, or none for a count
import-heading-unit = the heading says { $said }, the mapping says { $unit }
    .way-out = find out which of the two the numbers are in, and write it in both places
import-nobody-says = nothing says the { $key } of the recipes
    .way-out = map a column to it, write it in the mapping, or give it as an option
import-not-a-day = `{ $text }` is no day in the form { $form }
    .way-out = write the form of the table's dates as `dates`, or correct the cell
import-formulas = { $count ->
    [one] 1 cell of this column is a formula: its value is taken as it was last saved
   *[other] { $count } cells of this column are formulas: their values are taken as they were last saved
}
    .way-out = open the table, let it work everything out, save it, and look at the values below
import-id-twice = `{ $id }` stands in row { $row } already
    .way-out = keep one of the two rows, or give one another identifier
import-bad-id = `{ $id }` can be no identifier: letters, digits and hyphens, 64 at most
    .way-out = write it otherwise in the table, or say under `named` what is meant, for example { $like }
import-is-there = a recipe `{ $id }` is there already, and says something else
    .way-out = skip the row, give another identifier, or name it: --replace { $id }
import-same-revision = the recipe `{ $id }` that is there is revision { $revision }, too
    .way-out = give the new one another revision
import-not-replaced = `{ $id }` was to be replaced, and no row makes it
    .way-out = look at the spelling, or take the option out
import-control = the cell holds a line break or a letter that cannot be shown
    .way-out = write it on one line
import-not-named = the mapping does not say what `{ $text }` means
    .way-out = add it under `named`, with what is meant
import-not-understood = `{ $text }` is not understood
    .way-out = write a number with its unit, or as the column says
import-no-unit = the number has no unit
    .way-out = say the unit of the column in the mapping: unit: mm, or none for a count
import-unknown-unit = `{ $unit }` is no unit
    .way-out = write the unit as recipes do
import-other-unit = the cell says { $own }, the column is in { $unit }
    .way-out = find out which is right, and write the number in { $unit }
import-too-exact = `{ $text }` has { $decimals } decimals, { $most } are allowed
    .way-out = correct the cell, allow more `decimals`, or let the column be rounded: round: true
import-rounded = { $text } was read, { $taken } is taken
    .way-out = nothing, if the column may be rounded
import-no-number = `{ $text }` is no number with the decimal sign { $sign }
    .way-out = say the table's signs in the mapping (decimal, thousands), or correct the cell
import-merged = the cell is merged with another, and holds nothing itself
    .way-out = part the merged cells, and write the value into each row
import-is-a-day = the cell is a date, { $day }: spreadsheets make dates out of numbers like 3.4
    .way-out = set the cell to a number, and type the value again
import-is-a-time = the cell is a time
    .way-out = set the cell to a number or a text, and type the value again
import-is-a-truth = the cell says true or false
    .way-out = write what is meant
import-is-an-error = the cell says { $error }
    .way-out = mend its formula, or type the value
import-empty = the cell is empty
    .way-out = fill it in, or skip the row in the mapping
import-cannot-edit = the text of the pattern cannot take these values: read again, the recipe says something else
    .way-out = write the pattern plainly: one value a field, no anchors and no text over several lines
import-place-cell = { $file }, { $sheet }cell { $cell }, column `{ $heading }`
import-place-row = { $file }, { $sheet }row { $row }
import-sheet = sheet { $sheet },
import-recipe = recipe { $id }
import-head = { $file }: { $rows ->
    [one] 1 row read
   *[other] { $rows } rows read
}, { $skipped } skipped
import-kept = Taken over from the pattern in every recipe:
import-new = new, from row { $row }
import-replaces = takes the place of the one that is there, from row { $row }
import-same = is there with the same text already, row { $row }
import-more = { $count ->
    [one] 1 more fault like these
   *[other] { $count } more faults like these
}
import-written = { $count ->
    [one] 1 recipe written
   *[other] { $count } recipes written
}
import-not-written = Nothing was written. With --write: { $count ->
    [one] 1 recipe
   *[other] { $count } recipes
}.
import-refused = Nothing was written.
