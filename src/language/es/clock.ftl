## Lo que dicen las horas de los asientos.
audit-gap = llega { $hours } h después del asiento anterior, más que un turno: pregunte qué pasó entretanto
audit-many-at-once = empieza { $count } pasos que una persona firmó en un minuto, hasta el asiento { $last }: pregunte si cada uno se firmó al hacerlo
audit-clock-ahead = va { $seconds } s por delante del asiento { $before }, que llegó después: revise el reloj del dispositivo que firma con la clave { $key }
audit-jobs-overlap = el primer asiento es anterior al último de { $job } en { $machine }: dos trabajos en una máquina a la vez
log-clock-ahead = la hoja { $leaf } va { $seconds } s por delante de la hoja { $before }, que llegó después: revise el reloj del dispositivo que firma con la clave { $key }
