# Signing on the tablet: what the script says by a word, and what a person has to know first.
sign-no-key = There is no key of yours on this tablet any more. Nothing was signed, and what was typed is kept.
sign-lost = Did you have a key here before? Then the data of the browser was cleared, and that key is gone for good. Make a new one, and tell the lead to end the line of the old one in the list of signers. What the old key signed stays good.
sign-there-is-one = Another window has made a key for you already. Open this page again to use it.
sign-signed-elsewhere = Another window of this page has signed since. Nothing was signed twice and nothing is lost: open this page again, look at what is signed, and sign the rest.
sign-no-person = Somebody else was picked meanwhile. Nothing was signed. Pick your name and sign again.
sign-remove = Remove my key from this tablet
sign-remove-sure = Remove the key? It cannot be brought back. What it signed stays good. Tell the lead to end its line in the list of signers.
