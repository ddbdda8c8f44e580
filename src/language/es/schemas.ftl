## Esquemas de los archivos que se escriben: para qué sirve cada uno, y la página que los reúne.
schemas-plant = La planta: su nombre, el dominio de sus firmas, roles, quién puede bloquear y quién acepta una desviación, unidades, juicio de las lecturas, qué se hace con los hallazgos.
schemas-people = Personas, los roles que tienen y desde cuándo hasta cuándo, y las claves que ya no cuentan.
schemas-machine = Una máquina tal como está: guías, portaherramientas, tornillos, instrumentos, zonas protegidas, cada fuente de energía, el orden de los procedimientos.
schemas-recipe = Un formato de producto: entradas, tablas, la banda, fórmulas de los ajustes, tolerancias, disposiciones, contenido neto, las primeras piezas.
schemas-job = Una orden en una máquina: de qué receta a cuál, cuántas piezas, cuándo, y quién trabaja bajo su bloqueo.
schemas-stock = Películas con espesor y masa, y sus bobinas.
schemas-hazards = Mensajes de peligro propios de la planta, junto a los que trae el programa.
schemas-procedure = La cabecera de un procedimiento, entre las dos líneas de ---.
schemas-step = Los datos de un paso de un procedimiento, en su bloque marcado step.
schemas-translation = La cabecera de la traducción de un procedimiento.
schemas-texts = Los textos de un paso de una traducción, en su bloque marcado texts.
schemas-title = Claves de los archivos
schemas-lead = Cada esquema reúne las claves de una clase de archivo, dice para qué sirve cada clave y qué pasa cuando falta. Un editor que conoce JSON Schema completa las claves y marca lo que sería rechazado. Los esquemas están en inglés.
schemas-how = Copie los esquemas junto a los archivos. Después empiece un archivo YAML con esta línea, con el nombre de su esquema:
schemas-limits = Un esquema ve un solo archivo. Si un nombre existe, si una fórmula tiene respuesta o si un paso es seguro lo dice la comprobación.
schemas-schema = Esquema
schemas-file = Archivo
schemas-about = Para qué sirve
schemas-link = Claves de los archivos, para editores
schemas-count = { $count ->
        [one] 1 esquema
       *[other] { $count } esquemas
    }
schemas-written = { $count } en { $folder }
