# Drawings of rails: words in them and what they show, in words.
drawing-title = { $rail }: old and new places, to scale
drawing-alone = Drawing alone, to zoom
drawing-old = old
drawing-new = new
drawing-lanes = lanes
drawing-opening = opening
drawing-datum = centre datum
drawing-left = left
drawing-right = right
drawing-parked = parked
drawing-off = off
drawing-inches = inches
drawing-has-knives = { $count ->
    [one] 1 knife holder
   *[other] { $count } knife holders
}
drawing-has-guides = { $count ->
    [one] 1 guide bracket
   *[other] { $count } guide brackets
}
drawing-has-parked = { $count } of them parked
drawing-has-lanes = { $count ->
    [one] 1 lane
   *[other] { $count } lanes
}
drawing-has-moves = { $count ->
    [one] 1 move
   *[other] { $count } moves
}
drawing-has-off = { $count } taken off the rail
drawing-has-fitted = { $count } fitted on the rail
drawing-has-fixed = fixed on the rail: { $names }
drawing-outermost = Outermost places in use: { $left } and { $right }.
drawing-web = Edges of the web: { $left } and { $right }.
drawing-moving = To be moved: { $holders }.
drawing-unit = Positions in { $unit } from the centre datum, left is negative.
