## Reglas del juego de piezas: herramientas, y si hay bastantes.
tool-twice = `{ $item }` está dos veces entre las herramientas
    .way-out = deje una sola entrada; `count` dice cuántas hay
too-few-at-once = faltan unidades de { $item }: hay { $count }; hacen falta { $wanted }, para { $jobs }: { $when }
    .way-out = haga que un trabajo empiece cuando el otro termine (`starts`), o escriba cuántas hay: `count` de la pieza, o de la herramienta en stock.yaml
kit-alone = un solo trabajo
kit-at-once = según sus tiempos previstos coinciden
kit-cannot-tell = nadie puede decir si es al mismo tiempo: un trabajo no dice cuándo empieza o cuánto dura
