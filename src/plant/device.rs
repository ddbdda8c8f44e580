//! Names of devices that only control: they stop a machine and isolate nothing.
//!
//! Source: 29 CFR 1910.147(b), what is not an energy isolating device; 1910.333(b)(2)(ii), interlocks
//! and control circuits. A name is all that a program sees: somebody has to look at the device.

/// Words that end the name of a control device: `Push button S1`, `Key switch of the panel`.
const LAST: [&str; 33] = [
    "button",
    "pushbutton",
    "push button",
    "selector",
    "selector switch",
    "emergency stop",
    "emergency off",
    "e stop",
    "estop",
    "interlock",
    "interlock switch",
    "guard switch",
    "door switch",
    "coded switch",
    "limit switch",
    "foot switch",
    "key switch",
    "keyswitch",
    "control switch",
    "control key",
    "joystick",
    "light curtain",
    "touch screen",
    "touchscreen",
    "operator panel",
    "control panel",
    "panel",
    "contactor",
    "guard lock",
    "pedal",
    "start control",
    "solenoid valve",
    "pilot valve",
];

/// Words that begin a Spanish name of one: `Pulsador de parada S1`. From memory.
const FIRST: [&str; 25] = [
    "pulsador",
    "botón",
    "seta",
    "parada de emergencia",
    "paro de emergencia",
    "enclavamiento",
    "interruptor de seguridad",
    "interruptor de puerta",
    "interruptor de llave",
    "interruptor de pedal",
    "interruptor de posición",
    "final de carrera",
    "mando",
    "pedal de",
    "pantalla",
    "pantalla táctil",
    "panel de mando",
    "panel de control",
    "contactor de",
    "autómata",
    "barrera de luz",
    "barrera óptica",
    "electroválvula",
    "relé",
    "variador",
];

/// Ends of a German name of one, which is often a single word: `Wahlschalter`. From memory.
const ENDS: [&str; 21] = [
    "taster",
    "drucktaste",
    "druckknopf",
    "knopf",
    "wahlschalter",
    "schlüsselschalter",
    "türschalter",
    "endschalter",
    "grenztaster",
    "fußschalter",
    "sicherheitsschalter",
    "verriegelungsschalter",
    "not halt",
    "not aus",
    "lichtvorhang",
    "bedienfeld",
    "bildschirm",
    "schütz",
    "relais",
    "pedal",
    "magnetventil",
];

/// Words that say it anywhere in the name: `PLC output A4`, `Control circuit breaker F2`.
const ANYWHERE: [&str; 10] = [
    "plc",
    "hmi",
    "control circuit",
    "control relay",
    "safety relay",
    "safe torque off",
    "sto",
    "drive enable",
    "software",
    "selector",
];

/// Words that begin what only describes the device: `Main disconnect beside the panel`.
const DESCRIBES: [&str; 32] = [
    "am", "an", "auf", "bei", "hinter", "im", "neben", "unter", "über", "vor", "zum", "zur", "at",
    "above", "behind", "below", "beside", "by", "for", "from", "in", "inside", "near", "next",
    "of", "on", "outside", "over", "to", "under", "with", "without",
];

/// The words by which a device's name says that it is a control device; none when it says none.
///
/// A name ends in what it names: a panel disconnect is a disconnect. What stands after a comma or
/// after "and" or "or" is another name.
pub(super) fn control_words(device: &str) -> Option<&'static str> {
    let text = device.to_lowercase().replace(['-', '/', '"'], " ");
    let pieces = text.split([',', ';', '(', ')', ':']);
    pieces
        .flat_map(|piece| piece.split(" and "))
        .flat_map(|piece| piece.split(" or "))
        .find_map(of_one)
}

/// The same for one name.
fn of_one(name: &str) -> Option<&'static str> {
    let is_own = |word: &&str| !DESCRIBES.contains(word);
    let words = name.split_whitespace().take_while(is_own);
    // A label such as S1 is no part of what it is.
    let words: Vec<&str> = words.filter(|word| !is_label(word)).collect();
    let name = format!(" {}", words.join(" "));
    let ends = LAST.into_iter().filter(|last| name.ends_with(&format!(" {last}")));
    let holds =
        ANYWHERE.into_iter().filter(|word| format!("{name} ").contains(&format!(" {word} ")));
    let begins =
        FIRST.into_iter().filter(|first| format!("{name} ").starts_with(&format!(" {first} ")));
    let closes = ENDS.into_iter().filter(|end| name.ends_with(end));
    // The longest says most.
    ends.chain(holds).chain(begins).chain(closes).max_by_key(|words| words.len())
}

fn is_label(word: &str) -> bool {
    word.chars().any(|c| c.is_ascii_digit()) || word.chars().count() == 1 && word != "e"
}

#[cfg(test)]
mod tests {
    use super::control_words;

    #[track_caller]
    fn check(device: &str, expected: &str) {
        assert_eq!(control_words(device).unwrap_or_default(), expected, "{device}");
    }

    #[test]
    fn control_devices_are_known_by_their_words() {
        check("Push button S1", "push button");
        check("Pulsador S1 de parada", "pulsador");
        check("Parada de emergencia S0", "parada de emergencia");
        check("Selector de modo", "selector");
        check("Seccionador Q1 junto al pulsador", "");
        check("Válvula de corte V1", "");
        check("Not-Halt S0", "not halt");
        check("Schlüsselschalter S2", "schlüsselschalter");
        check("Hauptschalter Q1 neben dem Bedienfeld", "");
        check("Absperrventil V1", "");
        check("Push-button", "push button");
        check("Stop button at the operator panel", "button");
        check("Selector S2 at OFF", "selector");
        check("Selector switch S2", "selector switch");
        check("Emergency stop S0", "emergency stop");
        check("E-stop on the column", "e stop");
        check("Interlock of guard G2", "interlock");
        check("Guard interlock switch B4", "interlock switch");
        check("Key switch S3", "key switch");
        check("Coded switch B2", "coded switch");
        check("Operator panel", "operator panel");
        check("HMI page 3", "hmi");
        check("Touch screen", "touch screen");
        check("PLC output A0.3", "plc");
        check("Control circuit breaker F2", "control circuit");
        check("Line contactor K1", "contactor");
        check("Safety relay K2", "safety relay");
        check("Guard lock G2", "guard lock");
        check("Foot pedal", "pedal");
        check("Start control S2", "start control");
        check("Solenoid valve Y1", "solenoid valve");
        check("Drive enable", "drive enable");
        check("Servo STO", "sto");
        check("Main disconnect or key switch S2", "key switch");
        check("Main disconnect, emergency stop", "emergency stop");
    }

    #[test]
    fn devices_that_hold_energy_back_are_left_alone() {
        for device in [
            "Main disconnect Q1",
            "Main disconnect beside the panel",
            "Panel disconnect Q2",
            "Operator panel disconnect Q3",
            "Disconnect switch Q1",
            "Distribution panel breaker F7",
            "Main disconnect with emergency stop function",
            "Emergency shut-off valve V4",
            "Exhaust valve V1",
            "Stop valve V2",
            "Mechanical stop P3",
            "Line valve by the selector",
            "Interlocked plug X1",
            "Carriage pin P1",
            "Column block P1, moves with the height spindle",
            "Breaker F7 of the control panel",
        ] {
            check(device, "");
        }
    }
}
