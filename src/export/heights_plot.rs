//! The table of lowest heights as a plot: SVG text, projection to the right, height upward.

use std::fmt::Write as _;

use super::escape::escaped;
use crate::check::HeightRow;
use crate::units::{Length, Rounding, TapeUnit};

const WIDTH: f64 = 900.0;
const HEIGHT: f64 = 560.0;
/// Left, top, right and bottom of the field.
const FIELD: [f64; 4] = [80.0, 50.0, 640.0, 500.0];
const DASHES: [&str; 6] = ["none", "8 4", "2 3", "10 3 2 3", "5 2", "14 4"];

/// Draws the lowest mantel over the projection, one line for each platform, in one wall and with a
/// ledge.
pub fn heights_plot(rows: &[HeightRow], title: &str, unit: TapeUnit) -> String {
    let drawn: Vec<(&HeightRow, Length)> = rows
        .iter()
        .filter_map(|row| Some((row, row.mantel?)))
        .collect();
    let scale = Scale::around(&drawn);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" \
         font-family=\"sans-serif\" font-size=\"13\">\n\
         <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"white\"/>\n\
         <text x=\"{}\" y=\"28\" font-size=\"16\">{}: lowest mantel</text>\n",
        FIELD[0],
        escaped(title)
    );
    scale.axes(&mut svg, &drawn, unit);
    let mut lines: Vec<(Option<&str>, Length)> = Vec::new();
    for (row, _) in &drawn {
        let line = (row.ledge.as_deref(), row.platform);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    for (number, (ledge, platform)) in lines.iter().enumerate() {
        let points: Vec<String> = drawn
            .iter()
            .filter(|(row, _)| row.ledge.as_deref() == *ledge && row.platform == *platform)
            .map(|(row, height)| {
                let (x, y) = scale.place(row.projection, *height);
                format!("{x:.1},{y:.1}")
            })
            .collect();
        let (ink, dash) = match ledge {
            None => ("#1f1f1f", DASHES[number % DASHES.len()]),
            Some(_) => ("#a8552a", DASHES[number % DASHES.len()]),
        };
        let name = match ledge {
            None => "one wall".to_owned(),
            Some(ledge) => format!("ledge {ledge}"),
        };
        let label = format!(
            "{name}, platform {}",
            platform.tape(unit, Rounding::Nearest)
        );
        let y = 70.0 + 24.0 * number as f64;
        let _ = writeln!(
            svg,
            "<polyline points=\"{}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"2\" stroke-dasharray=\"{dash}\"/>\n\
             <line x1=\"660\" y1=\"{y}\" x2=\"700\" y2=\"{y}\" stroke=\"{ink}\" stroke-width=\"2\" stroke-dasharray=\"{dash}\"/>\n\
             <text x=\"708\" y=\"{}\">{}</text>",
            points.join(" "),
            y + 4.0,
            escaped(&label)
        );
    }
    svg.push_str("</svg>\n");
    svg
}

struct Scale {
    projection: (f64, f64),
    height: (f64, f64),
}

impl Scale {
    fn around(drawn: &[(&HeightRow, Length)]) -> Self {
        let span = |values: &mut dyn Iterator<Item = f64>| {
            let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
                (low.min(it), high.max(it))
            });
            if high > low {
                (low, high)
            } else {
                (low - 1.0, low + 1.0)
            }
        };
        Self {
            projection: span(&mut drawn.iter().map(|(row, _)| row.projection.to_mm())),
            height: span(&mut drawn.iter().map(|(_, height)| height.to_mm())),
        }
    }

    fn place(&self, projection: Length, height: Length) -> (f64, f64) {
        let share = |value: f64, (low, high): (f64, f64)| (value - low) / (high - low);
        let [left, top, right, bottom] = FIELD;
        (
            left + (right - left) * share(projection.to_mm(), self.projection),
            bottom - (bottom - top) * share(height.to_mm(), self.height),
        )
    }

    /// A grid line and a label at every projection and at five heights.
    fn axes(&self, svg: &mut String, drawn: &[(&HeightRow, Length)], unit: TapeUnit) {
        let [left, top, right, bottom] = FIELD;
        let mut projections: Vec<Length> = Vec::new();
        for (row, _) in drawn {
            // just beyond a step is the step itself
            let is_near = |it: &Length| (*it - row.projection).abs() < Length::mm(1.0);
            if !projections.iter().any(is_near) {
                projections.push(row.projection);
            }
        }
        for projection in projections {
            let (x, _) = self.place(projection, Length::mm(self.height.0));
            let _ = writeln!(
                svg,
                "<line x1=\"{x:.1}\" y1=\"{top}\" x2=\"{x:.1}\" y2=\"{bottom}\" stroke=\"#ddd\"/>\n\
                 <text x=\"{x:.1}\" y=\"{}\" text-anchor=\"middle\">{}</text>",
                bottom + 20.0,
                escaped(&projection.tape(unit, Rounding::Nearest))
            );
        }
        for step in 0..=4 {
            let share = f64::from(step) / 4.0;
            let height = Length::mm(self.height.0 + (self.height.1 - self.height.0) * share);
            let (_, y) = self.place(Length::mm(self.projection.0), height);
            let _ = writeln!(
                svg,
                "<line x1=\"{left}\" y1=\"{y:.1}\" x2=\"{right}\" y2=\"{y:.1}\" stroke=\"#ddd\"/>\n\
                 <text x=\"{}\" y=\"{:.1}\" text-anchor=\"end\">{}</text>",
                left - 8.0,
                y + 4.0,
                escaped(&height.tape(unit, Rounding::Nearest))
            );
        }
        let _ = writeln!(
            svg,
            "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\">projection in front of the finished face</text>",
            f64::midpoint(left, right),
            bottom + 44.0
        );
    }
}
