# What was considered and is not needed, and why each step is there.
reuse-other-kind = only for machines of the kind { $name }
reuse-no-rail = the machine has no rail { $name }
reuse-no-zone = the machine has no zone { $name }
reuse-no-instrument = the machine has no instrument { $name }
reuse-no-energy = the machine has no { $name } energy
reuse-no-fact = nobody states { $name } of the machine
reuse-no-shift-change = the job names no change of the crew
reuse-no-contractors = the job names no contractors
reuse-changes = changes: { $names }
