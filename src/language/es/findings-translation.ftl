## Reglas de los textos en varios idiomas.
texts-block = un paso traducido tiene un bloque marcado `texts`; este tiene { $count }
    .way-out = termine el paso con ```texts, `of:` y el título del original, ```
translation-of-nothing = no hay ningún procedimiento `{ $id }` que traducir
    .way-out = dé al archivo el nombre del procedimiento y escriba su id en `of`
translation-out-of-step = esto es `{ $of }`, pero aquí `{ $id }` tiene el paso `{ $wanted }`
    .way-out = traduzca cada paso de `{ $id }` en su orden; aquí: `of: { $wanted }`
translation-lacks-step = el paso `{ $slug }` de `{ $id }` no está traducido
    .way-out = escríbalo detrás de este, con `of: { $slug }` en su bloque de textos
translation-has-more = `{ $id }` no tiene ningún paso para `{ $title }`
    .way-out = quite el paso o escríbalo primero en el original
translation-texts-differ = `{ $title }`: `{ $key }` tiene { $own } aquí y { $source } en el original
    .way-out = traduzca cada texto del original, en su orden, y no añada ninguno
translation-lacks-value = a `{ $title }` le falta el valor {"{{"} { $name } {"}}"} del original
    .way-out = ponga {"{{"} { $name } {"}}"} donde va el número o el nombre
translation-adds-value = `{ $title }` muestra {"{{"} { $name } {"}}"}, que el original no tiene
    .way-out = quítelo o escríbalo primero en el original
translation-is-old = esto traduce la revisión { $from } de `{ $id }`, que está en la revisión { $revision }
    .way-out = compárelo con el original, corríjalo y escriba `translates: { $revision }`; hasta entonces el paquete dice que es antiguo
procedure-not-translated = `{ $id }` no está traducido a `{ $tag }`, que pide un trabajo
    .way-out = escriba instructions/{ $folder }/{ $id }.md; hasta entonces sus pasos quedan en el paquete como están
language-not-of-plant = `{ $tag }` no es un idioma en que escribe esta planta
    .way-out = añada `{ $tag }` a `languages` en plant.yaml o quite el texto
text-without-main = a este texto le falta el idioma principal de la planta, `{ $tag }`
    .way-out = añada `{ $tag }: ...`: se muestra donde falta un idioma
text-not-translated = { $count ->
    [one] este texto no está traducido a `{ $tag }`, que pide un trabajo
   *[other] { $count } textos de este archivo no están traducidos a `{ $tag }`, que pide un trabajo; este es el primero
}
    .way-out = escriba `{ $tag }: ...` junto al otro idioma de cada texto
