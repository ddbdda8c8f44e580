//! Rules of hazard messages: signal words, signs, protective equipment.
