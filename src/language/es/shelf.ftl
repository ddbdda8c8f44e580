# Lo que se prepara, por el lugar donde está: la lista de un trabajo y la de un turno.
shelf-title = Qué preparar
shelf-use = Prepare todo antes de que la línea se pare, lugar por lugar. Marque cada cosa cuando esté en el carro. Mire la fecha de cada instrumento: no mida con uno cuya calibración haya vencido. Deje el material nuevo fuera de la zona marcada de la línea hasta el paso que lo trae.
shelf-here = En la máquina: nada que traer
shelf-unknown = Nadie dice dónde está
shelf-other = Otras cosas
shelf-none = Los paquetes de este turno no piden preparar nada.
shelf-box = En el carro
shelf-what = Qué
shelf-jobs = Para qué trabajo, cuándo hace falta
shelf-is-here = ya está en la máquina
shelf-for-stop = para la parada
shelf-before-stop = antes de la parada, paso { $step }
shelf-for-step = paso { $step }
shelf-counted = { $count } × { $item }
shelf-too-few = Faltan unidades de { $item }: hay { $count }. Hacen falta { $wanted }, para { $jobs }: { $when }.
