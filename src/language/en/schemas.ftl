## Schemas of the files people write: what each is for, and the page that lists them.
schemas-plant = The plant: its name, the domain of its signatures, roles, who may lock out and who accepts a deviation, units, judging of readings, what becomes of findings.
schemas-people = People, the roles they hold from when to when, and keys that count no more.
schemas-machine = A machine as it stands: rails, holders, screws, instruments, guarded zones, every source of energy, the order of procedures.
schemas-recipe = A product format: inputs, tables, the web, formulas of the settings, tolerances, layouts, net contents, the first pieces.
schemas-job = An order on a machine: from which recipe to which, how many pieces, when, and who works under its lockout.
schemas-stock = Films with thickness and mass, and their rolls.
schemas-hazards = Hazard messages of the plant's own, beside the shipped ones.
schemas-procedure = The front matter of a procedure, between the two lines of ---.
schemas-step = The facts of a step of a procedure, in its block marked step.
schemas-translation = The front matter of a procedure's translation.
schemas-texts = The texts of a step of a translation, in its block marked texts.
schemas-title = Keys of the files
schemas-lead = Each schema lists the keys of one kind of file, says what each key is for and what follows when it is left out. An editor that knows JSON Schema completes the keys and marks what would be refused.
schemas-how = Copy the schemas beside the files. Then begin a YAML file with this line, with the name of its schema:
schemas-limits = A schema sees one file alone. Whether a name exists, a formula has an answer or a step is safe is found by the check.
schemas-schema = Schema
schemas-file = File
schemas-about = What it is for
schemas-link = Keys of the files, for editors
schemas-count = { $count ->
        [one] 1 schema
       *[other] { $count } schemas
    }
schemas-written = wrote { $count } to { $folder }
