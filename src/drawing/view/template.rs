//! Full-size templates: one for each distinct angle of the saw, to set a bevel gauge by, with bars that prove the print.

use glam::DVec2;

use crate::drawing::figure::{Figure, Label};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::paper::Scale;
use crate::drawing::subject::Subject;
use crate::units::{Angle, MM_PER_INCH};

/// The longer leg of a template, in millimetres.
const LEG: f64 = 110.0;
/// Over the longer leg a template rises so much at least, in millimetres: less is no more than the width of its lines, and
/// the saw set-up says the gap that such a cut leaves when it is made square.
const LEAST: f64 = 1.0;
/// The bars that prove the print, in millimetres.
const BARS: [(f64, &str); 2] = [
    (6.0 * MM_PER_INCH, "6 in, measure it"),
    (100.0, "100 mm, measure it"),
];

/// A template of every distinct angle.
pub(in crate::drawing) fn templates(subject: &Subject<'_>) -> Vec<Figure> {
    let mut angles: Vec<(Angle, Vec<String>)> = Vec::new();
    for setup in &subject.takeoff.saw {
        for (angle, turned) in [(setup.miter, "table"), (setup.bevel, "blade")] {
            if angle.tan() * LEG < LEAST {
                continue;
            }
            let cuts = setup.cuts.iter();
            let cuts = cuts.map(|it| format!("{} {} ({turned})", it.mark, it.end));
            // a tenth of a degree is what the saw set-up says, and what a gauge can tell
            match angles.iter_mut().find(|it| text(it.0) == text(angle)) {
                Some((_, known)) => known.extend(cuts),
                None => angles.push((angle, cuts.collect())),
            }
        }
    }
    angles
        .iter()
        .map(|(angle, cuts)| template(*angle, cuts))
        .collect()
}

fn text(angle: Angle) -> String {
    format!("{:.1}°", angle.to_degrees())
}

fn template(angle: Angle, cuts: &[String]) -> Figure {
    let mut figure = Figure::new(
        format!("Angle template, {}", text(angle)),
        "Print at 100 %, not fitted to the page; measure both bars before you trust it.",
    );
    figure.scale = Some(Scale::FULL);
    let ratio = angle.tan();
    let (across, along) = if ratio > 1.0 {
        (LEG / ratio, LEG)
    } else {
        (LEG, LEG * ratio)
    };
    let (corner, tip) = (DVec2::new(across, 0.0), DVec2::new(across, along));
    let sides = [
        (DVec2::ZERO, tip, "the cut"),
        (DVec2::ZERO, corner, "square across the stick"),
        (corner, tip, "along the stick's edge"),
    ];
    for (from, to, words) in sides {
        figure.line(Pen::Thin, from, to);
        figure.call(from.lerp(to, 0.6), words);
    }
    for (place, (long, text)) in BARS.into_iter().enumerate() {
        bar(&mut figure, -14.0 * (place as f64 + 1.0), long, text);
    }
    figure.notes.push(format!("For: {}.", cuts.join(", ")));
    figure
}

/// A bar with a stroke at each end.
fn bar(figure: &mut Figure, height: f64, long: f64, text: &str) {
    let (low, high) = (DVec2::new(0.0, height), DVec2::new(long, height));
    figure.line(Pen::Edge, low, high);
    for end in [low, high] {
        figure.line(Pen::Edge, end - DVec2::Y * 2.5, end + DVec2::Y * 2.5);
    }
    figure.labels.push(Label {
        text: text.to_owned(),
        short: None,
        around: Rect { low, high },
    });
}
