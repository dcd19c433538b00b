//! What is put on by its length or filled in by its area: adhesive, sealant or tape, what fills the gap over the top
//! plates, insulation of the wall behind.
//!
//! In: the design. Out: lines of the buy list. Lengths and areas come from the parts; how far a cartridge or a roll
//! goes is the user's to say, and where nothing is said the length itself is listed.

use super::buy::{Line, Section, line, square_feet};
use super::fasteners::along;
use super::nest::count_up;
use crate::design::{Design, Kind, Layout, Part, PlateGap, plate_gaps, point, stub_hole};
use crate::geom::{Shape, contact, edges};
use crate::params::{Back, GapFill, SpaceBehind};
use crate::units::{Length, Rounding, TapeUnit};

/// Square metres in a square millimetre.
const SQUARE_METERS: f64 = 1e-6;

/// Adhesive, sealant, the fill of gaps, and insulation.
pub(super) fn lines(design: &Design) -> Vec<Line> {
    let own = &design.params.fasteners;
    let adhesive = bead(
        design,
        ("construction adhesive", "bead", own.adhesive_reach),
        panel_beads(design),
        "under platform panels, along every sleeper and every row of screws",
    );
    let sealant = bead(
        design,
        ("firestop sealant or foil tape", "bead", own.sealant_reach),
        firestop_beads(design),
        "around each firestop and around the pipe in it, of the kind that the manual names",
    );
    let at_stub = bead(
        design,
        ("fire-rated sealant", "bead", None),
        stub_bead(design),
        "round the gas pipe where it comes up through the platform",
    );
    let found = [
        adhesive,
        sealant,
        at_stub,
        gap_fill(design),
        insulation(design),
    ];
    found.into_iter().flatten().collect()
}

/// What fills the gap between the top plates and the ceiling, by the plates' length.
fn gap_fill(design: &Design) -> Option<Line> {
    let fill = design.params.ceiling.gap_fill?;
    let unit = design.params.project.unit;
    let open = plate_gaps(design).into_iter();
    let open: Vec<PlateGap<'_>> = open.filter(|it| it.height.is_positive()).collect();
    let most = |of: fn(&PlateGap<'_>) -> Length| {
        let sizes = open.iter().map(of);
        sizes
            .fold(Length::ZERO, Length::max)
            .tape(unit, Rounding::Up)
    };
    let section = match fill {
        GapFill::Lumber => Section::Lumber,
        GapFill::Board | GapFill::MineralWool => Section::Sheets,
    };
    let what = format!("{} over the top plates", fill.material());
    let length: Length = open.iter().map(|it| it.length).sum();
    let purpose = format!(
        "between the top plates and the ceiling, {} wide, up to {} high",
        most(|it| it.width),
        most(|it| it.height),
    );
    let line = bead(design, (&what, "gap", None), length, &purpose)?;
    Some(Line { section, ..line })
}

/// So many cartridges or rolls, or the length itself.
fn bead(
    design: &Design,
    (what, of, reach): (&str, &str, Option<Length>),
    length: Length,
    purpose: &str,
) -> Option<Line> {
    if !length.is_positive() {
        return None;
    }
    let unit = design.params.project.unit;
    let (item, step) = match (reach, unit) {
        (Some(reach), _) => (what.to_owned(), reach),
        (None, TapeUnit::Inch) => (format!("{what}, feet of {of}"), Length::inches(12.0)),
        (None, TapeUnit::Millimeter) => (format!("{what}, meters of {of}"), Length::mm(1000.0)),
    };
    let text = match unit {
        TapeUnit::Inch => length.feet_inches(unit.marks(), Rounding::Up),
        TapeUnit::Millimeter => length.tape(unit, Rounding::Up),
    };
    Some(Line {
        detail: format!("{text} {purpose}"),
        ..line(
            Section::Fasteners,
            item,
            count_up(length / step),
            &design.params,
        )
    })
}

/// A bead along every sleeper, and in every row of screws between two panels.
fn panel_beads(design: &Design) -> Length {
    let rows_apart = design.params.fasteners.panel_screw_spacing;
    let of_kind = |kind: Kind| design.parts.iter().filter(move |it| it.kind == kind);
    let panels: Vec<&Part> = of_kind(Kind::PlatformPanel).collect();
    let mut length = Length::ZERO;
    for (place, panel) in panels.iter().enumerate() {
        for sleeper in of_kind(Kind::Sleeper) {
            if let Some(touch) = contact(&panel.body, &sleeper.body) {
                let size = touch.high - touch.low;
                length += Length::mm(size.x.max(size.y));
            }
        }
        for other in &panels[place + 1..] {
            if let Some(touch) = contact(&panel.body, &other.body) {
                let size = touch.high - touch.low;
                length += Length::mm(size.x) * along(Length::mm(size.y), rows_apart) as f64;
            }
        }
    }
    length
}

/// Round each firestop's plate, and round the pipe in it.
fn firestop_beads(design: &Design) -> Length {
    let pipe = design.params.vent.pipe_diameter * std::f64::consts::PI;
    let plates = design.parts.iter().filter(|it| it.kind == Kind::Firestop);
    let beads = plates.filter_map(|part| match &part.body.shape {
        Shape::Swept(swept) => {
            let sides = edges(&swept.profile.outline).map(|(a, b)| a.distance(b));
            Some(Length::mm(sides.sum()) + pipe)
        }
        Shape::Tube(_) => None,
    });
    beads.sum()
}

/// Round the hole for the gas pipe in each of the platform's panels that it comes up through.
fn stub_bead(design: &Design) -> Length {
    let Some((right, out, up)) = stub_hole(&design.layout) else {
        return Length::ZERO;
    };
    let stub = point(right.center(), out.center(), up);
    let goes_through = |panel: &&Part| {
        let bounds = &panel.body.bounds;
        let in_plan = (stub - bounds.low).min(bounds.high - stub).truncate();
        in_plan.min_element() > 0.0 && stub.z > bounds.low.z
    };
    let panels = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::PlatformPanel);
    let count = panels.filter(goes_through).count();
    right.size() * std::f64::consts::PI * count as f64
}

/// Insulation of the wall behind the chase, or of a flush chase's enclosure outdoors, where the user says that it gets
/// some: from the slab to the ceiling, between the chase's sides, less the framed hole.
fn insulation(design: &Design) -> Option<Line> {
    let (params, layout) = (&design.params, &design.layout);
    let (low, high) = (layout.site.chase.low, layout.site.chase.high);
    let back = [(low, Length::ZERO), (high, Length::ZERO)];
    let side = |right| [(right, Length::ZERO), (right, layout.faces.front_back)];
    let space = params.behind.as_ref().map(|it| it.space);
    let (what, faces) = match (layout.site.back, space) {
        (Back::Enclosed, Some(SpaceBehind::Outdoors)) => {
            ("enclosure", vec![back, side(low), side(high)])
        }
        (Back::Standing, _) if !layout.site.is_turned() => ("wall behind", vec![back]),
        _ => return None,
    };
    if params.fireplace_wall.sealed != Some(true) {
        return None;
    }
    let mut area: f64 = faces.into_iter().map(|it| upright_area(layout, it)).sum();
    if let Some(wall) = layout
        .pass_wall()
        .filter(|it| it.place == layout.site.behind)
    {
        let frame = wall.stud.breadth();
        let hole = (
            layout.pass.sides.grown(frame),
            layout.pass.heights.grown(frame),
        );
        area -= hole.0.size().to_mm() * hole.1.size().to_mm();
    }
    let (item, count) = match params.project.unit {
        TapeUnit::Inch => ("square feet", square_feet(area)),
        TapeUnit::Millimeter => ("square meters", area * SQUARE_METERS),
    };
    Some(Line {
        detail: "studs counted with it, the vent's framed hole left out; none within the distance that the manual requires from unit and vent"
            .to_owned(),
        ..line(
            Section::Sheets,
            format!("insulation of the {what}, {item}"),
            count_up(count),
            params,
        )
    })
}

/// The area between the slab and the ceiling behind the chase's face over a line of the plan, from right and out to right and out.
fn upright_area(layout: &Layout, ends: [(Length, Length); 2]) -> f64 {
    let [from, to] = ends.map(|(right, out)| point(right, out, Length::ZERO).truncate());
    let top = layout.ceiling_behind.along(from, to);
    let strips = top.windows(2).map(|it| {
        let [a, b] = [it[0], it[1]];
        (b.x - a.x) * (f64::midpoint(a.y, b.y) - layout.slab.to_mm())
    });
    strips.sum()
}
