# Preguntas que salen de contar muchos registros. No culpan a nadie y no deciden nada.
questions-title = Preguntas
questions-lead = Recuentos de lo que se firmó, planteados como preguntas a quien escribe los procedimientos y al auditor. No son veredictos: cada recuento tiene varias explicaciones, y la mayoría no culpa a nadie. Nada en el programa actúa según ellos.
questions-none = Ningún recuento es tan alto como para preguntar.
questions-more = { $count ->
    [one] y 1 más; «history --json» las enumera todas.
   *[other] y { $count } más; «history --json» las enumera todas.
}
questions-place = { $title } ({ $procedure }, revisión { $revision })
questions-line = pregunta: { $place }: { $words }
questions-count = { $count ->
    [one] 1 pregunta
   *[other] { $count } preguntas
}
questions-deviated = con desviación en { $count } de { $runs } ejecuciones. ¿Dice el paso lo que se puede hacer?
questions-deviated-means = Puede que pida lo que la máquina o el material no dan; o que sea correcto y algo en la máquina esté gastado; o que haya una manera mejor que nadie ha escrito; o que los límites sean más estrechos de lo que el producto necesita.
questions-never = { $reading }: dentro de sus límites en las { $runs } ejecuciones. ¿Qué la haría fallar?
questions-never-means = Puede que el proceso sea mucho mejor que sus límites; o que los límites sean más anchos de lo que el producto admite; o que el instrumento no pueda mostrar el fallo; o que el valor se anote sin medirlo.
questions-protects-means = Esta lectura protege a las personas: se queda, diga lo que diga el recuento. Puede que nunca haya habido nada mal; o que el instrumento no lo mostraría; o que el valor se anote sin medirlo. Compruebe el instrumento y observe una ejecución.
questions-together = firmado en { $count } de { $runs } ejecuciones por una persona que firmó otros { $others } pasos o más en el mismo minuto. ¿Cuándo se hace de verdad?
questions-together-means = Puede que los pasos se firmen al final, de memoria; o que el lugar para firmar quede demasiado lejos del trabajo; o que un solo trabajo esté cortado en muchos pasos; o que trabajen varias personas y una firme por ellas.
