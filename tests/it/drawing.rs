//! Drawings: words apart from one another and on the sheet, chains that close, true scales, the same bytes.

use chasewright::design::design;
use chasewright::drawing::{self, Ink, Paper, Pen, Rect, Sheet};
use chasewright::export::{drawings_pdf, sheet_svg};
use chasewright::params::Params;
use chasewright::takeoff::{marks, takeoff};
use chasewright::units::{Length, Rounding, TapeUnit};
use glam::DVec2;

use crate::generate::random_params;
use crate::scenarios::demo;
use crate::support::assert_near;

const DEMOS: [&str; 4] = [
    "reading-room",
    "stepped-face",
    "rises-away-from-wall",
    "flat-with-cabinets",
];

fn sheets(params: &Params, paper: Paper) -> Vec<Sheet> {
    let design = design(params);
    drawing::sheets(&design, &takeoff(&design), paper)
}

/// Every sheet of the demos on every paper, and of random designs on the usual one.
fn all_sheets() -> Vec<(String, Sheet)> {
    let mut found = Vec::new();
    for name in DEMOS {
        for (word, paper) in Paper::ALL {
            let named = |sheet: Sheet| (format!("{name} on {word}: {}", sheet.title), sheet);
            found.extend(sheets(&demo(name), paper).into_iter().map(named));
        }
    }
    for seed in 0..40 {
        let params = random_params(seed);
        let paper = Paper::usual(params.project.unit);
        let named = |sheet: Sheet| (format!("random {seed}: {}", sheet.title), sheet);
        found.extend(sheets(&params, paper).into_iter().map(named));
    }
    assert!(found.len() > 500, "{} sheets", found.len());
    found
}

#[test]
fn words_lie_on_the_sheet_and_on_no_other_words_or_lines() {
    for (name, sheet) in all_sheets() {
        let texts: Vec<(Rect, &str)> = sheet
            .texts()
            .map(|it| (it.bounds(), it.text.as_str()))
            .collect();
        assert!(texts.len() > 8, "{name}: too few words");
        let paper = Rect {
            low: DVec2::splat(5.0),
            high: sheet.paper.size() - 5.0,
        };
        for text in sheet.texts() {
            // ISO 3098-1:2015: the smallest letters have capitals of 1.8 mm; the face's are 0.729 of its size
            assert!(
                text.size * 0.729 > 1.79,
                "{name}: {:?} is too small",
                text.text
            );
        }
        for (place, (bounds, text)) in texts.iter().enumerate() {
            assert!(paper.contains(bounds), "{name}: {text:?} leaves the sheet");
            for (other, second) in &texts[..place] {
                assert!(!bounds.overlaps(other), "{name}: {text:?} on {second:?}");
            }
            for ink in &sheet.ink {
                if let Ink::Line { from, to, pen } = ink {
                    let crossed = bounds.common(*from, *to).is_some();
                    assert!(!crossed, "{name}: a line of {pen:?} through {text:?}");
                }
            }
        }
        for ink in &sheet.ink {
            if let Ink::Line { from, to, .. } = ink {
                let around = Rect::around([*from, *to]);
                assert!(paper.contains(&around), "{name}: a line leaves the sheet");
            }
        }
    }
}

#[test]
fn chains_close_and_say_what_they_measure() {
    for (name, sheet) in all_sheets() {
        let unit = if Paper::usual(TapeUnit::Inch) == Paper::Tabloid
            && sheet.scale.name.contains("in =")
        {
            TapeUnit::Inch
        } else {
            TapeUnit::Millimeter
        };
        for chain in &sheet.chains {
            let lengths = chain.lengths();
            let (Some(first), Some(last)) = (chain.stops.first(), chain.stops.last()) else {
                continue;
            };
            let sum: Length = lengths.iter().copied().sum();
            assert_near(sum.to_mm(), (*last - *first).to_mm(), 1e-9);
            for length in lengths {
                assert!(length.is_positive(), "{name}: a dimension of nothing");
                let text = length.tape(unit, Rounding::Nearest);
                assert!(
                    sheet.texts().any(|it| it.text == text),
                    "{name}: {text} is not said"
                );
            }
            // each end of a dimension has its stroke, at true scale
            for stop in &chain.stops {
                let place = stop.to_mm() / sheet.scale.ratio;
                let marked = sheet.ink.iter().any(|ink| match ink {
                    Ink::Line {
                        from,
                        to,
                        pen: Pen::Edge,
                    } => {
                        let middle = (*from + *to) / 2.0 - sheet.origin;
                        (middle.x - place).abs() < 1e-6 || (middle.y + place).abs() < 1e-6
                    }
                    _ => false,
                });
                assert!(marked, "{name}: no stroke at {stop:?}");
            }
        }
    }
}

/// Sizes of paper: ISO 216:2007 (A4, A3), ANSI/ASME Y14.1 (A, B and architectural C).
#[test]
fn papers_have_their_published_sizes() {
    let sizes = [
        (Paper::A4, 297.0, 210.0),
        (Paper::A3, 420.0, 297.0),
        (Paper::Letter, 11.0 * 25.4, 8.5 * 25.4),
        (Paper::Tabloid, 17.0 * 25.4, 11.0 * 25.4),
        (Paper::ArchC, 24.0 * 25.4, 18.0 * 25.4),
    ];
    for (paper, width, height) in sizes {
        assert_near(paper.size().x, width, 1e-9);
        assert_near(paper.size().y, height, 1e-9);
    }
}

/// A scale of so many inches to the foot is 12 over that many.
#[test]
fn scales_are_what_they_are_called() {
    let scales = drawing::Scale::all(TapeUnit::Inch);
    for scale in scales {
        let inches = scale.name.split(" in").next().unwrap();
        let inches: f64 = inches
            .split('-')
            .map(|part| match part.split_once('/') {
                Some((a, b)) => a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap(),
                None => part.parse().unwrap(),
            })
            .sum();
        assert_near(scale.ratio, 12.0 / inches, 1e-9);
    }
    for scale in drawing::Scale::all(TapeUnit::Millimeter) {
        let ratio: f64 = scale.name.strip_prefix("1:").unwrap().parse().unwrap();
        assert_near(scale.ratio, ratio, 1e-9);
    }
}

/// The views that issue to an inspector (common practice, no source).
#[test]
fn every_demo_has_its_views_and_they_stay_on_the_paper_asked_for() {
    let wanted = [
        "Plan",
        "Finished front",
        "Section",
        "Side",
        "Framing: left side",
        "Framing: right side",
        "Wall pass",
        "Outside",
        "Framing, platform",
        "Pulled apart",
    ];
    for name in DEMOS {
        for paper in [Paper::Tabloid, Paper::ArchC, Paper::A3] {
            let sheets = sheets(&demo(name), paper);
            for title in wanted {
                let found = sheets.iter().find(|it| it.title.starts_with(title));
                let sheet = found.unwrap_or_else(|| panic!("{name}: no {title}"));
                assert_eq!(sheet.paper, paper, "{name}: {title}");
            }
        }
    }
}

#[test]
fn every_mark_of_a_framed_wall_is_on_its_sheet() {
    for name in DEMOS {
        let design = design(&demo(name));
        let marks = marks(&design);
        let sheets = drawing::sheets(&design, &takeoff(&design), Paper::Tabloid);
        let mut seen = 0;
        for (part, mark) in &marks {
            let wall = part.split('/').next().unwrap();
            let title = format!("Framing: {wall}, ");
            if let Some(sheet) = sheets.iter().find(|it| it.title.starts_with(&title)) {
                assert!(
                    sheet.texts().any(|it| it.text == *mark),
                    "{name}: {mark} of {part}"
                );
                seen += 1;
            }
        }
        assert!(seen > 30, "{name}: {seen} marks");
    }
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    let params = demo("reading-room");
    let [first, second] = [(), ()].map(|()| sheets(&params, Paper::Tabloid));
    for (a, b) in first.iter().zip(&second) {
        assert_eq!(sheet_svg(a), sheet_svg(b));
    }
    let [a, b] = [&first, &second].map(|it| drawings_pdf(it, "Reading room").unwrap());
    assert_eq!(a, b);
    assert!(a.starts_with(b"%PDF-"));
}

#[test]
fn names_are_escaped() {
    let mut params = demo("reading-room");
    params.project.name = "<script>alert('a & b')</script>\u{1}\"".to_owned();
    params.appliance.top_clearance.page = "<b>11</b>".to_owned();
    for sheet in sheets(&params, Paper::Tabloid) {
        let svg = sheet_svg(&sheet);
        assert!(!svg.contains("<script") && !svg.contains("<b>"));
        assert!(svg.contains("&lt;script&gt;"));
        // an outside reader of SVG takes it
        usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
    }
}
