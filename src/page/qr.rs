//! A QR code as a drawing: what a telephone reads off a printed sheet.
//!
//! The code itself comes from a library; here stands only how it is drawn. Must never hold anything
//! that does not stand on the sheet in words too.

use std::fmt::Write as _;

use fast_qr::{ECL, Module, QRBuilder};

/// Width of the light margin, in modules (ISO/IEC 18004, four modules; from memory).
const QUIET: usize = 4;

/// The drawing of a text, SVG; one unit is a module. Empty when the text is too long for a code
/// (more than 2,331 bytes at level M).
///
/// `title` says what the code is for, for those who do not see it; it is escaped here.
pub fn svg(text: &str, title: &str) -> String {
    let Ok(code) = QRBuilder::new(text).ecl(ECL::M).build() else { return String::new() };
    let width = code.size;
    // A row is one line as thick as a module, with gaps: half the bytes of a box for each run.
    let mut path = String::new();
    for y in 0..width {
        let mut end = None;
        for run in runs(&code[y]) {
            let _ = match end {
                None => write!(path, "M{} {}.5", run.start + QUIET, y + QUIET),
                Some(end) => write!(path, "m{} 0", run.start - end),
            };
            let _ = write!(path, "h{}", run.len());
            end = Some(run.end);
        }
    }
    let side = width + 2 * QUIET;
    format!(
        "<svg class=\"qr\" viewBox=\"0 0 {side} {side}\" role=\"img\" aria-label=\"{}\" \
         shape-rendering=\"crispEdges\"><path class=\"qr-light\" d=\"M0 0h{side}v{side}h-{side}z\"/>\
         <path class=\"qr-dark\" d=\"{path}\"/></svg>",
        super::escaped(title)
    )
}

/// Runs of dark modules in a row.
fn runs(row: &[Module]) -> Vec<std::ops::Range<usize>> {
    let mut runs: Vec<std::ops::Range<usize>> = Vec::new();
    for (x, _) in row.iter().enumerate().filter(|(_, module)| module.value()) {
        match runs.last_mut().filter(|run| run.end == x) {
            Some(run) => run.end = x + 1,
            None => runs.push(x..x + 1),
        }
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::{QUIET, svg};

    /// Reads a drawing back with another library, module by module.
    fn decoded(svg: &str) -> String {
        let side: usize =
            svg.split("viewBox=\"0 0 ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
        let path = svg.split("qr-dark\" d=\"").nth(1).unwrap().split('"').next().unwrap();
        let mut dark = vec![false; side * side];
        for row in path.split('M').skip(1) {
            let (start, rest) = row.split_once(' ').unwrap();
            let (y, rest) = rest.split_once(".5h").unwrap();
            let (mut x, y): (usize, usize) = (start.parse().unwrap(), y.parse().unwrap());
            for run in rest.split('m') {
                let length = match run.split_once(" 0h") {
                    None => run,
                    Some((gap, length)) => {
                        x += gap.parse::<usize>().unwrap();
                        length
                    }
                };
                let length: usize = length.parse().unwrap();
                assert!(x >= QUIET && x + length <= side - QUIET, "the margin is light");
                dark[y * side + x..y * side + x + length].fill(true);
                x += length;
            }
        }
        let scale = 4;
        let mut image =
            rqrr::PreparedImage::prepare_from_greyscale(side * scale, side * scale, |x, y| {
                if dark[y / scale * side + x / scale] { 0 } else { 255 }
            });
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        grids[0].decode().unwrap().1
    }

    #[test]
    fn another_library_reads_what_was_put_in() {
        let digest = "0123456789abcdef".repeat(4);
        for text in [
            "x".to_owned(),
            format!("https://changeover.plant.example/packets/J-1.html#{digest}"),
            "ünïcode & <markup>".to_owned(),
        ] {
            assert_eq!(decoded(&svg(&text, "")), text);
        }
    }

    #[test]
    fn a_text_that_is_too_long_gives_no_drawing_and_a_title_no_markup() {
        assert_eq!(svg(&"x".repeat(3000), ""), "");
        assert!(svg("x", "a \"<b>\"").contains("a &quot;&lt;b&gt;&quot;"));
    }
}
