# Registros que salen de la planta, y carpetas que vuelven.

export-taken = { $path } ya existe y no se reemplaza: indique otro lugar
export-folder = { $folder }: { $count ->
        [one] 1 archivo
       *[other] { $count } archivos
    }; el README.txt que contiene dice cómo comprobarlo
export-entries = { $path }: { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
export-no-line = { $job }: el asiento { $entry } no es una línea de JSON y se ha omitido
export-judged-by = { $folder }: juzgado con allowed_signers { $signers } y people.json { $people }; pregunte a la planta si conoce estos resúmenes
export-kept-holds = el punto de control de { $leaves } asientos que se guardó es el de esta carpeta: los asientos que están bajo él estaban entonces, tal como son
export-kept-differs = el punto de control de { $leaves } asientos de esta carpeta no es el que se guardó: la carpeta se hizo con otro libro
export-kept-elsewhere = esta carpeta no puede demostrar un punto de control de { $leaves } asientos: sus caminos llevan solo a uno de { $own } asientos; pida a la planta que ejecute `audit PLANT --checkpoint` con él
export-under = { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    } de { $all } están en el libro del punto de control { $short }; compárelo con uno que se guardara en otro lugar

## Hallazgos de una carpeta.
export-people-unreadable = people.json no está o no se puede leer, de modo que no se conoce a nadie: { $said }
export-sums-missing = SHA256SUMS no está o no se puede leer
export-sums-form = SHA256SUMS tiene una línea que no nombra ningún archivo de una exportación, o uno dos veces
export-file-missing = { $file } no está, aunque SHA256SUMS lo nombra
export-file-changed = { $file } no es el archivo que se escribió
export-log-unreadable = log.json no está o no se puede leer: { $said }
export-log-entry = el asiento { $entry } no está en el libro que nombra el punto de control

## README.txt de una carpeta.
export-how-to =
    Registro del trabajo { $job }, { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }. Escrito por { $program }.

    QUÉ HAY AQUÍ
    record/           El registro, byte por byte: packet.json, la instrucción con la que se
                      trabajó; 000001.json y siguientes, lo que se firmó; .sig, las firmas.
    packet.html       La instrucción, para leer. Ábrala en un navegador.
    record.html       El registro, para leer. Las dos páginas se hicieron a partir de record/.
                      No son prueba por sí mismas.
    allowed_signers   De quién es cada clave, y desde cuándo y hasta cuándo cuenta.
    people.json       Nombre y funciones de quien firmó, y claves perdidas. Nadie firmó este
                      archivo.
    FORMAT.md         El formato del registro, suficiente para escribir otro comprobador.
    verify.py         Un comprobador así: una página de Python.
    checkpoint        Si la máquina tiene un libro: su último punto de control. Compárelo con uno que
                      se guardara en otro lugar.
    log.json          El camino de cada asiento hasta la raíz que nombra el punto de control.
    SHA256SUMS        Resúmenes de todos los archivos.

    CÓMO COMPROBARLO
    En esta carpeta, con Python 3.9 o posterior y ssh-keygen (OpenSSH 8.2 o posterior):

      sha256sum -c SHA256SUMS       La copia está entera.
      python3 verify.py             El registro se sostiene. Nombra cada fallo.
      witnessmark audit .           Lo mismo con el programa que lo escribió, y el orden del
                                    bloqueo.

    Un asiento a mano, aquí el último:

      1  { $digest }
      2  { $verify }
      3  { $chain }

    La primera orden da su resumen. La segunda dice quién lo firmó, y si la clave contaba
    entonces. La tercera da la cabeza: lo que un asiento siguiente tendría que nombrar como
    "prev".

    PREGUNTE A LA PLANTA, por otro camino que aquel por el que llegó esta carpeta, por estos tres:

      SHA-256 de allowed_signers    { $signers }
      SHA-256 de people.json        { $people }
      cabeza del registro           { $head }

    QUÉ DEMUESTRA
    - Cada asiento se firmó con la clave que allowed_signers da a su firmante, en un momento en
      que la clave contaba, y ningún byte ha cambiado desde entonces.
    - Entre el primer asiento y el último de aquí no se quitó, puso ni movió ninguno.
    - La instrucción es aquella por la que firmaron, con sus límites.

    QUÉ NO DEMUESTRA
    - Que lo firmado sea verdad. Una firma dice quién responde por ello.
    - Que no se omitiera ningún asiento después del último de aquí: compare la cabeza.
    - Que no lo escribieran todo de nuevo quienes tienen todas las claves: compare la cabeza con
      una que se guardara en otro lugar en su momento.
    - La hora: es la del reloj con el que se firmó.
    - Que una clave esté en manos de la persona para la que figura.

    Un registro no sustituye ninguna norma. Los reglamentos locales, el manual del fabricante de
    la máquina y la práctica autorizada van primero.
