# Rails: positions, moves, lanes, the caption of the drawing.
rail-rails = Rails
rail-moves = { $count ->
    [0] Nothing moves
    [one] 1 move
   *[other] { $count } moves
}
rail-positions = Positions in { $unit } from the centre datum, tolerance <b>{ $tolerance }</b>.
rail-positions-with = Positions in { $unit } from the centre datum, tolerance <b>{ $tolerance }</b>, set with: { $instrument }.
rail-inches = inches
rail-datum = Datum: { $datum }
rail-scale = Scale on the rail: { $scale }
rail-drawing = Drawing: { $name }
rail-not-measured = To scale, not for measuring off.
rail-fixed = Fixed on the rail, no holder can stand on it or pass it:
rail-table-moves = Moves: { $name }
rail-table-lanes = Lanes: { $name }
rail-caption-knives = Knife holders: moves in their order, then those that stay
rail-caption-guides = Guide brackets: moves in their order, then those that stay
rail-move = Move
rail-holder = Holder
rail-from = From
rail-to = To
rail-on-scale = On the scale
rail-way = Way
rail-parked = parked
rail-lanes = Lanes
rail-lanes-web = Lanes; web { $web }
rail-lane = Lane
rail-left-edge = Left edge
rail-right-edge = Right edge
rail-waste = waste
rail-at-left = { $position } left
rail-at-right = { $position } right
rail-at-datum = { $position } at datum
rail-to-left = { $distance } to the left
rail-to-right = { $distance } to the right
rail-take-off = take off the rail
rail-fit = fit on the rail
rail-set = set
rail-stays = stays
rail-not-known = not known
rail-knives = { $count ->
    [one] 1 knife
   *[other] { $count } knives
}
rail-guides = { $count ->
    [one] 1 guide
   *[other] { $count } guides
}
rail-knife-holders = knife holders
rail-guide-brackets = guide brackets
rail-tip-left = The tip stands { $distance } left of the middle of its holder; the tip counts.
rail-tip-right = The tip stands { $distance } right of the middle of its holder; the tip counts.
rail-face-left = The guide face stands { $distance } left of the middle of its holder; the guide face counts.
rail-face-right = The guide face stands { $distance } right of the middle of its holder; the guide face counts.
rail-stepping = { $count ->
    [one] Measure every position from the datum. Stepped off from mark to mark, the outermost mark (1 step) could be off by { $worst } when all errors fall the same way, { $rss } as root of the sum of squares; from the datum at most { $each }.
   *[other] Measure every position from the datum. Stepped off from mark to mark, the outermost mark ({ $count } steps) could be off by { $worst } when all errors fall the same way, { $rss } as root of the sum of squares; from the datum at most { $each }.
}
rail-legend = Solid: new place. Dashed: old place. Arrow: a move. Slanting lines: parked spare.
rail-legend-off = Cross: taken off.
rail-legend-fit = Plus: fitted.
rail-legend-fixed = Crossed lines: fixed on the rail.
rail-legend-waste = Heavy line: cut. Dots: trim and waste.
rail-legend-trim = Heavy line: cut. Dots: trim.
