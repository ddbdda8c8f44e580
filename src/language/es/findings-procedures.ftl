## Rules of procedures as text.
no-front-matter = un procedimiento empieza con sus datos entre dos líneas de ---
    .way-out = empiece el archivo con ---, id, title, revision, date, author, reason, ---
    .why = Un paquete nombra quién escribió cada procedimiento, cuándo y por qué.
no-steps = este procedimiento no tiene ningún paso
    .way-out = escriba un título de segundo nivel (##) para cada paso
heading-twice = otro paso se llama también `{ $title }`
    .way-out = dé a cada paso un título propio
bad-heading = `{ $title }` no puede ser el título de un paso
    .way-out = use palabras sencillas con al menos una letra latina o una cifra, y sin valores
step-block = un paso tiene un bloque marcado `step`; este tiene { $count }
    .way-out = termine el paso con ```step, sus datos, ``` (puede estar vacío)
bad-braces = { $why }
    .way-out = escriba {"{"}{"{"} name {"}"}{"}"} en texto normal
