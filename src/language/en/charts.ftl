# Charts of readings, and the pages of the history.
charts-title = { $name }: readings in their order
charts-readings = reading
charts-ranges = moving range
charts-upper = UCL
charts-centre = CL
charts-lower = LCL
charts-has-points = { $count ->
    [one] 1 point.
   *[other] { $count } points.
}
charts-has-lines = Centre line { $centre }, limits { $lower } and { $upper }.
charts-has-range-lines = Mean of the moving ranges { $centre }, limit { $upper }.
charts-has-no-lines = Too few readings for limits.
charts-none-fired = No rule fired.
charts-fired-at = Rules fired at points { $points }.
charts-fired-at-more = Rules fired at points { $points } and { $count } more.
