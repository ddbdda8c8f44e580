# Dónde se usa cada cosa de una planta, y qué no se usa en ningún lugar.
uses-title = Dónde se usa
uses-intro = Qué usa cada máquina, receta, procedimiento y trabajo abierto, con archivo y línea. Mire aquí antes de cambiar o retirar un nombre, una herramienta o un procedimiento.
uses-unused = Sin uso
uses-unused-none = Todo lo propio de la planta se usa.
uses-unused-shipped = Viene con el programa y aquí no se usa
uses-same = Probablemente lo mismo: ¿lo son?
uses-procedure = procedimiento
uses-hazard = mensaje de peligro
uses-tool = herramienta
uses-instrument = instrumento
uses-fastener = tornillo
uses-setting = ajuste
uses-input = dato de entrada
uses-table = tabla
uses-part = pieza o material
uses-film = película
uses-zone = zona
uses-energy = fuente de energía
uses-fact = dato
uses-role = función
uses-procedures = Procedimientos
uses-hazards = Mensajes de peligro
uses-tools = Herramientas
uses-instruments = Instrumentos
uses-fasteners = Tornillos
uses-settings = Ajustes
uses-inputs = Datos de entrada
uses-tables = Tablas
uses-parts = Piezas y material
uses-films = Películas
uses-zones = Zonas
uses-energies = Fuentes de energía
uses-facts = Datos
uses-roles = Funciones
uses-by-plant = la planta
uses-by-person = la tiene { $id }
uses-by-machine = máquina { $id }
uses-by-recipe = receta { $id }
uses-by-procedure = procedimiento { $id }
uses-by-job = trabajo { $id }
uses-by-step = { $id }, paso «{ $title }»
uses-stands = está en
uses-used-by = lo usan
uses-open-jobs = trabajos abiertos
uses-nothing = nada lo usa
uses-not-there = allí nada lo usa
uses-count = { $count ->
    [one] 1 uso
   *[other] { $count } usos
}
uses-jobs-count = { $count ->
    [one] 1 trabajo abierto
   *[other] { $count } trabajos abiertos
}
uses-with-errors = La revisión de esta planta tiene errores: lo que no se pudo entender falta aquí.
uses-unknown = nada en esta planta se llama `{ $name }`; sin nombre se enumera todo
uses-unknown-near = nada en esta planta se llama `{ $name }`; parecido: { $near }
uses-what = qué
uses-all = Todo por tipo
uses-more = { $count ->
    [one] y 1 más: <code>where-used</code> los muestra todos
   *[other] y { $count } más: <code>where-used</code> los muestra todos
}
