# The handbook: it is in English; these are the words around it.
handbook-foot = How it works
handbook-link = Handbook
handbook-written = { $files } in { $folder }: open { $page }
