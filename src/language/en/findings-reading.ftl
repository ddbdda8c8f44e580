## Rules of reading: YAML and its shape.
not-yaml = this is not YAML: { $message }
    .way-out = mind indentation (spaces, no tabs) and brackets; put text with a colon into quotes
unknown-key = unknown key `{ $key }`
    .way-out = { $nearest }
missing-key = the key `{ $key }` is missing
    .way-out = add `{ $key }: ...`
key-twice = the key `{ $key }` stands twice
    .way-out = keep one of the two
unknown-word = `{ $word }` is not a word known here
    .way-out = { $nearest }
wrong-shape = expected { $expected }, found { $found }
    .way-out = write { $expected } here

## Rules of files.
no-such-file = the plant has no file { $name }
    .way-out = write { $name }
link-refused = this is a link or no plain file, and is not followed
    .way-out = put the file itself into the plant's folder
file-too-large = this file is larger than { $kibibytes } KiB
    .way-out = split it
not-utf8 = this file is not UTF-8 text (byte { $byte })
    .way-out = save it as UTF-8
stray-file = files in this folder end in { $ending }; this one is not read
    .way-out = end its name in { $ending }, or move it elsewhere
id-is-not-file-name = the identifier is `{ $id }`, the file is called `{ $stem }`
    .way-out = give both the same name
bad-id = `{ $id }` cannot be an identifier
    .way-out = use letters, digits and hyphens, 64 at most

## Rules of keys.
bad-signer = this signer is not trusted: { $words } ({ $code })
    .way-out = write one line a key: person namespaces="signoff@DOMAIN",valid-after="...Z",valid-before="...Z" ssh-ed25519 ...

## Parts of the above.
yaml-too-deep = brackets stand inside each other more than { $most } times
yaml-grows = its aliases repeat too much
braces-with-percent = only values in double braces are allowed, no other braces with %
braces-unclosed = the closing {"}"}{"}"} is missing
braces-without-name = between double braces stands one name, such as strip or strip.limits
braces-in-code = a value cannot be put into code
