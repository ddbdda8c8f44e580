# The kit: what to fetch before the stop.
kit-parts = Change parts
kit-material = Material
kit-tools = Tools
kit-instruments = Instruments
kit-protective = Protective equipment
kit-locks = Locks and tags
kit-for-order = { $rolls } for the order
kit-calibrated = calibrated until { $date }
kit-personal = Personal padlock and tag
kit-each-person = { $count } of each, for each person who locks
kit-device = Padlock and tag for a device
kit-of-each = { $count } of each
kit-box = Group lock box
kit-personal-box = Personal padlock for the group box
