# Qué se hace antes, durante y después de la parada, y qué cuesta la parada.
stop-heading = Antes, durante y después de la parada
stop-advice = Un plan, no una orden: el paquete dice qué se hace y qué se firma. Las normas locales, el manual del fabricante y la persona responsable van primero.
stop-stands = La línea está parada { $minutes } min como mínimo, trabajen las personas que trabajen.
stop-none = Nada de este paquete necesita la línea parada.
stop-saved = Son { $minutes } min menos que con cada paso donde el paquete lo tiene.
stop-before = Antes de la parada
stop-during = Durante la parada
stop-after = Después de la parada
stop-planned = { $minutes } min previstos, { $longest } min como mínimo
stop-step = Paso
stop-minutes = Previsto
stop-cost = Cuesta de parada
stop-cost-note = En tanto se acortaría la parada si el paso no llevara tiempo. Un paso al lado de otro más largo no cuesta nada.
stop-min = { $count } min
stop-moved = fuera de la parada por este plan
stop-not-planned = sin prever
stop-could = Qué podría salir de la parada
stop-could-none = Ningún paso de la parada podría salir con una palabra de su autor.
stop-could-running = ¿Puede hacerse con la línea en marcha, lejos de todo lo que se mueve? Entonces su autor añade «line: running».
stop-could-after = Puede hacerse con la línea en marcha, y espera al paso { $number } del procedimiento «{ $procedure }». ¿Lo necesita? Si no, «after» del procedimiento «{ $own }» nombra solo lo que necesita.
stop-could-place = Puede hacerse con la línea en marcha, y está detrás del paso { $number } en su propio procedimiento. ¿Lo necesita? Si no, va delante, o en un procedimiento propio.
stop-unplanned = Faltan minutos previstos, y se contaron como ninguno:

## On the sheet of a step.
stop-people = { $count } personas a la vez
stop-line-may-run = la línea puede estar en marcha
