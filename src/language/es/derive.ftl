# `derive`: cómo se calculó cada número de un trabajo. Glosario: findings.ftl.
derive-head = { $job } en { $machine }: { $from } -> { $to }
derive-other-signed = nota: se firmó otro paquete de este trabajo; estos son los números de los archivos de hoy
derive-unknown = nada se llama `{ $name }` en este trabajo; tiene: { $known }
derive-dropped = { $name } ({ $id }): ya no se ajusta, antes { $was }

## Encabezados de línea: cortos.
derive-formula = fórmula
derive-numbers = valores
derive-step = paso
derive-result = resultado
derive-set-to = ajustar a
derive-limits = límites
derive-with = con
derive-where = lugar
derive-note = nota
derive-source = fuente
derive-thread = rosca
derive-key = llave
derive-torque = par
derive-proof = prueba
derive-caution = atención
derive-datum = ref.
derive-web = banda
derive-bar = barra
derive-scale = escala
derive-tip = punta
derive-fixed = fijo
derive-holder = soporte
derive-old = antes
derive-position = ahora
derive-move = mover { $number }

## Lo que sigue a un encabezado.
derive-new = nuevo
derive-was = antes { $was }
derive-maker-first = el par de apriete del fabricante de la máquina prevalece sobre cualquier par calculado
derive-steps-of = divisiones de { $fact }
derive-off-by = puede desviarse { $fact }
derive-rail = { $name } ({ $id }), posiciones ({ $unit }) desde la referencia
derive-lanes = { $count ->
    [one] 1 carril
   *[other] { $count } carriles
}
derive-tip-left = { $distance } a la izquierda del centro de su soporte; cuenta la punta
derive-tip-right = { $distance } a la derecha del centro de su soporte; cuenta la punta
derive-stepping = desde la referencia se desvía { $each } como máximo; medida de marca en marca ({ $count ->
    [one] 1 tramo
   *[other] { $count } tramos
}), { $worst } en el peor caso, { $rss } como raíz de la suma de los cuadrados
derive-on-scale = escala { $scale }
derive-not-on-it = no montado
derive-not-known = no se sabe
derive-no-move = ningún soporte se mueve
derive-of-holder = soporte { $number }:
derive-way-set = coloque en { $to }
derive-way-off = quite del riel el soporte en { $from }
derive-way-fit = móntelo en { $to }
derive-way-left = { $distance } a la izquierda, hasta { $to }
derive-way-right = { $distance } a la derecha, hasta { $to }
