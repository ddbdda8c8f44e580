## Rules of the order of work around the lockout.
second-person-missing = un paso `{ $what }` lo hace una persona y no lo ve nadie más
    .way-out = escriba `sign: {"{"} performed: <role>, verified: <role> {"}"}`; verifica otra persona que la que lo hizo (práctica; 21 CFR 211.188(b)(11))
line-not-cleared = `{ $step }` trae material antes de que la línea esté despejada
    .way-out = ponga antes un paso `marks: [line-cleared]`, hecho y verificado (21 CFR 211.130(e); EU GMP capítulo 5)
allergen-not-cleaned = `{ $step }` trae material antes de que esté limpio el { $allergens } del producto anterior; el producto nuevo no lo tiene
    .way-out = ponga antes un paso `marks: [cleaned]` con una lectura o una comprobación, hecho y verificado (21 CFR 117.135(c))
label-not-checked = `{ $step }` pone la línea en marcha sin revisar la etiqueta; { $allergens } estaba en la anterior
    .way-out = ponga antes un paso `marks: [label-checked]`, hecho y verificado (21 CFR 117.135(c))
run-without-first-piece = `{ $step }` pone la línea en marcha antes de medir sus primeras piezas
    .way-out = ponga antes un paso `marks: [first-piece]` con lecturas, hecho y verificado (práctica)
    .why = Sin primeras piezas nadie sabe que los ajustes son correctos antes de hacer muchas.
run-not-last = `{ $step }` viene después de liberar la línea para producir
    .way-out = haga que el paso `marks: [run]` sea el último (práctica)
    .why = Lo que se hace después de la liberación ya no lo ve nadie.
order-unmarked = ningún paso dice que entra material o que la línea se pone en marcha; por eso no se pueden juzgar despeje, limpieza y primeras piezas
    .way-out = escriba `marks: [material-in]` y `marks: [run]` en los pasos que lo hacen (21 CFR 211.130(e))
