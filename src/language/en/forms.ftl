# Compact forms of a packet: checklist, kit list, lockout sheet, settings and moves.
forms-checklist = Checklist
forms-kit = Kit list
forms-lockout = Lockout sheet
forms-moves = Settings and moves
forms-skip = Skip to the sheet
forms-from = From
forms-to = To
forms-machine = Machine
forms-order = Order
forms-day = Planned for
forms-state = State
forms-digest = Digest (SHA-256)
forms-revision = revision { $revision }
forms-foot-packet = Packet { $digest }
forms-foot-page = page { $page } of { $pages }
forms-local = Local codes, the machine maker's manual, and licensed or authorised people come first.
forms-exceptions = { $count ->
    [one] This packet has 1 exception that the plant answers for: read it in the full instruction.
   *[other] This packet has { $count } exceptions that the plant answers for: read them in the full instruction.
}
forms-name = Name
forms-signature = Signature
forms-time = Date and time
forms-performed = P
forms-verified = V
forms-released = R
forms-stays = Stays as it is:
forms-checklist-use = This list does not replace the full instruction: its texts, its hazard messages and its checks before reaching in count. Tick a step when it is done, and sign it there.
forms-signs = Signed where nothing else stands: { $signs }. P performed, V verified, R released.
forms-signs-by-step = each step says who signs
forms-nothing-held = Nothing at zero.
forms-all-sources = { $count ->
    [one] the only source
   *[other] all { $count } sources
}
forms-held = At zero: { $what }
forms-held-from = At zero after step { $from }: { $what }
forms-held-until = At zero until step { $until }: { $what }
forms-held-between = At zero after step { $from } until step { $until }: { $what }
forms-kit-use = Fetch everything before the stop. Look at the date of each instrument: do not measure with one whose calibration is over. This list does not replace the full instruction.
forms-kit-fetched = Everything is at the machine
forms-kit-none = This packet asks for nothing to be fetched.
forms-lockout-use = This sheet covers the lockout and the release whole, and nothing else: the steps between stand in the full instruction. Only people trained and authorised for this machine isolate energy, put on locks and take off their own. The sheet does not show that the machine is safe, that the list of sources is right, or that a lock is on.
forms-lockout-sources = Energy sources, in the order of isolation
forms-lockout-none = No energy source is listed. Ask before you reach in.
forms-lockout-people = People under this lockout
forms-lockout-left-out = { $count ->
    [one] Step { $steps } stands in the full instruction.
   *[other] Steps { $steps } stand in the full instruction.
}
forms-moves-use = This sheet does not replace the full instruction. Reach in only in the steps named here, in the energy state they need, with their hazard messages read.
forms-moves-settings = Settings that change
forms-moves-no-setting = No setting changes.
forms-moves-stay = Stay as they are:
forms-moves-not-set = measured or computed, not set
forms-what = What
forms-was = Was
forms-set-to = Set to
forms-limits = Limits
forms-where = Where, instrument
forms-moves-steps = In steps { $steps }, no other.
forms-moves-count = { $count ->
    [0] Nothing moves.
    [one] 1 move.
   *[other] { $count } moves, in this order.
}
forms-moves-positions = Positions in { $unit } from the centre datum, tolerance
forms-moves-datum = Datum: { $datum }.
forms-moves-scale = Scale on the rail: { $scale }
forms-moves-drawing = Drawing: { $rail }
forms-moves-not-measured = To scale, not for measuring off.
forms-moves-fixed = Fixed on the rail, no holder can stand on it or pass it:
forms-moves-table = Moves: { $rail }
forms-moves-move = Move
forms-moves-holder = Holder
forms-moves-on-scale = On the scale
forms-moves-from-way = From, way
forms-moves-to-limits = To, limits
forms-moves-reading = Reading, step { $step }, { $unit }
forms-moves-parked = parked
forms-moves-lanes = Lanes
forms-moves-web = web { $edges }
forms-moves-edges = { $left } to { $right }
forms-moves-done = Settings and positions as on this sheet
