## Rules of the walk over the steps, 29 CFR 1910.147(d)-(f).
rail-not-isolated = `{ $step }` maneja lo que está en `{ $rail }`, pero no pide el bloqueo de su zona
    .way-out = escriba `needs: isolated` y `zone: { $rail }`, sin `minor_servicing`: preparar la máquina es servicio (29 CFR 1910.147(b), (d)(6))
lockout-step-optional = `{ $step }` es parte del bloqueo y está bajo una condición
    .way-out = quite la condición: candados, pruebas y lo que se dice a las personas no dependen de ningún ajuste ni de ninguna parte de la máquina (29 CFR 1910.147(d), (e), (f))
minor-servicing-incomplete = el servicio menor sin bloqueo no dice `{ $missing }`
    .way-out = diga cada uno con palabras, todos tienen que cumplirse, o bloquee (29 CFR 1910.147(a)(2)(ii), nota; 1910.212)
people-not-clear = `{ $step }` viene sin un paso `clear-people` que siga valiendo
    .way-out = ponga antes ese paso (29 CFR 1910.147{ $paragraph })
stage-missing = `{ $step }` viene sin un paso `{ $missing }` que siga valiendo
    .way-out = ponga antes ese paso (29 CFR 1910.147{ $paragraph })
source-not-held = `{ $step }` viene antes de que la fuente `{ $source }` tenga su `{ $missing }`
    .way-out = ponga antes ese paso, para cada fuente (29 CFR 1910.147{ $paragraph })
not-isolated = `{ $step }` entra en { $zone }, pero la fuente `{ $source }` no ha tenido su `{ $missing }`
    .way-out = primero aísle, bloquee, libere y verifique todas las fuentes de la zona (29 CFR 1910.147{ $paragraph })
reaches-in = `{ $step }` entra en { $zone } sin aislamiento
    .way-out = escriba `needs: isolated`, o quite la zona si nadie entra (29 CFR 1910.147(d)(6), (e)(2)(i))
minor-servicing-unfit = `{ $step }` se declara servicio menor, pero no es un trabajo pequeño durante la producción
    .way-out = dele una `zone`, `needs: energised` y ningún `stage`, o quite `minor_servicing` y bloquee (29 CFR 1910.147(a)(2)(ii), nota)
zone-missing = `{ $step }` necesita aislamiento pero no dice dónde entra alguien
    .way-out = añada `zone: <zone or rail>` (29 CFR 1910.147(d)(3))
locks-on = `{ $step }` necesita energía mientras la fuente `{ $source }` está retenida
    .way-out = hágalo antes del bloqueo, después de la liberación, o en un bloque de prueba (29 CFR 1910.147(e), (f)(1))
locks-left = el paquete termina en `{ $step }` con la fuente `{ $source }` aún retenida
    .way-out = termine el cambio de formato con la liberación del bloqueo (29 CFR 1910.147(e))
stage-without-sources = `{ $step }` no actúa sobre ninguna fuente de energía
    .way-out = añada `repeat: energy`, para que estén en él todas las fuentes, o `repeat: inching` en un bloque de prueba (29 CFR 1910.147(d)(3)-(6), (e)(3))

## Rules of the test block, 29 CFR 1910.147(f)(1).
block-without-sources = `{ $step }` empieza un bloque de prueba, pero la máquina no nombra ninguna fuente para él
    .way-out = añada `inching: {"{"} sources: [..], .. {"}"}` a la máquina, o deje puestos los candados (29 CFR 1910.147(f)(1))
block-begins-unproved = `{ $step }` empieza un bloque de prueba, pero la fuente `{ $source }` no ha tenido su `{ $missing }`
    .way-out = ponga el bloque después de la prueba del cero de sus fuentes (29 CFR 1910.147(f)(1))
test-outside-block = `{ $step }` necesita energía para una prueba, pero no está en ningún bloque de prueba
    .way-out = escriba `block: test` en este paso y en los que antes quitan los candados y después los vuelven a poner (29 CFR 1910.147(f)(1)(i)-(v))
block-takes-other-lock = `{ $step }` quita el candado de `{ $source }`, que la máquina no nombra para un bloque de prueba
    .way-out = escriba `repeat: inching`; todos los demás candados quedan puestos (29 CFR 1910.147(f)(1)(iii))
reaches-in-block = `{ $step }` entra en { $zone } en un bloque de prueba cuyos candados se quitaron
    .way-out = ponga ese trabajo después del bloque, cuando sus fuentes estén verificadas de nuevo (29 CFR 1910.147(f)(1)(ii) y (v))
power-in-block = `{ $step }` está en un bloque de prueba y necesita energía normal
    .way-out = escriba `needs: test`, o póngalo después de la liberación (29 CFR 1910.147(f)(1)(iv))
block-without-unlock = en `{ $step }` termina un bloque de prueba en el que no se quitó ningún candado
    .way-out = añada al bloque un paso `stage: unlock` con `repeat: inching`, o quite `block` (29 CFR 1910.147(f)(1)(iii))
block-without-test = en `{ $step }` termina un bloque de prueba en el que no se probó nada
    .way-out = añada al bloque un paso `needs: test` y sin `stage`, o deje puestos los candados (29 CFR 1910.147(f)(1)(iv))
block-left-open = en `{ $step }` termina un bloque de prueba, pero la fuente `{ $source }` no ha tenido de nuevo su `{ $missing }`
    .way-out = termine el bloque con parada, aislamiento, candado, liberación de energía, intento de arranque y verificación de sus fuentes (29 CFR 1910.147(f)(1)(v))

## Parts of the above.
zone-named = la zona `{ $zone }`
zone-guarded = una zona protegida
