## Rules of the plant's own policy.
cannot-be-raised = `{ $rule }` no es una regla que advierte, por eso no se puede elevar
    .way-out = { $nearest }
cannot-be-justified = `{ $rule }` no se puede justificar: solo lo que es cuestión de criterio, y nunca que una persona esté dentro con una fuente viva
    .way-out = corrija lo que encuentra, y quite esta entrada; { $nearest }
may-not-justify = { $name } no tiene la función { $roles } el { $day }
    .way-out = haga que lo juzgue y responda por ello alguien con la función { $roles }
justification-later = el trabajo `{ $job }` está programado para el { $day }; `{ $rule }` solo está justificado desde un día posterior
    .way-out = corrija lo que encuentra, o programe el trabajo para un día posterior
justification-over = el trabajo `{ $job }` está programado para el { $day }; entonces `{ $rule }` ya no está justificado
    .way-out = corrija lo que encuentra, o júzguelo de nuevo y escriba una entrada nueva
justification-unused = aquí nada es un error de la regla `{ $rule }` en este lugar
    .way-out = quite esta entrada: ocultaría el siguiente
unknown-step = el archivo no tiene el paso `{ $step }`
    .way-out = { $nearest }
