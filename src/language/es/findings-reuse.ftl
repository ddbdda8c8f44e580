# Reglas de un texto para muchas máquinas.
unknown-parameter = el procedimiento `{ $id }` no tiene el parámetro `{ $name }`
    .way-out = { $nearest }
missing-parameter = al procedimiento `{ $id }` no se le dice su `{ $name }`: { $what }
    .way-out = escriba {"{"} procedure: { $id }, with: {"{"} { $name }: ... {"}"} {"}"}, o dé al parámetro un `default`
bad-parameter = `{ $name }` del procedimiento `{ $id }` es { $what }, y `{ $value }` no lo es
    .way-out = { $nearest }
include-not-alone = una inclusión está sola bajo su título, y `{ $title }` contiene más
    .way-out = ponga texto, pasos y otras inclusiones bajo títulos propios
include-circle = estos procedimientos se incluyen en círculo: { $circle }
    .way-out = quite una de las inclusiones
include-too-deep = `{ $id }` está dentro de otros { $most } procedimientos
    .way-out = inclúyalo donde haga falta; un lector sigue { $most } como máximo
too-many-procedures = este cambio de formato usa más de { $most } procedimientos, contados los incluidos
    .way-out = busque un procedimiento que incluya otro una y otra vez
unknown-feature = ninguna máquina de esta planta tiene `{ $name }`, así que esto nunca se haría
    .way-out = { $nearest }
unknown-kind = ninguna máquina de esta planta es del tipo `{ $kind }`
    .way-out = { $nearest }
order-missing = esta máquina no tiene `changeover`, y la planta no tiene un orden para su tipo
    .way-out = enumere sus procedimientos en `changeover`, o escriba `changeovers: {"{"} "{ $kind }": [...] {"}"}` en plant.yaml

## Partes de lo anterior.
parameter-rail = un riel de la máquina
parameter-zone = una zona de la máquina
parameter-setting = un ajuste de la receta deseada
parameter-instrument = un instrumento de la máquina
parameter-quantity = una cantidad en { $unit }
parameter-text = un texto
parameter-none = no tiene ninguno: quite `with`
parameter-write = escriba { $what }
