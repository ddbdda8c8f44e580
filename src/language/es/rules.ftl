# El catálogo de las reglas: qué está en lugar de una parte que cambia cada vez, y por qué son reglas.
rules-nearest = el nombre conocido más parecido, o lo que se conoce allí
rules-words = lo que está mal allí, en palabras
rules-remedy = cómo corregirlo

## Por qué son reglas las reglas de un tema.
rules-why-energy = Quien bloquea una fuente debe saber su clase, su magnitud y cómo se comprueba su cero (29 CFR 1910.147(d)(1), (d)(5)-(6)).
rules-why-hazards = Una advertencia protege solo si dice qué hace daño, cuánto, y cómo evitarlo (ANSI Z535.4).
rules-why-keys = Una firma vale lo que vale la lista de claves que la respalda.
rules-why-kit = Lo que dos cuadrillas van a buscar a la vez hace esperar a una de ellas, con la máquina parada y abierta.
rules-why-lockout = Solo bloquean personas formadas y autorizadas, y cada una con un candado propio (29 CFR 1910.147(d)(4), (f)(3)).
rules-why-names = Un nombre que no señala nada dejaría fuera lo que alguien quiso decir, y en la máquina nadie lo notaría.
rules-why-numbers = Un ajuste que no se puede leer, alcanzar o medir se hace a ojo.
rules-why-order = Lo que estaba antes en la línea no debe llegar al producto siguiente (21 CFR 211.130; 21 CFR 117.135(c)).
rules-why-people = Un plan que cuenta con alguien que no está termina en un atajo.
rules-why-policy = Quien rebaja una regla responde de ello con su nombre, por un tiempo, y solo donde es cuestión de criterio.
rules-why-procedures = Cada paso se encuentra por su título, se firma por su lugar y se rellena por su bloque.
rules-why-reading = Lo que no se puede leer no se adivina: una clave que se pasa por alto en silencio es un ajuste que nadie hace.
rules-why-redline = Quien lee una hoja vieja debe poder saber que el texto cambió, cuándo y por qué.
rules-why-register = Lo aprobado y lo inspeccionado debe poder mostrarse años después sin creer a nadie.
rules-why-reuse = Un texto vale para muchas máquinas solo si se dice cada parte que cambia y se ve todo lo que se dejó fuera.
rules-why-safety = Una fuente que nadie bloquea, descarga o comprueba puede moverse mientras alguien mete la mano (29 CFR 1910.147(d)).
rules-why-stop = Cuanto más tiempo está parada una línea, más se omite con prisa; y cuanto más rápido se prepara, más seguro debe estar quién está dónde.
rules-why-trade = Un paquete no debe pedir lo que la máquina, el tornillo, la película o el instrumento no pueden dar.
rules-why-translation = A quien lee en otro idioma se le debe decir lo mismo, ni más ni menos.
rules-why-walk = Nadie puede estar dentro antes de que cada fuente esté bloqueada y comprobada, y no puede llegar energía antes de que todos estén fuera (29 CFR 1910.147(d)-(f)).
rules-why-writing = Un paso se lee una vez, con prisa, a menudo no en el primer idioma de quien lee.
