//! Stone that is stuck to the board.
//!
//! # What it finds
//! The weight of each finish against 15 lb/ft², and its thickness against 2-5/8 in, where the code adopts
//! TMS 402-16 or an earlier one. For TMS 402-22, which changed the limits, and where nobody has said
//! which one counts or what the finish weighs, one question. What the face's finish puts on the slab,
//! per length of the front, is told with it.
//!
//! # Why
//! Stone that is too heavy for its mortar comes down, and framing for a light veneer sags under it.
//!
//! # Datum
//! Weight as it hangs, mortar included, over the area of the face.
//!
//! # Source
//! TMS 402-16 12.3, adhered veneer, from memory. That the edition of 2022 rewrote the limits was read in
//! a trade article; the new numbers were not, so none is asserted.

use crate::check::{Measure, Numbers, Quantity, Report, Row, Rule, Sense, Subject, Thing};
use crate::design::{ChaseFace, Design, Kind, point};
use crate::geom::Shape;
use crate::params::{End, VeneerStandard};
use crate::units::{AreaWeight, Length, MM_PER_INCH, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "veneer",
    text: include_str!("veneer.rs"),
    keys: &[
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.side_finish",
        "skins.lower_weight",
        "skins.upper_weight",
        "skins.side_weight",
        "skins.veneer_standard",
    ],
    check,
};

const HEAVIEST: AreaWeight = AreaWeight::new(15.0);
const THICKEST: Length = Length::inches(2.625);
const SOURCE: &str = "TMS 402-16 12.3, from memory; the local code decides";

/// A finish on one of the faces.
struct Veneer {
    name: &'static str,
    thickness: Length,
    weight: Option<AreaWeight>,
    levers: &'static [&'static str],
}

fn check(design: &Design, report: &mut Report<'_>) {
    let veneers = veneers(design);
    if veneers.is_empty() {
        return;
    }
    let layout = &design.layout;
    let row = |subject: Subject, levers| Row {
        subject,
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: SOURCE.to_owned(),
        levers,
        detail: line_load(design),
        ..Row::default()
    };
    let weighed = veneers.iter().any(|it| it.weight.is_some());
    let question = match design.params.skins.veneer_standard {
        VeneerStandard::Tms402Of16 if weighed => None,
        VeneerStandard::Tms402Of16 => {
            Some("What does the finish weigh per area with its mortar (skins.lower_weight)?")
        }
        VeneerStandard::Tms402Of22 => Some(
            "TMS 402-22 has new limits for stuck-on veneer: does this finish keep them in weight, size and thickness?",
        ),
        VeneerStandard::Unknown => Some(
            "What does the finish weigh per area with its mortar (skins.lower_weight), and which edition of TMS 402 does your code adopt?",
        ),
    };
    if let Some(question) = question {
        report.ask(
            row(Measure("the finish stuck to the board").into(), &[]),
            None,
            question,
        );
        return;
    }
    for veneer in veneers {
        let subject = Measure("thickness of the finish {}").of([Thing::Word(veneer.name)]);
        report.limit(
            row(subject, veneer.levers),
            Numbers::at_most(veneer.thickness, THICKEST),
        );
        if let Some(weight) = veneer.weight {
            let [measured, most] = [weight, HEAVIEST].map(AreaWeight::value);
            let numbers = Numbers::new(Quantity::AreaWeight, Sense::AtMost, measured, most);
            report.limit(
                row(
                    Measure("weight of the finish {}").of([Thing::Word(veneer.name)]),
                    &[],
                ),
                numbers,
            );
        }
    }
}

fn veneers(design: &Design) -> Vec<Veneer> {
    let (skins, layout) = (&design.params.skins, &design.layout);
    let veneer = |name, thickness, weight, levers| Veneer {
        name,
        thickness,
        weight,
        levers,
    };
    let all = [
        (
            true,
            veneer(
                "around the unit",
                skins.lower_finish,
                skins.lower_weight,
                &["skins.lower_finish"][..],
            ),
        ),
        (
            layout.is_stepped(),
            veneer(
                "above the ledge",
                skins.upper_finish,
                skins.upper_weight,
                &["skins.upper_finish"],
            ),
        ),
        (
            layout.site.ends.contains(&End::Free),
            veneer(
                "on the sides",
                skins.side_finish,
                skins.side_weight,
                &["skins.side_finish"],
            ),
        ),
    ];
    let there = all
        .into_iter()
        .filter(|(there, it)| *there && it.thickness.is_positive());
    there.map(|it| it.1).collect()
}

/// What the front's finish weighs per length of the front, in words.
fn line_load(design: &Design) -> Option<String> {
    let skins = &design.params.skins;
    let mut pounds = 0.0;
    for part in design.parts.iter().filter(|it| it.kind == Kind::Finish) {
        let weight = part.branch.face().and_then(|face| match face {
            ChaseFace::Front | ChaseFace::Lower => skins.lower_weight,
            ChaseFace::Upper => skins.upper_weight,
            ChaseFace::Left | ChaseFace::Right | ChaseFace::Back => None,
        });
        if let (Some(weight), Shape::Swept(swept)) = (weight, &part.body.shape) {
            let foot = 12.0 * MM_PER_INCH;
            pounds += swept.profile.area() / (foot * foot) * weight.value();
        }
    }
    let width = design.layout.site.chase.size().to_inches() / 12.0;
    let load = pounds / width;
    // 1 lb/ft = 1.488164 kg/m: NIST SP 811 (2008), appendix B.8
    let text = match design.params.project.unit {
        TapeUnit::Inch => format!("{:.0} lb/ft", load.ceil()),
        TapeUnit::Millimeter => format!("{:.0} kg/m", (load * 1.488_164).ceil()),
    };
    (pounds > 0.0).then(|| format!("the front's finish puts {text} on the slab under it"))
}
