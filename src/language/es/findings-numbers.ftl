## Rules of values: quantities, names, days.
bad-quantity = { $words }
    .way-out = escriba un número y una unidad: 56 mm, 2 1/4 in, 9.5 N·m, ±0.5 mm
wrong-dimension = magnitud encontrada: { $found }; magnitud necesaria: { $wanted }
    .way-out = revise la unidad, o la fórmula
not-a-count = aquí hace falta un número entero sin unidad
    .way-out = escriba una cantidad: 6
not-positive = { $what } debe ser mayor que cero
    .way-out = escriba un valor mayor que cero
bad-name = `{ $name }` no puede ser un nombre en fórmulas
    .way-out = use minúsculas, cifras y guiones bajos, empezando por una letra
name-twice = `{ $name }` es una entrada y un ajuste
    .way-out = dé otro nombre a uno de los dos
bad-day = `{ $text }` no es un día
    .way-out = escriba año, mes y día: 2026-11-26
bad-time = `{ $text }` no es una hora con su desfase
    .way-out = escríbala así: 2026-11-25T14:10:00+01:00
empty-text = `{ $key }` no dice nada
    .way-out = escriba lo que necesita saber una persona en la máquina
unknown-unit = `{ $unit }` no es una unidad conocida aquí
    .way-out = { $nearest }

## What must be above zero.
positive-this = este valor
positive-length = esta longitud
positive-count = esta cantidad
positive-magnitude = esta magnitud
positive-time = este tiempo
positive-movement = este movimiento
positive-torque = un par de apriete
positive-resolution = una resolución
positive-error-limit = un límite de error

## Rules of computing: formulas, instruments, layouts.
bad-formula = { $words }
    .way-out = { $remedy }
truth-is-no-setting = esta fórmula responde sí o no, y un ajuste es una cantidad
    .way-out = use if(question, this, that)
instrument-too-coarse = { $name } muestra pasos de { $step }: demasiado basto para esta tolerancia
    .way-out = nombre un instrumento más fino, o amplíe la tolerancia
instrument-does-not-fit = { $words }
    .way-out = nombre un instrumento que mida esto
no-limits = una lectura necesita límites, y esta no los tiene
    .way-out = indique una tolerancia, o mínimo y máximo
no-lanes = esta receta no distribuye carriles
    .way-out = escriba `each: piece`
not-symmetric = una posición necesita la misma longitud a ambos lados
    .way-out = escríbala como ±0.5 mm
knives-or-guides = una distribución tiene `knives` o `guides`, no ambos
    .way-out = deje uno de los dos
spacing-below-width = dos soportes de { $width } no pueden estar más cerca que su propio ancho
    .way-out = haga `spacing` al menos igual al ancho de un soporte
strip-is-not-pitch = una banda de { $strip } no corre en carriles separados { $pitch }: la desviación sería de { $off }
    .way-out = cambie la banda (ancho plano, aletas), o elija una máquina con este paso entre carriles
nothing-to-lay-out = carriles, banda y abertura deben ser mayores que cero, el recorte no menor
    .way-out = revise las entradas de la receta
too-many-lanes = no se distribuyen más de { $most } carriles
    .way-out = revise el número de carriles
past-rail-end = { $rail }: un soporte llegaría hasta { $needed }, el riel termina en { $end }
    .way-out = trabaje con menos carriles o más estrechos, o elija otra máquina
too-few-holders = { $rail }: hacen falta { $needed } soportes, hay { $fitted } montados
    .way-out = monte más soportes, o trabaje con menos carriles
holders-too-close = { $rail }: { $why }
    .way-out = { $remedy }
holders-inside = dos soportes ocuparían el mismo lugar
holders-apart = dos soportes quedarían a { $gap }, necesitan { $spacing }
holders-share-bars = reparta las cuchillas entre { $bars } barras: `bar: {"{"} number: 1, of: { $bars } {"}"}` en la primera
holders-run-others = trabaje con otros carriles, o retire del riel los soportes sobrantes: `spares: off` en el riel

## Parts of the above.
instrument-not-of-lengths = { $name } ({ $resolution }) no mide longitudes
instrument-not-settled = { $name } ({ $step }) no sirve: { $why }
instrument-no-wrench = { $name } ({ $resolution }) no es una llave dinamométrica
table-row-of-two = una fila tiene dos valores; esta tiene { $count }
instrument-unnamed = el instrumento
unit-none = un número sin unidad
obstacle-unnamed = un obstáculo
