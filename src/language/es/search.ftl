# La lista de todas las páginas y la búsqueda en ella.
search-title = Buscar
search-plain = Todas las páginas de este sitio por clase. La búsqueda en la página del propio navegador también encuentra palabras.
search-label = Palabras que buscar; deben estar todas
search-none = Nada contiene todas estas palabras.
search-found = { $count ->
    [one] 1 página encontrada
   *[other] { $count } páginas encontradas
}
search-left = { $count ->
    [one] 1 trabajo más antiguo está solo en la lista de todos los trabajos
   *[other] { $count } trabajos más antiguos están solo en la lista de todos los trabajos
}
search-pages = Listas
