# The catalogue of the rules: what stands for a part that differs each time, and why they are rules.
rules-nearest = the nearest name that is known, or what is known there
rules-words = what is wrong there, in words
rules-remedy = how to mend that

## Why the rules of a topic are rules.
rules-why-energy = Who locks a source has to know its kind, its magnitude and how its zero is proved (29 CFR 1910.147(d)(1), (d)(5)-(6)).
rules-why-hazards = A warning protects only when it says what hurts, how badly, and how to keep clear (ANSI Z535.4).
rules-why-keys = A signature is worth what the list of keys behind it is worth.
rules-why-kit = What two crews reach for at the same time makes one of them wait, with the machine stopped and open.
rules-why-lockout = Only people who are trained and authorised lock out, and each under a lock of their own (29 CFR 1910.147(d)(4), (f)(3)).
rules-why-names = A name that points at nothing would leave out what somebody meant, and nobody at the machine would notice.
rules-why-numbers = A setting that cannot be read, reached or measured is set by guess.
rules-why-order = What was on the line before must not get into the next product (21 CFR 211.130; 21 CFR 117.135(c)).
rules-why-people = A plan that counts on somebody who is not there ends in a shortcut.
rules-why-policy = Who lowers a rule answers for it by name, for a time, and only where it is a matter of judgement.
rules-why-procedures = Each step is found by its heading, signed by its place and filled in by its block.
rules-why-reading = What cannot be read is not guessed: a key that is passed over in silence is a setting that nobody makes.
rules-why-redline = Who reads an old sheet must be able to tell that the text has changed, when, and why.
rules-why-register = What was approved and inspected must be shown years later without believing anybody.
rules-why-reuse = One text holds for many machines only when each place that differs is told, and everything that was left out is seen.
rules-why-safety = A source that nobody locks, lets out or proves can move while somebody reaches in (29 CFR 1910.147(d)).
rules-why-stop = The longer a line stands the more is skipped in a hurry, and the faster it is set up the more must be sure of who is where.
rules-why-trade = A packet must not ask for what the machine, the screw, the film or the instrument cannot do.
rules-why-translation = Whoever reads in another language must be told the same, no more and no less.
rules-why-walk = Nobody may be inside before every source is locked and proved, and no power may come before everybody is out (29 CFR 1910.147(d)-(f)).
rules-why-writing = A step is read once, under time pressure, often not in the first language of the reader.
