# El juego de piezas: lo que se prepara antes de la parada.
kit-parts = Piezas de formato
kit-material = Material
kit-tools = Herramientas
kit-instruments = Instrumentos
kit-protective = Equipo de protección
kit-locks = Candados y tarjetas
kit-for-order = { $rolls } para el pedido
kit-calibrated = calibrado hasta { $date }
kit-personal = Candado personal y tarjeta
kit-each-person = { $count } de cada, por cada persona que bloquea
kit-device = Candado y tarjeta para un dispositivo
kit-of-each = { $count } de cada
kit-box = Caja de bloqueo de grupo
kit-personal-box = Candado personal para la caja de grupo
