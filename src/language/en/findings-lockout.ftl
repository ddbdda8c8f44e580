## Rules of who may lock.
role-held-by-nobody = nobody holds the role `{ $role }` on this day, and steps ask for it
    .way-out = give somebody the role in people.yaml, or plan the job for another day
nobody-authorised = the plant does not say which roles may lock out
    .way-out = add `authorised: [technician]`, with the roles of people who are trained and authorised (29 CFR 1910.147(d)(4)(i) and (b))
no-electrical-role = the plant does not say which role measures electrical zero
    .way-out = add `electrical: electrician`, with the role of the electrically qualified people (29 CFR 1910.333(b)(2)(iv)(B), from memory)
electrical-not-authorised = the role `{ $role }` measures zero and may not lock out
    .way-out = add `{ $role }` to `authorised`: zero is proved by authorised people (29 CFR 1910.147(d)(6))

## Rules of groups, shift changes and contractors.
primary-missing = nobody holds primary responsibility for this crew
    .way-out = add `primary: <person>` with an authorised person (29 CFR 1910.147(f)(3)(ii)(A))
coordinator-missing = several crafts or firms work here, and nobody coordinates them
    .way-out = add `coordinator: <person>` with one authorised person for the whole job (29 CFR 1910.147(f)(3)(ii)(C))
person-not-authorised = { $name } has no role that may lock out on { $day }
    .way-out = name a person who is { $roles } on that day (29 CFR 1910.147(f)(3)(ii), (d)(4)(i))
group-of-one = a crew of one person is no group
    .way-out = name everybody who works inside, or leave `crew` out: one person locks each device with a lock of this person (29 CFR 1910.147(f)(3))
contractor-not-told = `{ $firm }` works here, and `{ $key }` is not said
    .way-out = add `{ $key }`: host and contractor inform each other of their lockout rules (29 CFR 1910.147(f)(2), from memory)
shift-change-misplaced = the crew cannot change before `{ $before }`: it { $why }
    .way-out = name a procedure of the work inside the guards (29 CFR 1910.147(f)(4))
shift-change-gap = the procedure `shift-change` leaves a gap: { $why }
    .way-out = in this order: a step with `repeat: arriving`, one with `repeat: leaving`, one with `stage: verify` (29 CFR 1910.147(f)(4) and (d)(6))
no-personal-locks = a crew is named, and the changeover of `{ $machine }` has no steps in which each puts a personal lock on and takes it off
    .way-out = add steps with `when: {"{"} job: crew {"}"}` and `repeat: crew`: one between locking and the first work inside, one between clearing the people and unlocking (29 CFR 1910.147(f)(3)(ii)(D))
crew-in-test-block = a crew works under one lockout, and the changeover of `{ $machine }` has a test block: power would come while personal locks are on the box
    .way-out = split the job in two, or leave the block out of `changeover`: everybody takes the own lock off before power comes (29 CFR 1910.147(f)(1)(ii), (f)(3))
contractors-not-met = contractors are named, and the changeover of `{ $machine }` has no step in which lockout rules are exchanged with them
    .way-out = add a step with `when: {"{"} job: contractors {"}"}` before the locks go on (29 CFR 1910.147(f)(2), from memory)
shift-ends-under-locks = the shift `{ $shift }` ends at { $ends }, while the machine is locked out
    .way-out = add `shift_change` to `lockout` of the job, or start earlier (29 CFR 1910.147(f)(4))
bad-clock = `{ $text }` is not a time of day
    .way-out = write it like "06:00" or "14:30"
role-not-authorised = `{ $step }` { $why }
    .way-out = write `performed: { $first }`: { $roles } may lock out, as `authorised` in plant.yaml says (29 CFR 1910.147(d)(4)(i))

## Parts of the above.
role-may-not-lock = is done by the role `{ $role }`, which may not lock out
role-is-nobody = is part of the lockout, and nobody signs that it was done
change-not-in-changeover = is not in the changeover of the machine
change-not-under-locks = does not stand between the proof of zero and the unlocking
change-without-locks = the arriving people put no locks on
change-locks-off-first = the leaving people do not take their locks off after the arriving put theirs on
change-zero-not-proved = zero is not proved again at its end
