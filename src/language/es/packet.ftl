packet-qr = Dirección y huella digital de este paquete
