# Recetas a partir de una tabla: qué se dice de la tabla, de la asignación y de las recetas.
import-ending = el nombre de una tabla termina en .csv, .xlsx o .ods; guarde los libros más antiguos como .xlsx
import-too-large = la tabla es demasiado grande: se leen como máximo { $rows } filas y { $columns } columnas, 16 MB de archivo y 64 MB descomprimidos; divídala o quite lo que no sea un ajuste
import-long-cell = la celda { $cell } tiene más de { $most } caracteres; acórtela o quítela
import-not-utf8 = el archivo no es UTF-8; guárdelo como «CSV UTF-8»
import-unreadable = no se puede leer la tabla: { $why }; ábrala en su hoja de cálculo y guárdela de nuevo
import-no-sheet = no existe esa hoja; hay: { $sheets }
import-which-sheet = el libro tiene varias hojas ({ $sheets }); indique una con --sheet o como `sheet` en la asignación
import-near = ; parecido: `{ $near }`
import-separator = `separator` es { $text }, que no es un solo carácter simple
    .way-out = escriba un carácter, por ejemplo separator: ";"
import-no-pattern = no hay ninguna receta `{ $pattern }`{ $near }
    .way-out = indique como `pattern` una receta de la planta: de ella se toman fórmulas, disposiciones y piezas
import-heading-twice = `{ $heading }` encabeza dos columnas en la fila { $row }
    .way-out = dé a una de las dos otro encabezado en la tabla
import-no-heading = ninguna columna se llama `{ $heading }` en la fila { $row }{ $near }
    .way-out = escriba el encabezado como está en la tabla, y el número de su fila como `head`
import-not-mapped = la asignación no dice qué es la columna `{ $heading }`
    .way-out = asígnela, o déjela fuera a sabiendas: { "{" } is: left-out { "}" }
import-no-column = ninguna columna es { $is } de una receta
    .way-out = asigne una: { "{" } is: { $is } { "}" }
import-target-twice = dos columnas son `{ $what }`
    .way-out = deje fuera una de ellas: { "{" } is: left-out { "}" }
import-skip-column = `skip` nombra la columna `{ $heading }`, que no está en la asignación{ $near }
    .way-out = asigne esa columna, aunque sea como { "{" } is: left-out { "}" }
import-of-missing = la columna es { $is }, pero la asignación no dice de qué
    .way-out = añada `of` con el nombre que tiene en el modelo
import-of-idle = una columna que es { $is } no lleva `of`
    .way-out = quite `of`
import-not-in-pattern = la receta `{ $pattern }` no tiene `{ $of }`{ $near }
    .way-out = escriba un nombre que el modelo tenga, o póngalo primero en el modelo
import-is-computed = `{ $of }` se calcula con una fórmula en `{ $pattern }`; un valor ocuparía su lugar
    .way-out = asigne los datos de entrada de la fórmula, o tome un modelo en el que sea un valor simple
import-no-tolerance = `{ $of }` no tiene tolerancia en `{ $pattern }`
    .way-out = désela en el modelo
import-unit-of-column = `{ $unit }` no es una unidad{ $near }
    .way-out = escriba la unidad como en las recetas, o none para una cantidad
import-heading-unit = el encabezado dice { $said }, la asignación dice { $unit }
    .way-out = averigüe en cuál de las dos están los números y escríbala en ambos sitios
import-nobody-says = nada dice { $key } de las recetas
    .way-out = asigne una columna, escríbalo en la asignación o délo como opción
import-not-a-day = `{ $text }` no es un día en la forma { $form }
    .way-out = indique la forma de las fechas de la tabla como `dates`, o corrija la celda
import-formulas = { $count ->
    [one] 1 celda de esta columna es una fórmula: se toma el último valor guardado
   *[other] { $count } celdas de esta columna son fórmulas: se toman los últimos valores guardados
}
    .way-out = abra la tabla, deje que calcule todo, guárdela y mire los valores de abajo
import-id-twice = `{ $id }` ya está en la fila { $row }
    .way-out = conserve una de las dos filas, o dé a una otro identificador
import-bad-id = `{ $id }` no puede ser un identificador: letras, cifras y guiones, 64 como máximo
    .way-out = escríbalo de otro modo en la tabla, o diga en `named` qué significa, por ejemplo { $like }
import-is-there = ya hay una receta `{ $id }`, y dice otra cosa
    .way-out = omita la fila, dé otro identificador o nómbrela: --replace { $id }
import-same-revision = la receta `{ $id }` que hay también es la revisión { $revision }
    .way-out = dé otra revisión a la nueva
import-not-replaced = se iba a sustituir `{ $id }`, y ninguna fila la da
    .way-out = revise cómo está escrito, o quite la opción
import-control = la celda contiene un salto de línea o un carácter que no se puede mostrar
    .way-out = escríbalo en una línea
import-not-named = la asignación no dice qué significa `{ $text }`
    .way-out = añádalo en `named`, con lo que significa
import-not-understood = no se entiende `{ $text }`
    .way-out = escriba un número con su unidad, o como dice la columna
import-no-unit = el número no tiene unidad
    .way-out = diga la unidad de la columna en la asignación: unit: mm, o none para una cantidad
import-unknown-unit = `{ $unit }` no es una unidad
    .way-out = escriba la unidad como en las recetas
import-other-unit = la celda dice { $own }, la columna está en { $unit }
    .way-out = averigüe cuál es la correcta y escriba el número en { $unit }
import-too-exact = `{ $text }` tiene { $decimals } decimales, se permiten { $most }
    .way-out = corrija la celda, permita más `decimals` o deje redondear la columna: round: true
import-rounded = se leyó { $text }, se toma { $taken }
    .way-out = nada, si la columna se puede redondear
import-no-number = `{ $text }` no es un número con el signo decimal { $sign }
    .way-out = diga los signos de la tabla en la asignación (decimal, thousands), o corrija la celda
import-merged = la celda está combinada con otra y no contiene nada
    .way-out = separe las celdas combinadas y escriba el valor en cada fila
import-is-a-day = la celda es una fecha, { $day }: las hojas de cálculo hacen fechas de números como 3.4
    .way-out = ponga la celda como número y escriba el valor de nuevo
import-is-a-time = la celda es una hora
    .way-out = ponga la celda como número o texto y escriba el valor de nuevo
import-is-a-truth = la celda dice verdadero o falso
    .way-out = escriba lo que significa
import-is-an-error = la celda dice { $error }
    .way-out = corrija su fórmula, o escriba el valor
import-empty = la celda está vacía
    .way-out = rellénela, o salte la fila en la asignación
import-cannot-edit = el texto del modelo no admite estos valores: leída de nuevo, la receta dice otra cosa
    .way-out = escriba el modelo con sencillez: un valor por campo, sin anclas ni textos de varias líneas
import-place-cell = { $file }, { $sheet }celda { $cell }, columna `{ $heading }`
import-place-row = { $file }, { $sheet }fila { $row }
import-sheet = hoja { $sheet },
import-recipe = receta { $id }
import-head = { $file }: { $rows ->
    [one] 1 fila leída
   *[other] { $rows } filas leídas
}, { $skipped } omitidas
import-kept = Tomado del modelo en cada receta:
import-new = nueva, de la fila { $row }
import-replaces = sustituye a la que hay, de la fila { $row }
import-same = ya está con el mismo texto, fila { $row }
import-more = { $count ->
    [one] 1 fallo más como estos
   *[other] { $count } fallos más como estos
}
import-written = { $count ->
    [one] 1 receta escrita
   *[other] { $count } recetas escritas
}
import-not-written = No se escribió nada. Con --write: { $count ->
    [one] 1 receta
   *[other] { $count } recetas
}.
import-refused = No se escribió nada.
