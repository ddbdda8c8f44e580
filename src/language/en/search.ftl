# The list of all pages, and the search in it.
search-title = Search
search-plain = All pages of this site by kind. The browser's own search on the page finds words too.
search-label = Words to look for; all of them must be there
search-none = Nothing has all these words.
search-found = { $count ->
    [one] 1 page found
   *[other] { $count } pages found
}
search-left = { $count ->
    [one] 1 older job is only in the list of all jobs
   *[other] { $count } older jobs are only in the list of all jobs
}
search-pages = Lists
