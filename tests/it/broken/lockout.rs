//! Rules of the lockout part: who locks, groups, shift change, contractors.

use super::Fault::Edit;
use super::{LOCKOUT, PLANT, Row, row};

pub const ROWS: &[Row] = &[
    row(
        Edit(
            LOCKOUT,
            "safe position\nsign: { performed: technician }",
            "safe position\nsign: { performed: lead }",
        ),
        &[("role-not-authorised", LOCKOUT, 71)],
    ),
    row(
        Edit(
            LOCKOUT,
            "safe position\nsign: { performed: technician }",
            "safe position\nsign: { verified: lead }",
        ),
        &[("role-not-authorised", LOCKOUT, 71)],
    ),
    row(Edit(PLANT, "authorised: [technician]\n", ""), &[("nobody-authorised", PLANT, 2)]),
    row(Edit(PLANT, "[technician]", "[technician, fitter]"), &[("unknown-role", PLANT, 9)]),
    row(Edit(PLANT, "electrical: technician\n", ""), &[("no-electrical-role", PLANT, 2)]),
    row(
        Edit(PLANT, "electrical: technician", "electrical: fitter"),
        &[("unknown-role", PLANT, 10)],
    ),
    row(
        Edit(PLANT, "electrical: technician", "electrical: lead"),
        &[("electrical-not-authorised", PLANT, 10)],
    ),
];
