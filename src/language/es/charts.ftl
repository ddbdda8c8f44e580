# Gráficos de lecturas y las páginas del historial.
charts-title = { $name }: lecturas en su orden
charts-readings = lectura
charts-ranges = rango móvil
charts-upper = LCS
charts-centre = LC
charts-lower = LCI
charts-has-points = { $count ->
    [one] 1 punto.
   *[other] { $count } puntos.
}
charts-has-lines = Línea central { $centre }, límites { $lower } y { $upper }.
charts-has-range-lines = Media de los rangos móviles { $centre }, límite { $upper }.
charts-has-no-lines = Muy pocas lecturas para límites.
charts-none-fired = Ninguna regla saltó.
charts-fired-at = Saltaron reglas en los puntos { $points }.
charts-fired-at-more = Saltaron reglas en los puntos { $points } y { $count } más.
charts-history = Historial
charts-history-link = Historial: lo que dicen los registros de los cambios de formato pasados
charts-history-of = Historial de { $machine }
charts-page-of = { $machine }, { $procedure }: gráficos
charts-page-of-more = { $machine }, { $procedure }: gráficos, página { $page }
charts-whole = Todo el historial de esta máquina
charts-lead = Lo que dicen los registros firmados de los cambios de formato pasados: cuánto duraron, qué lecturas muestran más que azar, qué ajustes nunca quedan como se calcularon.
charts-says-not = Un gráfico muestra lo que se firmó, no lo que era cierto. Una lectura dentro de todos los límites no hace segura ninguna máquina: las normas locales, el manual del fabricante y la práctica autorizada van primero.
charts-nothing = Ningún registro dice nada todavía.
charts-changeovers = Cambios de formato
charts-readings-all = Lecturas
charts-corrections = Lecturas corregidas
charts-deviations-all = Desviaciones
charts-series-all = Series
charts-minutes = Minutos: central (menor a mayor)
charts-middle = { $middle } ({ $least } a { $most })
charts-average = En promedio / planificados
charts-first-pass = A la primera
charts-share = { $good } de { $all }
charts-fired-on = Series con señales
charts-proposals = Propuestas
charts-no-proposals = Ninguna: ningún ajuste termina una y otra vez al lado de su valor deseado.
charts-more-proposals = { $count ->
    [one] y 1 más en la página de su máquina
   *[other] y { $count } más en las páginas de sus máquinas
}
charts-only-a-person = Solo una persona cambia una receta, con una revisión nueva, con un motivo y después de buscar la causa. Este programa no cambia nada.
charts-edit = Lo que una persona escribiría en la revisión nueva:
charts-evidence = Las últimas lecturas:
charts-evidence-of = { $record }, { $reading }
charts-proposal = { $name }, receta { $recipe }, revisión { $revision }: se ajusta a { $target }, termina en { $ends }. Corrección propuesta: { $offset }.
charts-proposal-count = { $count } cambios de formato seguidos terminaron de este lado del valor deseado.
charts-proposal-mean = Desviación media { $mean }, intervalo del 95 % de { $least } a { $most }; el instrumento muestra { $resolution }.
charts-proposal-formula = Fórmula actual: { $formula }
charts-fired-title = Lecturas que muestran más que azar
charts-more-series = { $count ->
    [one] y 1 más
   *[other] y { $count } más
}
charts-left-out = No contados
charts-left-out-why = Solo cuenta lo que la auditoría encontró íntegro. Estos registros, o entradas de ellos, no cuentan:
charts-left-out-all = todo: { $why }
charts-left-out-entries = { $count ->
    [one] 1 entrada: { $why }
   *[other] { $count } entradas: { $why }
}
charts-series = Lectura
charts-count = Valores
charts-fired = Señales
charts-fired-times = { $rule }: { $times }
charts-all-series = Lecturas, primero las que tienen señales
charts-no-chart-yet = Una lectura sin enlace tiene muy pocos valores para límites, y todavía no tiene gráfico.
charts-charts = Gráficos
charts-how-to-read = Cada punto es la última lectura de un cambio de formato, en el orden en que se firmaron. LCS y LCI son los límites que guarda el azar, según el rango móvil medio; no son los límites del paquete. Un rombo es un punto en el que saltó una regla; la regla está sobre el primero de varios seguidos:
charts-chart-of = Gráfico de { $name }
charts-points-of = Puntos de { $name }
charts-capability-of = Capacidad de { $name }
charts-capability = Capacidad
charts-sigma = Sigma
charts-within = interna, según el rango móvil medio
charts-overall = total, desviación estándar
charts-capability-of-count = De las últimas { $count } lecturas, todas desde la última señal; límites del paquete como desviación del valor deseado, los más estrechos: { $limits }.
charts-capability-of-readings = De las últimas { $count } lecturas, todas desde la última señal; límites del paquete, los más estrechos: { $limits }.
charts-points = { $count ->
    [one] 1 punto como tabla
   *[other] { $count } puntos como tabla
}
charts-earlier = { $count ->
    [one] 1 anterior se cuenta y no se muestra
   *[other] { $count } anteriores se cuentan y no se muestran
}
charts-reading = Lectura
charts-target = Deseado
charts-drawn = Dibujado
charts-range = Rango móvil
charts-rules = Reglas
charts-first-then = { $reading } (primero { $first })
charts-of-deviation = se dibuja: lectura menos valor deseado
charts-of-reading = se dibuja: la lectura misma
charts-mean = Media
charts-standard-deviation = Desviación estándar
charts-autocorrelation = Autocorrelación de retardo 1
charts-lines = LCS, LC, LCI
charts-lines-range = Rango móvil: LCS, LC
charts-base = Límites según
charts-base-of = { $count ->
    [one] la primera lectura
   *[other] las primeras { $count } lecturas
}
charts-base-provisional = { $count ->
    [one] la primera lectura; se mueven hasta que haya { $needed }
   *[other] las primeras { $count } lecturas; se mueven hasta que haya { $needed }
}
charts-instrument = Instrumento
charts-took-of = Minutos / planificados
charts-stop-of = Parada / planificada
charts-corrected = Corregidas
charts-deviations = Desviaciones por paso
charts-step-times = { $step }: { $times }
charts-took-note = Los minutos van de la primera firma de un paso hecho hasta la entrega. Los minutos planificados son los de todos los pasos, uno tras otro.
charts-more-changeovers = { $count ->
    [one] y 1 anterior
   *[other] y { $count } anteriores
}
charts-rule-range = Rango móvil por encima de su límite superior
charts-rule = { $rule }: { $meaning }; solo por azar, cerca de { $chance } de los puntos
