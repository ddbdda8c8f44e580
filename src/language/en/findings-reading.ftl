## Rules of reading: YAML and its shape.
not-yaml = this is not YAML: { $message }
    .way-out = mind indentation (spaces, no tabs) and brackets; put text with a colon into quotes
unknown-key = unknown key `{ $key }`
    .way-out = { $nearest }
missing-key = the key `{ $key }` is missing
    .way-out = add `{ $key }: ...`
key-twice = the key `{ $key }` stands twice
    .way-out = keep one of the two
    .why = Readers of YAML differ in which of the two they take.
unknown-word = `{ $word }` is not a word known here
    .way-out = { $nearest }
wrong-shape = expected { $expected }, found { $found }
    .way-out = { $remedy }

## Rules of files.
no-such-file = the plant has no file { $name }
    .way-out = write { $name }
link-refused = this is a link or no plain file, and is not followed
    .way-out = put the file itself into the plant's folder
    .why = A link can lead outside the plant, to a file that changes without anybody seeing it here.
file-too-large = this file is larger than { $kibibytes } KiB
    .way-out = split it
    .why = Nobody writes so much by hand: it is a mistake, or meant to do harm.
not-utf8 = this file is not UTF-8 text (byte { $byte })
    .way-out = save it as UTF-8
stray-file = files in this folder end in { $ending }; this one is not read
    .way-out = end its name in { $ending }, or move it elsewhere
    .why = A file with another ending is easily taken for one that counts.
id-is-not-file-name = the identifier is `{ $id }`, the file is called `{ $stem }`
    .way-out = give both the same name
    .why = Who looks for an identifier looks for its file.
bad-id = `{ $id }` cannot be an identifier
    .way-out = use letters, digits and hyphens, 64 at most
    .why = An identifier stands in links, file names and signatures.

## Rules of keys.
bad-signer = this signer is not trusted: { $words } ({ $code })
    .way-out = write one line a key: person namespaces="signoff@DOMAIN",valid-after="...Z",valid-before="...Z" ssh-ed25519 ...
    .why = A line that is half understood could let a key count that nobody meant.

## Parts of the above.
yaml-too-deep = brackets stand inside each other more than { $most } times
yaml-grows = its aliases repeat too much
braces-with-percent = only values in double braces are allowed, no other braces with %
braces-unclosed = the closing {"}"}{"}"} is missing
braces-without-name = between double braces stands one name, such as strip or strip.limits
braces-in-code = a value cannot be put into code
