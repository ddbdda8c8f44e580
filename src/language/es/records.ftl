## Escribir registros.
records-held = otra persona está escribiendo aquí: inténtelo de nuevo en un momento
records-held-by = { $holder } está escribiendo aquí: inténtelo de nuevo en un momento, o termine ese proceso si no responde
records-not-added = { $error }; { $added ->
        [0] no se añadió nada
       *[other] antes se añadieron { $added } de { $all } asientos, y valen
    }
audit-entry-unfinished = { $file }: se interrumpió una escritura, o se quitó el asiento
