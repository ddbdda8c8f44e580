# Findings of comparing two states of a plant: revisions.
revision-unchanged = { $text } ha cambiado y sigue en la revisión { $revision }
    .way-out = escriba el número siguiente en `revision`, con su fecha, autor y motivo: quien tenga una hoja de la revisión { $revision } debe poder distinguir las dos
revision-goes-back = { $text } retrocede de la revisión { $before } a la { $now }
    .way-out = escriba un número posterior a { $before }; para volver a un texto anterior, publíquelo otra vez con una revisión nueva
revision-date-goes-back = { $text } lleva la fecha { $now }, anterior a la { $before } de la revisión a la que sigue
    .way-out = escriba en `date` el día de esta revisión
reason-unchanged = { $text } tiene una revisión nueva con el motivo de la revisión { $before }
    .way-out = diga en `reason` qué ha cambiado esta vez y por qué
