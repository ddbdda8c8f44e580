packet-qr = Address and digest of this packet
