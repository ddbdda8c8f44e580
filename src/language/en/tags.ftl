# Tags of a job. Paragraphs: 29 CFR 1910.147.
tags-title = Tags of job { $id }
tags-one-each = One tag for each isolating device. Each person who works behind the guards puts on a lock and a tag of their own. Print these sheets, cut along the lines, and punch the hole at the mark.
tags-warns-only = A tag warns and does not hold: the lock does. Where a device can be locked, the lock goes on (29 CFR 1910.147(c)(2)-(3)). Protect the paper so that the legend stays legible where it hangs. Tie it on by hand with a tie that locks by itself, is not used twice and needs at least 50 lb (222 N) to come off, such as a one-piece nylon cable tie (29 CFR 1910.147(c)(5)(ii)). Only the person who put on a lock and a tag takes them off.
tags-first = Local codes, the machine maker's manual, and authorised people come first. Where the plant has tags of its own, use those.
tags-name = Tag { $number }: { $device }
tags-legend = DO NOT OPERATE
tags-danger = <strong>DANGER.</strong> Moving this device can kill a person.
tags-keep = Keep it: <strong>{ $safe }</strong>
tags-lock = Lock: { $lock }.
tags-why = Job <strong>{ $id }</strong>: changeover from { $from } to { $to }.
tags-person = Name
tags-phone = Phone
tags-since = On since: date, time
tags-end = Expected end: date, time
tags-holder = This tag warns. It does not hold the device: the lock does. Where the device can be locked, the lock goes on. Only the person named takes off both.
tags-number = Tag { $number } of { $total }, packet { $digest }
tags-none = The packet lists no energy source, so there is no device to tag.
