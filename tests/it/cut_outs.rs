//! Cut-outs of a sheet, wherever they lie.

use chasewright::design::skins::{Band, CutOut};
use chasewright::geom::Profile;
use chasewright::units::{Length, Span};
use glam::DVec2;

fn span(low: f64, high: f64) -> Span {
    Span::new(Length::mm(low), Length::mm(high))
}

/// Whether every opening keeps clear of the sheet's edges.
fn is_proper(profile: &Profile) -> bool {
    let inside = |it: &DVec2| it.x > 0.0 && it.x < 100.0 && it.y > 0.0 && it.y < 60.0;
    profile.openings.iter().flatten().all(inside)
}

/// A sheet 100 by 60 with a cut-out anywhere: what is left is the sheet less what both share.
#[test]
fn a_cut_out_may_cross_any_edge() {
    let band = Band {
        sides: span(0.0, 100.0),
        bottom: Length::ZERO,
        top: vec![DVec2::new(0.0, 60.0), DVec2::new(100.0, 60.0)],
    };
    let (lows, widths) = (
        [-30.0, 0.0, 1e-7, 20.0, 80.0, 120.0],
        [10.0, 20.0, 50.0, 100.0, 200.0],
    );
    let (bottoms, heights) = ([-30.0, 0.0, 10.0, 40.0, 70.0], [10.0, 20.0, 60.0, 100.0]);
    for low in lows {
        for width in widths {
            for bottom in bottoms {
                for height in heights {
                    let cut = CutOut {
                        sides: span(low, low + width),
                        heights: span(bottom, bottom + height),
                    };
                    let profiles = band.profiles(&[cut]);
                    let shared =
                        |low: f64, high: f64, end: f64| (high.min(end) - low.max(0.0)).max(0.0);
                    let gone =
                        shared(low, low + width, 100.0) * shared(bottom, bottom + height, 60.0);
                    let left: f64 = profiles.iter().map(Profile::area).sum();
                    let case = format!("{low} {width} {bottom} {height}: {profiles:?}");
                    assert!(
                        (left - (6000.0 - gone)).abs() < 1e-3,
                        "{left}, not {}: {case}",
                        6000.0 - gone
                    );
                    assert!(profiles.iter().all(is_proper), "{case}");
                }
            }
        }
    }
}

/// Two cut-outs, one from side to side: the other stays in its own piece.
#[test]
fn what_a_cut_out_parts_keeps_its_own_openings() {
    let band = Band {
        sides: span(0.0, 100.0),
        bottom: Length::ZERO,
        top: vec![DVec2::new(0.0, 60.0), DVec2::new(100.0, 70.0)],
    };
    let across = CutOut {
        sides: span(-5.0, 105.0),
        heights: span(20.0, 30.0),
    };
    let over = CutOut {
        sides: span(40.0, 50.0),
        heights: span(40.0, 50.0),
    };
    let profiles = band.profiles(&[across, over]);
    let openings: Vec<usize> = profiles.iter().map(|it| it.openings.len()).collect();
    assert_eq!(openings, [0, 1]);
    let areas: Vec<f64> = profiles.iter().map(Profile::area).collect();
    assert!((areas[0] - 2000.0).abs() < 1e-9, "{areas:?}");
    assert!((areas[1] - (3500.0 - 100.0)).abs() < 1e-9, "{areas:?}");
}
