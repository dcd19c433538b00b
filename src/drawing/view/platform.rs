//! The platform from above: its panels with their steps, and the sleepers under them, from the left end of the framing.

use glam::DVec3;

use crate::design::{Kind, Part};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::Subject;
use crate::units::Length;

/// The platform's plan.
pub(in crate::drawing) fn platform(subject: &Subject<'_>) -> Vec<Figure> {
    let layout = subject.layout();
    let is_sleeper = |part: &Part| part.kind == Kind::Sleeper;
    let is_panel = |part: &Part| part.kind == Kind::PlatformPanel;
    let eye = Eye::ABOVE;
    let mut figure = Figure::new(
        "Platform, seen from above",
        "Locate cables and pipes in the slab before drilling into it.",
    );
    subject.draw(&mut figure, &eye, None, is_panel);
    subject.draw_hidden(&mut figure, &eye, Pen::Hidden, is_sleeper);
    if figure.lines.is_empty() {
        return Vec::new();
    }
    let mut around = Figure::new("", "");
    subject.draw(&mut around, &eye, None, |part| part.kind == Kind::SolePlate);
    let plates = around.lines.into_iter();
    figure.lines.extend(plates.map(|it| (Pen::Context, it.1)));
    subject.label(&mut figure, &eye, is_sleeper);
    let sleepers = subject.parts(is_sleeper).into_iter();
    let (out, along): (Vec<Rect>, Vec<Rect>) = sleepers
        .map(|(_, solid)| eye.around(&solid.vertices))
        .partition(|it| it.size().y > it.size().x);
    let panels = subject.parts(is_panel).into_iter();
    let corners: Vec<DVec3> = panels
        .flat_map(|(_, solid)| &solid.vertices)
        .map(|it| eye.see(*it))
        .collect();
    let lefts = out.iter().map(|it| Length::mm(it.low.x));
    let last = out
        .iter()
        .map(|it| Length::mm(it.high.x))
        .reduce(Length::max);
    let datum = layout.site.chase.low;
    let across = corners.iter().map(|it| Length::mm(it.x));
    let deep = corners.iter().map(|it| Length::mm(it.y));
    let fronts = along.iter().map(|it| Length::mm(it.low.y));
    figure.chains = vec![
        Chain::new(Side::Below, lefts.chain(last).chain([datum])).running(),
        Chain::new(Side::Above, across.chain([datum])),
        Chain::new(Side::Left, deep.chain([Length::ZERO])),
    ];
    if !along.is_empty() {
        let fronts = Chain::new(Side::Right, fronts.chain([Length::ZERO]));
        figure.chains.push(fronts);
    }
    let from = if layout.site.is_turned() {
        "corner"
    } else {
        "wall"
    };
    figure.notes.push(format!(
        "Marks are those of the cut list. Dashed: sleepers under the panels; thin: sole plates. Above the panels, below the left edge of \
         each sleeper, both from the left end of the chase's framing; at the left how far the panels lie from the {from}."
    ));
    vec![figure]
}
