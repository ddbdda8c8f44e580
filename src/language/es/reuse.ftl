# Lo que se consideró y no hace falta, y por qué está cada paso.
reuse-other-kind = solo para máquinas del tipo { $name }
reuse-no-rail = la máquina no tiene el riel { $name }
reuse-no-zone = la máquina no tiene la zona { $name }
reuse-no-instrument = la máquina no tiene el instrumento { $name }
reuse-no-energy = la máquina no tiene energía de este tipo: { $name }
reuse-no-fact = nadie indica { $name } de la máquina
reuse-no-shift-change = el trabajo no nombra un relevo de la cuadrilla
reuse-no-contractors = el trabajo no nombra contratistas
reuse-changes = cambia: { $names }
