# El marco de cada página del sitio.
frame-skip = Ir al texto de la página
frame-main = Principal
frame-here = Usted está aquí
frame-start = Por fecha
frame-jobs = Trabajos
frame-machines = Máquinas
frame-procedures = Procedimientos
frame-records = Registros
frame-search = Buscar
frame-to = a
frame-table = Tabla: { $name }
frame-limits = La comprobación de los archivos de la planta muestra que los procedimientos escritos están completos y en orden, salvo las excepciones que nombra un paquete. No muestra que una máquina sea segura, que su lista de fuentes de energía sea correcta ni que un candado esté puesto.
frame-data = Datos de la planta (SHA-256)
frame-plant = Planta
frame-made = Hecho con
frame-parts = Dibujado con
frame-parts-link = Elementos de estas páginas
