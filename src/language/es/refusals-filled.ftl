## Why a file of a page is not taken in.
refusal-file-form = { $file }: { $path }: { $fault }
    .way-out = guarde otra vez la página en un archivo, y deje el archivo como lo escribió la página
refusal-file-of-another-job = el archivo se llenó para otro trabajo
    .way-out = nombre el trabajo del archivo
refusal-file-of-another-packet = el archivo se llenó sobre otra emisión del paquete
    .way-out = el paquete se emitió de nuevo: imprima o abra el nuevo; el archivo no se toca
refusal-signed-first = el archivo tiene { $count ->
        [one] 1 asiento firmado en la página que no consta
       *[other] { $count } asientos firmados en la página que no constan
    } en el registro
    .way-out = incorpore primero lo firmado: solo --from, sin --by ni --key
refusal-signed-unreadable = signed[{ $index }].entry { $fault }
    .way-out = { $remedy }
refusal-entries-missing = el archivo continúa con el asiento { $entry }, y el registro tiene { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
    .way-out = incorpore primero el archivo que tiene los asientos intermedios
refusal-record-moved-on = el registro ha avanzado desde que se hizo la página: hoy tiene { $count ->
        [one] 1 asiento
       *[other] { $count } asientos
    }
    .way-out = publique de nuevo y abra otra vez la página: lo escrito se conserva; firme de nuevo allí, o en la oficina con --by PERSON --key FILE
refusal-made-at-the-desk = el asiento { $entry } es del tipo { $kind }, que ninguna página firma
    .way-out = fírmelo en la oficina con { $option }
refusal-key-of-yesterday = asiento { $entry }, hoy: { $words }
    .way-out = firme en la oficina con una llave que valga: --by PERSON --key FILE
refusal-of-entry = asiento { $entry }: { $words }
    .way-out = { $remedy }
refusal-of-record = { $words }
    .way-out = { $remedy }
refusal-sign-anew = firme de nuevo: en la página, o en la oficina con --by PERSON --key FILE; lo escrito se conserva
refusal-reading-differs = { $blank } tiene otro valor en el registro, en el asiento { $entry }
    .way-out = mida otra vez; si el registro está mal, añada --correct '{ $blank }=VALUE' --reason TEXT

## What is wrong with the form of such a file.
filled-too-large = tiene más de { $most } bytes
filled-too-many = contiene { $items } cosas; se leen { $most } como máximo
filled-no-object = no es un objeto con campos con nombre
filled-other-form = es de la forma { $form }; este programa lee la forma { $read }
filled-no-identifier = no es un identificador
filled-no-digest = no son 64 cifras hexadecimales en minúscula
filled-field-foreign = no corresponde a lo que esto es
filled-field-missing = falta
filled-no-signature = no es ni `performed` ni `verified`
filled-bad-text = está vacío, es demasiado largo o tiene caracteres de control o de dirección
filled-nobody = no es ni una persona de people.yaml ni unas iniciales

## What of a file was not added.
filled-reading = { $blank } = { $value } (asiento { $entry })
filled-signature = { $step } { $kind } (asiento { $entry })
filled-signed = { $count ->
        [one] 1 asiento firmado
       *[other] { $count } asientos firmados
    } en la página
filled-on-record = ya en el registro: { $what }
filled-readings = { $count ->
        [one] 1 lectura
       *[other] { $count } lecturas
    }
filled-signatures = { $count ->
        [one] 1 firma
       *[other] { $count } firmas
    }
filled-both = { $readings } y { $signatures }
filled-left = sin incorporar: { $what } de { $by }; firme con --by y --key
filled-left-unnamed = sin incorporar: { $what } de { $by }; nombre a la persona en la página
filled-doubtful-clock = la página halló dudoso el reloj de su dispositivo: no se fíe de las horas del archivo
