# Words that the program writes into the steps of a packet.
lines-translation-old = This translates revision { $from }. The procedure is at revision { $revision }: where they differ, the procedure counts.
lines-not-translated = Not translated. Language of these steps: { $language }.
