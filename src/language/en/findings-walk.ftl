## Rules of the walk over the steps, 29 CFR 1910.147(d)-(f).
rail-not-isolated = `{ $step }` handles what stands on `{ $rail }`, but asks for no lockout of its zone
    .way-out = write `needs: isolated` and `zone: { $rail }`, without `minor_servicing`: setting up is servicing (29 CFR 1910.147(b), (d)(6))
lockout-step-optional = `{ $step }` is part of the lockout and stands under a condition
    .way-out = take the condition out: locks, proofs and what people are told depend on no setting and no part of the machine (29 CFR 1910.147(d), (e), (f))
minor-servicing-incomplete = minor servicing without lockout does not say `{ $missing }`
    .way-out = say each in words, all of them have to hold, or lock out (29 CFR 1910.147(a)(2)(ii), note; 1910.212)
people-not-clear = `{ $step }` comes without a step `clear-people` that still counts
    .way-out = put that step before it (29 CFR 1910.147{ $paragraph })
stage-missing = `{ $step }` comes without a step `{ $missing }` that still counts
    .way-out = put that step before it (29 CFR 1910.147{ $paragraph })
source-not-held = `{ $step }` comes before the source `{ $source }` had its `{ $missing }`
    .way-out = put that step before it, for every source (29 CFR 1910.147{ $paragraph })
not-isolated = `{ $step }` reaches into { $zone }, but the source `{ $source }` has not had its `{ $missing }`
    .way-out = isolate, lock, relieve and verify every source of the zone first (29 CFR 1910.147{ $paragraph })
reaches-in = `{ $step }` reaches into { $zone } without isolation
    .way-out = write `needs: isolated`, or take the zone away if nobody reaches in (29 CFR 1910.147(d)(6), (e)(2)(i))
minor-servicing-unfit = `{ $step }` claims minor servicing, but is no small job during production
    .way-out = give it a `zone`, `needs: energised` and no `stage`, or take `minor_servicing` away and lock out (29 CFR 1910.147(a)(2)(ii), note)
zone-missing = `{ $step }` needs isolation but does not say where somebody reaches in
    .way-out = add `zone: <zone or rail>` (29 CFR 1910.147(d)(3))
locks-on = `{ $step }` needs power while the source `{ $source }` is held
    .way-out = do it before the lockout, after the release, or in a test block (29 CFR 1910.147(e), (f)(1))
locks-left = the packet ends at `{ $step }` with the source `{ $source }` still held
    .way-out = end the changeover with the release from lockout (29 CFR 1910.147(e))
stage-without-sources = `{ $step }` acts on no energy source
    .way-out = add `repeat: energy`, so that every source is in it, or `repeat: inching` in a test block (29 CFR 1910.147(d)(3)-(6), (e)(3))

## Rules of the test block, 29 CFR 1910.147(f)(1).
block-without-sources = `{ $step }` begins a test block, but the machine names no source for one
    .way-out = add `inching: {"{"} sources: [..], .. {"}"}` to the machine, or leave the locks on (29 CFR 1910.147(f)(1))
block-begins-unproved = `{ $step }` begins a test block, but the source `{ $source }` has not had its `{ $missing }`
    .way-out = put the block after the proof of zero of its sources (29 CFR 1910.147(f)(1))
test-outside-block = `{ $step }` needs power for a test, but stands in no test block
    .way-out = write `block: test` on this step and on those that take the locks off before it and put them on after it (29 CFR 1910.147(f)(1)(i)-(v))
block-takes-other-lock = `{ $step }` takes the lock of `{ $source }` off, which the machine does not name for a test block
    .way-out = write `repeat: inching`; every other lock stays on (29 CFR 1910.147(f)(1)(iii))
reaches-in-block = `{ $step }` reaches into { $zone } in a test block whose locks came off
    .way-out = put that work after the block, when its sources are verified again (29 CFR 1910.147(f)(1)(ii) and (v))
power-in-block = `{ $step }` stands in a test block and needs plain power
    .way-out = write `needs: test`, or put it after the release (29 CFR 1910.147(f)(1)(iv))
block-without-unlock = a test block ends at `{ $step }` in which no lock came off
    .way-out = add a step `stage: unlock` with `repeat: inching` to the block, or take `block` away (29 CFR 1910.147(f)(1)(iii))
block-without-test = a test block ends at `{ $step }` in which nothing was tested
    .way-out = add a step `needs: test` and no `stage` to the block, or leave the locks on (29 CFR 1910.147(f)(1)(iv))
block-left-open = a test block ends at `{ $step }`, but the source `{ $source }` has not had its `{ $missing }` again
    .way-out = end the block with shutdown, isolate, lock, relieve, try-out and verify of its sources (29 CFR 1910.147(f)(1)(v))

## Parts of the above.
zone-named = the zone `{ $zone }`
zone-guarded = a guarded zone
