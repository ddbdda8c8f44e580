# Etiquetas de un trabajo. Párrafos: 29 CFR 1910.147.
tags-title = Etiquetas del trabajo { $id }
tags-one-each = Una tarjeta por cada dispositivo de aislamiento. Cada persona que trabaja detrás de los resguardos coloca un candado y una tarjeta propios. Imprima estas hojas, corte por las líneas y perfore el agujero en la marca.
tags-warns-only = Una tarjeta avisa y no sujeta: sujeta el candado. Donde un dispositivo admite candado, se coloca el candado (29 CFR 1910.147(c)(2)-(3)). Proteja el papel para que la leyenda siga siendo legible donde cuelga. Átela a mano con una atadura que se cierre sola, que no se use dos veces y que necesite al menos 50 lb (222 N) para soltarse, como una brida de nailon de una pieza (29 CFR 1910.147(c)(5)(ii)). Solo la persona que colocó un candado y una tarjeta los retira.
tags-first = Las normas locales, el manual del fabricante de la máquina y las personas autorizadas van primero. Si la planta tiene tarjetas propias, use esas.
tags-name = Etiqueta { $number }: { $device }
tags-legend = NO OPERAR
tags-danger = <strong>PELIGRO.</strong> Mover este dispositivo puede matar a una persona.
tags-keep = Manténgalo: <strong>{ $safe }</strong>
tags-lock = Candado: { $lock }.
tags-why = Trabajo <strong>{ $id }</strong>: cambio de formato de { $from } a { $to }.
tags-person = Nombre
tags-phone = Teléfono
tags-since = Puesta desde: fecha, hora
tags-end = Fin previsto: fecha, hora
tags-holder = Esta tarjeta avisa. No sujeta el dispositivo: lo sujeta el candado. Si el dispositivo admite candado, se coloca el candado. Solo la persona nombrada retira ambos.
tags-number = Etiqueta { $number } de { $total }, paquete { $digest }
tags-none = El paquete no enumera ninguna fuente de energía, por lo que no hay ningún dispositivo que lleve tarjeta.
