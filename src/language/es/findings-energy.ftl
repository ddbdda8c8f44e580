## Rules of sources, 29 CFR 1910.147(d)(1) and (b).
magnitude-not-quantity = `{ $text }` no dice cuánta energía hay
    .way-out = escriba { $wanted }, varias con `, ` entre ellas (29 CFR 1910.147(d)(1))
magnitude-does-not-fit = `{ $text }` no es una magnitud de una fuente de tipo `{ $kind }`
    .way-out = escriba primero { $wanted } (29 CFR 1910.147(d)(1))
zero-does-not-fit = `{ $unit }` no mide el cero de una fuente de tipo `{ $kind }`
    .way-out = indique la unidad de { $wanted } (29 CFR 1910.147(d)(6))
control-device = `{ $device }` es un dispositivo de mando ({ $words }): para la máquina y no aísla nada (29 CFR 1910.147(b), 1910.333(b)(2)(ii))
    .way-out = nombre el dispositivo que retiene la energía: { $known }
zone-without-hazard = la zona `{ $zone }` no nombra ningún peligro
    .way-out = añada `hazards: [...]`: quien mete la mano tras un resguardo tiene que saber por qué está ahí (29 CFR 1910.147(d)(1), 1910.212(a)(1))
source-without-hazard = { $name } no nombra ningún peligro
    .way-out = añada `hazards: [...]`: quien bloquea una fuente tiene que saber lo que puede hacer (29 CFR 1910.147(d)(1))

## Rules of relieving and proving, 29 CFR 1910.147(d)(5)-(6).
zero-without-high = este cero no tiene valor máximo: la fuente viva pasaría
    .way-out = añada `high: 0`, o lo máximo que no daña a nadie (29 CFR 1910.147(d)(6))
zero-too-high = este cero no queda por debajo de { $most }: una fuente viva pasaría
    .way-out = escriba lo máximo que no daña a nadie (29 CFR 1910.147(d)(6); 1910.333(a)(1) para partes por debajo de 50 V, de memoria)
zero-not-shown = { $name } no muestra `{ $what }`
    .way-out = nombre el instrumento que prueba este cero (29 CFR 1910.147(d)(6))
instrument-below-source = el intervalo de { $name } termina por debajo de { $magnitude }, que aún puede estar presente
    .way-out = nombre un instrumento cuyo intervalo abarque la fuente viva (29 CFR 1910.334(c)(3), de memoria)
no-conductors = nada dice entre qué conductores se mide el cero de { $name }
    .way-out = añada `conductors: [L1, L2, L3]`, con N donde esté cableado: de ahí salen los pares (NFPA 70E 120.5, paso 7)
bad-conductor = `{ $conductor }` { $why }
    .way-out = nombre cada conductor vivo de una fuente eléctrica una vez, como lo hace su borne
wait-without-time = el texto dice que se espere { $said }, y no sigue ninguna casilla para el tiempo
    .way-out = añada `wait: { $said }` a la fuente (29 CFR 1910.147(d)(5)(i))
wait-differs = la espera es { $wait } aquí y { $said } en `relieve`
    .way-out = escriba el tiempo de la placa del fabricante, en un solo lugar
touch-missing = { $name } tiene { $magnitude }, y nada dice qué partes se tocan
    .way-out = añada `touch: [{"{"} part: ..., surface: bare-metal, lasts: 1 min {"}"}]` (EN 563, ISO 13732-1: desde 43 °C un contacto puede quemar)
touch-not-thermal = una fuente de tipo `{ $kind }` no tiene partes calientes
    .way-out = anote las partes en una fuente de tipo `thermal`
zero-above-touch = un contacto con { $part } ({ $surface }, { $lasts }) quema por encima de { $threshold }, y el cero permite más ({ $source })
    .way-out = baje `high` del cero a { $threshold } o menos, o nombre `gloves`
contact-too-short = no se conoce umbral de quemadura para un contacto de { $lasts }
    .way-out = escriba 0.5 s o más (ISO 13732-1)
no-cooling = nadie puede decir cuándo se ha enfriado esta parte: { $why }
    .way-out = mida de nuevo la constante de tiempo, u omita `cools` y `air`
stop-position-missing = { $name } puede moverse, y nada dice dónde debe quedar antes del aislamiento
    .way-out = añada `stop_position: ...` a la máquina: la parada misma no debe crear una trampa (práctica común)

## Rules of powered movement with a guard open: UK HSE, printing machinery, an analogy.
not-hold-to-run = el mando de avance a impulsos es `{ $held }`, no de acción mantenida
    .way-out = escriba `held: hold-to-run`, si el mando para el movimiento en cuanto se suelta (UK HSE, máquinas de imprimir)
    .why = Con un resguardo abierto, soltar debe bastar para parar el movimiento (UK HSE, máquinas de imprimir).
inching-too-far = el mando de avance a impulsos mueve { $most }, que es más de { $limit }
    .way-out = limítelo a 25 mm por pulsación o 1 m/min, como máximo 75 mm o 5 m/min (UK HSE, máquinas de imprimir)
    .why = Con un resguardo abierto, un movimiento debe ser demasiado corto y lento para arrastrar una mano (UK HSE, máquinas de imprimir).
inching-not-measured = `{ $most }` no es ni una longitud por pulsación ni una velocidad
    .way-out = escriba `most: 25 mm` o `most: 1 m/min`

## Rules of the lockout program, 29 CFR 1910.147(c)(4) and (c)(6).
inspection-missing = no hay anotada ninguna inspección periódica del bloqueo de esta máquina
    .way-out = inspecciónelo y añada `lockout_inspection: {"{"} date, inspector, people {"}"}` (29 CFR 1910.147(c)(6)(i)-(ii))
    .why = Una vez al año alguien debe mirar si se sigue bloqueando como está escrito (29 CFR 1910.147(c)(6)(i)).
inspection-over = el bloqueo de { $machine } se inspeccionó el { $date }, más de 12 meses antes de este trabajo
    .way-out = inspecciónelo de nuevo y escriba el nuevo día (29 CFR 1910.147(c)(6)(i))
    .why = Una vez al año alguien debe mirar si se sigue bloqueando como está escrito (29 CFR 1910.147(c)(6)(i)).
inspector-among-people = { $inspector } inspecciona y es una de las personas inspeccionadas
    .way-out = haga inspeccionar a una persona autorizada que no use este procedimiento (29 CFR 1910.147(c)(6)(i)(A))
nobody-enforces = nada dice quién hace cumplir los procedimientos de bloqueo
    .way-out = añada `enforced_by: ...` con los medios (29 CFR 1910.147(c)(4)(ii))
    .why = Un procedimiento debe decir con qué medios se hace cumplir (29 CFR 1910.147(c)(4)(ii)).
no-intended-use = el procedimiento de bloqueo `{ $procedure }` no dice para qué es
    .way-out = añada `use: ...` a sus datos (29 CFR 1910.147(c)(4)(ii)(A))
    .why = Quien bloquea debe saber para qué trabajo basta este procedimiento (29 CFR 1910.147(c)(4)(ii)(A)).

## Parts of the above.
magnitude-voltage = una tensión, `400 V`
magnitude-pressure = una presión, `6 bar`
magnitude-temperature = una temperatura, `180 °C`
magnitude-mass = una masa o una fuerza, `38 kg`
magnitude-force = una fuerza, una longitud o un par, `60 N`
magnitude-speed = una velocidad, una masa, un par o vueltas por minuto, `1500 1/min`
magnitude-other = un número con una unidad
control-is-interlock = el enclavamiento de una zona
conductor-alone = está solo, y la corriente tiene un camino de vuelta
conductor-not-electrical = no es una fuente eléctrica
conductor-without-name = no tiene nombre
conductor-twice = aparece dos veces
conductor-is-earth = es tierra, contra la que se mide de todos modos cada conductor
inching-of-a-press = { $most } por pulsación
inching-while-held = { $most } mientras se mantiene
finding-bare-metal = metal desnudo
finding-coated-metal = metal recubierto
finding-ceramic = cerámica, vidrio o piedra
finding-plastic = plástico
finding-wood = madera
