# Por qué el programa no pudo trabajar: qué pasó y la salida. Glosario: findings.ftl.

## Archivos: qué se intentó, y qué dice el sistema.
failure-read = no se pudo leer { $path }: { $cause }
failure-list = no se pudo listar { $path }: { $cause }
failure-look-at = no se pudo examinar { $path }: { $cause }
failure-find = no se pudo encontrar { $path }: { $cause }
failure-write = no se pudo escribir { $path }: { $cause }
failure-make-the-folder = no se pudo crear la carpeta { $path }: { $cause }
failure-make-a-folder-in = no se pudo crear una carpeta en { $path }: { $cause }
failure-put-the-site-at = no se pudo poner el sitio en { $path }: { $cause }
failure-set-aside = no se pudo apartar { $path }: { $cause }
failure-cannot-create = no es posible crear { $path }: { $cause }
failure-cannot-replace = no es posible reemplazar { $path }: { $cause }
failure-cannot-sync = no es posible asegurar en el disco { $path }: { $cause }
failure-cannot-write = no es posible escribir { $path }: { $cause }
failure-cannot-read = no es posible leer { $path }: { $cause }
failure-cannot-lock = no es posible reservar { $path }: { $cause }
failure-cannot-add = no es posible añadir { $path }: { $cause }
failure-cannot-set-aside = no es posible apartar { $path }: { $cause }
failure-bytes = más de { $most } bytes
failure-files = más de { $most } archivos
failure-not-plain = no es un archivo normal
failure-not-next = no es el asiento siguiente
failure-json = no se pudo escribir JSON: { $cause }

## Lugares que no se pueden usar.
failure-no-plant = { $path } no es una planta: no tiene el archivo plant.yaml. `witnessmark start DIR` crea una pequeña
failure-part-of-plant = { $path } es parte de la planta, o la planta parte suya: indique otro lugar
failure-foreign-folder = { $path } contiene archivos que no son un sitio nuestro (no tiene { $mark }): indique una carpeta vacía o nueva
failure-no-plain-file = { $path } no es un archivo normal: indique un archivo que se pueda escribir o reemplazar
failure-not-empty = { $path } no está vacía: indique una carpeta nueva o vacía
failure-link = { $path } es un enlace y no se sigue: ponga allí la carpeta misma

## Nombres que nada lleva.
failure-no-job = no hay ningún trabajo `{ $job }`; la planta tiene: { $jobs }
failure-no-record = no hay registro de un trabajo `{ $job }`
