//! A gas stub that comes up through the platform.

use chasewright::check::check;
use chasewright::design::{Design, Kind, design};
use chasewright::params::Params;
use chasewright::units::Length;

use crate::support::{assert_near, changed};

/// The platform's sleepers, each by its middle along the wall and out, as wide as they are.
fn sleepers(design: &Design) -> Vec<[f64; 4]> {
    let own = design.parts.iter().filter(|it| it.kind == Kind::Sleeper);
    own.map(|it| {
        let bounds = &it.body.bounds;
        [bounds.low.x, bounds.high.x, -bounds.high.y, -bounds.low.y]
    })
    .collect()
}

fn with_stub(right: f64, up: f64) -> Params {
    let text = |inches: f64| format!("\"{:.6} mm\"", Length::inches(inches).to_mm());
    changed(
        "rises-away-from-wall",
        &[
            ("gas.stub_from", "\"floor\""),
            ("gas.stub_right", &text(right)),
            ("gas.stub_out", "\"12 in\""),
            ("gas.stub_up", &text(up)),
        ],
    )
}

/// A sleeper in the way of the stub lies beside its hole, which is the pipe and 1/2 in wide (common practice, no source):
/// of 1/2 in pipe, 0.84 in outside (ASME B36.10M, from memory), 1.34. The span of the panels is that of the wider bay.
#[test]
fn a_sleeper_moves_off_the_stub() {
    let free = design(&with_stub(60.0, 0.5));
    let across = |it: &[f64; 4]| (it[1] - it[0]) < (it[3] - it[2]);
    let mut out: Vec<[f64; 4]> = sleepers(&free).into_iter().filter(across).collect();
    out.sort_by(|a, b| a[0].total_cmp(&b[0]));
    assert!(out.len() >= 4, "{out:?}");
    let middle = out.len() / 2;
    let place = f64::midpoint(out[middle][0], out[middle][1]) / 25.4;
    let widest = |design: &Design| {
        let findings = check(design);
        let found = findings.iter().find(|it| it.rule == "platform panel");
        let numbers = found.and_then(|it| it.numbers);
        numbers.expect("the rating is read").measured / 25.4
    };
    let spacing = widest(&free);
    // just off its middle to the right, so that it goes to the left
    let model = design(&with_stub(place + 0.25, 6.0));
    let hole = [0.84, 1.05].map(|pipe| pipe + 0.5);
    let side = hole[usize::from(model.params.gas.as_ref().unwrap().pipe.word() != "1/2")];
    let (low, high) = (place + 0.25 - side / 2.0, place + 0.25 + side / 2.0);
    for it in sleepers(&model) {
        let clear = it[1] / 25.4 <= low + 1e-6 || it[0] / 25.4 >= high - 1e-6;
        assert!(clear || !across(&it), "{it:?} in {low} to {high}");
    }
    let mut moved: Vec<[f64; 4]> = sleepers(&model).into_iter().filter(across).collect();
    moved.sort_by(|a, b| a[0].total_cmp(&b[0]));
    assert_near(moved[middle][1] / 25.4, low, 1e-6);
    let wide = (moved[middle + 1][0] - moved[middle][0]) / 25.4;
    assert_near(widest(&model), wide.max(spacing), 1e-6);
    // a stub that ends in the slab moves nothing
    assert_eq!(sleepers(&free).len(), sleepers(&model).len());
}

/// What stands in the slab is a fact: no remedy moves it.
#[test]
fn a_stub_in_the_slab_is_not_moved() {
    let model = design(&with_stub(20.0, 6.0));
    let findings = check(&model);
    let found = findings.iter().find(|it| it.rule == "gas stub").unwrap();
    assert_eq!(found.levers, ["chase.left"]);
}
