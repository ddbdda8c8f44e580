## Why a file of a page is not taken in.
refusal-file-form = { $file }: { $path }: { $fault }
    .way-out = save the page to a file again, and leave the file as the page wrote it
refusal-file-of-another-job = the file was filled in for another job
    .way-out = name the job of the file
refusal-file-of-another-packet = the file was filled in on another issue of the packet
    .way-out = the packet was issued again: print or open the new one; the file is not touched
refusal-signed-first = the file holds { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } signed on the page and not on record
    .way-out = take them in first: --from alone, without --by and --key
refusal-signed-unreadable = signed[{ $index }].entry { $fault }
    .way-out = { $remedy }
refusal-entries-missing = the file goes on with entry { $entry }, and the record has { $count ->
        [one] 1 entry
       *[other] { $count } entries
    }
    .way-out = take the file in first that holds those between
refusal-record-moved-on = the record has moved on since the page was made: it has { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } today
    .way-out = publish again and open the page again: what was typed is kept; sign anew there, or at the desk with --by PERSON --key FILE
refusal-made-at-the-desk = entry { $entry } is { $kind }, which no page signs
    .way-out = sign it at the desk with { $option }
refusal-key-of-yesterday = entry { $entry } { $words }, today
    .way-out = sign at the desk with a key that counts: --by PERSON --key FILE
refusal-of-entry = entry { $entry }: { $words }
    .way-out = { $remedy }
refusal-of-record = { $words }
    .way-out = { $remedy }
refusal-sign-anew = sign anew: on the page, or at the desk with --by PERSON --key FILE; what was typed is kept
refusal-reading-differs = { $blank } has another value on record, in entry { $entry }
    .way-out = measure again; when the record is wrong, add --correct '{ $blank }=VALUE' --reason TEXT

## What is wrong with the form of such a file.
filled-too-large = has more than { $most } bytes
filled-too-many = holds { $items } things; at most { $most } are read
filled-no-object = is no object with named fields
filled-other-form = is form { $form }; this program reads form { $read }
filled-no-identifier = is not an identifier
filled-no-digest = is not 64 lower-case hex digits
filled-field-foreign = does not belong to what this is
filled-field-missing = is missing
filled-no-signature = is neither performed nor verified
filled-bad-text = is empty, too long, or has control or direction characters
filled-nobody = is neither a person of people.yaml nor initials

## What of a file was not added.
filled-reading = { $blank } = { $value } (entry { $entry })
filled-signature = { $step } { $kind } (entry { $entry })
filled-signed = { $count ->
        [one] 1 entry
       *[other] { $count } entries
    } signed on the page
filled-on-record = on record already: { $what }
filled-readings = { $count ->
        [one] 1 reading
       *[other] { $count } readings
    }
filled-signatures = { $count ->
        [one] 1 signature
       *[other] { $count } signatures
    }
filled-both = { $readings } and { $signatures }
filled-left = left: { $what } of { $by }; sign with --by and --key
filled-left-unnamed = left: { $what } of { $by }; name the person on the page
filled-doubtful-clock = the page found the clock of its device doubtful: do not rely on the times in the file
