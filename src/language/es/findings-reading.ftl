## Rules of reading: YAML and its shape.
not-yaml = esto no es YAML: { $message }
    .way-out = cuide la sangría (espacios, no tabuladores) y los corchetes; ponga entre comillas el texto con dos puntos
unknown-key = clave desconocida `{ $key }`
    .way-out = { $nearest }
missing-key = falta la clave `{ $key }`
    .way-out = añada `{ $key }: ...`
key-twice = la clave `{ $key }` aparece dos veces
    .way-out = deje una de las dos
    .why = Los lectores de YAML difieren en cuál de las dos toman.
unknown-word = `{ $word }` no es una palabra conocida aquí
    .way-out = { $nearest }
wrong-shape = se esperaba { $expected }, se encontró { $found }
    .way-out = { $remedy }

## Rules of files.
no-such-file = la planta no tiene el archivo { $name }
    .way-out = escriba { $name }
link-refused = esto es un enlace o no es un archivo normal, y no se sigue
    .way-out = ponga el archivo mismo en la carpeta de la planta
    .why = Un enlace puede llevar fuera de la planta, a un archivo que cambia sin que aquí se vea.
file-too-large = este archivo supera { $kibibytes } KiB
    .way-out = divídalo
    .why = Nadie escribe tanto a mano: es un error, o quiere hacer daño.
not-utf8 = este archivo no es texto UTF-8 (byte { $byte })
    .way-out = guárdelo como UTF-8
stray-file = los archivos de esta carpeta terminan en { $ending }; este no se lee
    .way-out = termine su nombre en { $ending }, o llévelo a otro lugar
    .why = Un archivo con otra terminación se toma fácilmente por uno que cuenta.
id-is-not-file-name = el identificador es `{ $id }`, el archivo se llama `{ $stem }`
    .way-out = dé a ambos el mismo nombre
    .why = Quien busca un identificador busca su archivo.
bad-id = `{ $id }` no puede ser un identificador
    .way-out = use letras, cifras y guiones, 64 como máximo
    .why = Un identificador está en enlaces, nombres de archivo y firmas.

## Rules of keys.
bad-signer = no se confía en este firmante: { $words } ({ $code })
    .way-out = escriba una línea por clave: person namespaces="signoff@DOMAIN",valid-after="...Z",valid-before="...Z" ssh-ed25519 ...
    .why = Una línea entendida a medias podría dar validez a una clave que nadie quiso.

## Parts of the above.
yaml-too-deep = hay más de { $most } corchetes unos dentro de otros
yaml-grows = sus alias repiten demasiado
braces-with-percent = solo se admiten valores entre llaves dobles, no otras llaves con %
braces-unclosed = falta el cierre {"}"}{"}"}
braces-without-name = entre llaves dobles va un solo nombre, como strip o strip.limits
braces-in-code = no se puede poner un valor dentro de código
