# `derive`: how every number of a job was worked out.
derive-head = { $job } on { $machine }: { $from } -> { $to }
derive-other-signed = note: people signed another packet of this job; these are the numbers of today's files
derive-unknown = nothing is called `{ $name }` in this job; it has: { $known }
derive-dropped = { $name } ({ $id }): no longer set, was { $was }

## Heads of lines: short.
derive-formula = formula
derive-numbers = numbers
derive-step = step
derive-result = result
derive-set-to = set to
derive-limits = limits
derive-with = with
derive-where = where
derive-note = note
derive-source = source
derive-thread = thread
derive-key = key
derive-torque = torque
derive-proof = proof
derive-caution = caution
derive-datum = datum
derive-web = web
derive-bar = bar
derive-scale = scale
derive-tip = tip
derive-fixed = fixed
derive-holder = holder
derive-old = old
derive-position = new
derive-move = move { $number }

## What stands behind a head.
derive-new = new
derive-was = was { $was }
derive-maker-first = the machine maker's torque comes before any computed one
derive-steps-of = steps of { $fact }
derive-off-by = may be off by { $fact }
derive-rail = { $name } ({ $id }), positions in { $unit } from the datum
derive-lanes = { $count ->
    [one] 1 lane
   *[other] { $count } lanes
}
derive-tip-left = { $distance } left of the middle of its holder; the tip counts
derive-tip-right = { $distance } right of the middle of its holder; the tip counts
derive-stepping = from the datum at most { $each } off; stepped off { $count } times, { $worst } at worst, { $rss } as root of the sum of squares
derive-on-scale = scale { $scale }
derive-not-on-it = not on it
derive-not-known = unknown
derive-no-move = no holder moves
derive-of-holder = holder { $number }:
derive-way-set = set to { $to }
derive-way-off = take the holder at { $from } off the rail
derive-way-fit = fit it at { $to }
derive-way-left = { $distance } to the left, to { $to }
derive-way-right = { $distance } to the right, to { $to }
