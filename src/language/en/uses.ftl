# Where each thing of a plant is used, and what is used nowhere.
uses-title = Where used
uses-intro = What each machine, recipe, procedure and open job uses, with file and line. Look here before a name, a tool or a procedure is changed or taken out.
uses-unused = Used nowhere
uses-unused-none = Everything of the plant's own is used.
uses-unused-shipped = Shipped with the program, and used nowhere here
uses-same = Likely the same thing: are they?
uses-procedure = procedure
uses-hazard = hazard message
uses-tool = tool
uses-instrument = instrument
uses-fastener = screw
uses-setting = setting
uses-input = input
uses-table = table
uses-part = part or material
uses-film = film
uses-zone = zone
uses-energy = energy source
uses-fact = fact
uses-role = role
uses-procedures = Procedures
uses-hazards = Hazard messages
uses-tools = Tools
uses-instruments = Instruments
uses-fasteners = Screws
uses-settings = Settings
uses-inputs = Inputs
uses-tables = Tables
uses-parts = Parts and material
uses-films = Films
uses-zones = Zones
uses-energies = Energy sources
uses-facts = Facts
uses-roles = Roles
uses-by-plant = the plant
uses-by-person = held by { $id }
uses-by-machine = machine { $id }
uses-by-recipe = recipe { $id }
uses-by-procedure = procedure { $id }
uses-by-job = job { $id }
uses-by-step = { $id }, step "{ $title }"
uses-stands = stands in
uses-used-by = used by
uses-open-jobs = open jobs
uses-nothing = nothing uses it
uses-not-there = nothing there uses it
uses-count = { $count ->
    [one] 1 use
   *[other] { $count } uses
}
uses-jobs-count = { $count ->
    [one] 1 open job
   *[other] { $count } open jobs
}
uses-with-errors = The check of this plant has errors: what could not be understood is missing here.
uses-unknown = nothing in this plant is called `{ $name }`; without a name, everything is listed
uses-unknown-near = nothing in this plant is called `{ $name }`; near to it: { $near }
uses-what = what
uses-all = Everything by kind
uses-more = { $count ->
    [one] and 1 more: <code>where-used</code> prints all
   *[other] and { $count } more: <code>where-used</code> prints all
}
