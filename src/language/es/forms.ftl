# Formas breves de un paquete: lista de verificación, lista de preparación, hoja de bloqueo, ajustes y movimientos.
forms-checklist = Lista de verificación
forms-kit = Lista de preparación
forms-lockout = Hoja de bloqueo
forms-moves = Ajustes y movimientos
forms-skip = Ir a la hoja
forms-from = De
forms-to = A
forms-machine = Máquina
forms-order = Pedido
forms-day = Previsto para
forms-state = Estado
forms-digest = Huella (SHA-256)
forms-revision = revisión { $revision }
forms-foot-packet = Paquete { $digest }
forms-foot-page = hoja { $page } de { $pages }
forms-local = Primero valen las normas locales, el manual del fabricante de la máquina y las personas habilitadas o autorizadas.
forms-exceptions = { $count ->
    [one] Este paquete tiene 1 excepción de la que responde la planta: léala en la instrucción completa.
   *[other] Este paquete tiene { $count } excepciones de las que responde la planta: léalas en la instrucción completa.
}
forms-name = Nombre
forms-signature = Firma
forms-time = Fecha y hora
forms-performed = E
forms-verified = V
forms-released = L
forms-stays = Queda como está:
forms-checklist-use = Esta lista no sustituye la instrucción completa: valen sus textos, sus mensajes de peligro y sus comprobaciones antes de meter las manos. Marque un paso cuando esté hecho y fírmelo allí.
forms-signs = Firma donde no se dice otra cosa: { $signs }. E ejecutado, V verificado, L liberado.
forms-signs-by-step = cada paso dice quién firma
forms-nothing-held = Nada en cero.
forms-all-sources = { $count ->
    [one] la única fuente
   *[other] las { $count } fuentes
}
forms-held = En cero: { $what }
forms-held-from = En cero después del paso { $from }: { $what }
forms-held-until = En cero hasta el paso { $until }: { $what }
forms-held-between = En cero después del paso { $from } hasta el paso { $until }: { $what }
forms-kit-use = Traiga todo antes de la parada. Mire la fecha de cada instrumento: no mida con uno cuya calibración haya vencido. Esta lista no sustituye la instrucción completa.
forms-kit-fetched = Todo está junto a la máquina
forms-kit-none = Este paquete no pide traer nada.
forms-lockout-use = Esta hoja contiene completos el bloqueo y la liberación, y nada más: los pasos intermedios están en la instrucción completa. Solo las personas formadas y autorizadas para esta máquina cortan la energía, colocan candados y retiran el suyo. La hoja no demuestra que la máquina sea segura, que la lista de fuentes sea correcta ni que haya un candado puesto.
forms-lockout-sources = Fuentes de energía, en el orden de corte
forms-lockout-none = No figura ninguna fuente de energía. Pregunte antes de meter las manos.
forms-lockout-people = Personas bajo este bloqueo
forms-lockout-left-out = { $count ->
    [one] El paso { $steps } está en la instrucción completa.
   *[other] Los pasos { $steps } están en la instrucción completa.
}
forms-moves-use = Esta hoja no sustituye la instrucción completa. Meta las manos solo en los pasos que se nombran aquí, en el estado de energía que piden, después de leer sus mensajes de peligro.
forms-moves-settings = Ajustes que cambian
forms-moves-no-setting = No cambia ningún ajuste.
forms-moves-stay = Quedan como están:
forms-moves-not-set = medido o calculado, no se ajusta
forms-what = Qué
forms-was = Antes
forms-set-to = Ajuste a
forms-limits = Límites
forms-where = Dónde, instrumento
forms-moves-steps = En los pasos { $steps }, en ningún otro.
forms-moves-count = { $count ->
    [0] Nada se mueve.
    [one] 1 movimiento.
   *[other] { $count } movimientos, en este orden.
}
forms-moves-positions = Posiciones en { $unit } desde el cero central, tolerancia
forms-moves-datum = Cero: { $datum }.
forms-moves-scale = Escala en el riel: { $scale }
forms-moves-drawing = Dibujo: { $rail }
forms-moves-not-measured = A escala, no para medir sobre el dibujo.
forms-moves-fixed = Fijo en el riel, ningún soporte puede estar encima ni pasar:
forms-moves-table = Movimientos: { $rail }
forms-moves-move = Orden
forms-moves-holder = Soporte
forms-moves-on-scale = En la escala
forms-moves-from-way = De, recorrido
forms-moves-to-limits = A, límites
forms-moves-reading = Lectura, paso { $step }, { $unit }
forms-moves-parked = aparcado
forms-moves-lanes = Pistas
forms-moves-web = banda { $edges }
forms-moves-edges = de { $left } a { $right }
forms-moves-done = Ajustes y posiciones según esta hoja
