packet-qr = Adresse und Prüfsumme dieses Pakets
