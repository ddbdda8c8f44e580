## Reglas sobre quién está para un trabajo.
person-without-role = { $name } no tiene ninguna función el { $day }
    .way-out = nombre a personas que tengan una función ese día, o dé una a { $name } en people.yaml
crew-not-there = `{ $id }` trabaja bajo el bloqueo de este trabajo y no está entre sus personas
    .way-out = añada `{ $id }` a `people` del trabajo, o quítelo de `crew`: un plan que no sabe quién tiene un candado puesto es erróneo (29 CFR 1910.147(f)(3)(ii)(B))
