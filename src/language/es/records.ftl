## Escribir registros.
records-held = otra persona está escribiendo en este registro: inténtelo de nuevo en un momento
records-held-by = { $holder } está escribiendo en este registro: inténtelo de nuevo en un momento, o termine ese proceso si no responde
records-not-added = { $error }; { $added ->
        [0] no se añadió nada
       *[other] antes se añadieron { $added } de { $all } asientos, y valen
    }
audit-entry-unfinished = { $file }: se interrumpió una escritura, o se quitó el asiento
log-unfinished = un proceso se detuvo antes de añadir sus hojas; la próxima firma, o `checkpoint` con --by, las completa
