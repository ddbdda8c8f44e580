## Rules of the kit: tools, and whether there are enough of them.
tool-twice = `{ $item }` stands twice among the tools
    .way-out = keep one entry; `count` says how many there are
too-few-at-once = there are too few of { $item }: { $count }; wanted are { $wanted }, by { $jobs }: { $when }
    .way-out = let one job start after the other ends (`starts`), or write how many there are: `count` of the part, or of the tool in stock.yaml
kit-alone = one job alone
kit-at-once = by their planned times they meet
kit-cannot-tell = nobody can tell whether at the same time: a job does not say when it starts or how long it takes
