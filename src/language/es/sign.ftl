# Firmar en la tableta: lo que el programa dice con una palabra, y lo que la persona debe saber antes.
sign-no-key = En esta tableta ya no hay ninguna clave suya. No se ha firmado nada, y lo escrito se conserva.
sign-lost = ¿Tenía antes una clave aquí? Entonces se borraron los datos del navegador, y esa clave se ha perdido para siempre. Cree una nueva y pida al responsable de turno que cierre la línea de la anterior en la lista de firmantes. Lo que firmó la clave anterior sigue siendo válido.
sign-there-is-one = Otra ventana ya ha creado una clave para usted. Abra esta página de nuevo para usarla.
sign-signed-elsewhere = Otra ventana de esta página ha firmado entretanto. No se ha firmado nada dos veces ni se ha perdido nada: abra esta página de nuevo, mire lo que está firmado y firme el resto.
sign-no-person = Entretanto se eligió a otra persona. No se ha firmado nada. Elija su nombre y firme de nuevo.
sign-remove = Quitar mi clave de esta tableta
sign-remove-sure = ¿Quitar la clave? No se puede recuperar. Lo que firmó sigue siendo válido. Pida al responsable de turno que cierre su línea en la lista de firmantes.
