# `preview`: una planta mostrada mientras se escribe.

preview-shown = El sitio de { $plant } está en { $address } y sigue a sus archivos. Ctrl-C lo termina.
preview-open = Cualquiera que llegue a { $address } por la red puede leer esta planta. Ábrala solo donde se quiera.
preview-no-address = no fue posible escuchar en { $address }: { $cause }. Indique otro puerto con --port, o ninguno para uno libre
preview-ended = el servidor de la vista previa ha terminado. Inícielo de nuevo
preview-label = Hallazgos de la planta
preview-old = Las páginas son las del último estado sin errores.
preview-all = Todos los hallazgos
preview-title = Hallazgos en los archivos de la planta
preview-none = No se encontró nada.
preview-no-pages = No hay páginas hasta que se corrijan los errores.
