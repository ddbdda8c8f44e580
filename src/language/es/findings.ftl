# Palabras en torno a los hallazgos: gravedad, propuestas, notas de las reglas propias de la planta.
#
# Glosario: packet = paquete, recipe = receta, lane = carril, rail = riel, holder = soporte,
# strip = banda, web = banda de material, knife = cuchilla, bar = barra, roll = bobina, film = film,
# lockout = bloqueo y etiquetado, lock = candado, release = liberación, zero = cero (de energía),
# source = fuente de energía, zone = zona, hazard = peligro, step = paso, stage = etapa,
# reading = lectura, blank = casilla, limit = límite, setting = ajuste, input = entrada,
# datum = referencia central, instrument = instrumento, wrench = llave dinamométrica,
# changeover = cambio de formato, job = trabajo, crew = cuadrilla, shift = turno,
# procedure = procedimiento, record = registro, entry = asiento, signature = firma, digest = huella,
# finding = hallazgo.
words-foreign = { $text }
finding-error = error
finding-warning = advertencia
finding-help = ayuda
findings-more = hay más: corrija primero estos
finding-plant-folder = la carpeta de la planta
finding-raised = error en esta planta, por `raise` en plant.yaml
finding-justified = justificado por { $by }, { $date }: { $reason }
either-or = { $one } o { $other }

## Suggestions.
nearest-name = ¿quiso decir `{ $name }`?
nearest-none = no hay ninguno para elegir
nearest-all = aquí se conocen: { $names }
nearest-some = aquí se conocen: { $names } y { $more } más
nearest-no-unit = escriba una unidad como mm, N·m, °C, bar
nearest-fact = añada `{ $fact }` a `facts` del riel `{ $rail }` en el archivo de la máquina
nearest-no-step = el archivo no tiene pasos: omita `step`

## Formas de los valores, y cómo se escribe cada una.
shape-text = un texto
    .way-out = escriba aquí un solo texto, entre comillas si tiene dos puntos o parece un número
shape-list = una lista
    .way-out = póngalo entre corchetes, `[primero, segundo]`, o escriba uno por línea tras `- `
shape-mapping = claves con un valor cada una
    .way-out = escríbalas como `{"{"} clave: valor {"}"}`, o una por línea, con sangría bajo esta clave
shape-truth = sí o no
    .way-out = escriba true o false
shape-count = un número entero
    .way-out = escriba un número sin unidad, punto ni comillas: 4
shape-the-text = el texto `{ $value }`
shape-the-number = el número { $value }
shape-the-truth = `{ $value }`
shape-nothing = nada
shape-other = { $words }
    .way-out = escriba { $words }
