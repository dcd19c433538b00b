//! What things weigh: by the user's own numbers wherever there are any.

use chasewright::design::{Branch, ChaseFace, Group, Kind, Part, design};
use chasewright::takeoff::{Takeoff, Weighed, is_weighed, takeoff};

use crate::support::{assert_near, changed};

/// Finish by the user's weight per area over the areas that are told (1 lb/ft2 = 4.882428 kg/m2: NIST SP 811, 2008,
/// appendix B.8), the mantel by its row of prices; wherever a weight is told it is the same.
#[test]
fn finish_and_mantel_weigh_what_the_user_says() {
    let changes: &[(&str, &str)] = &[
        ("skins.lower_weight", r#""8 lb/ft2""#),
        ("skins.upper_weight", r#""4 lb/ft2""#),
        ("skins.side_weight", r#""2 lb/ft2""#),
        ("stock.prices", r#"[{ item = "mantel", weight = "77 lb" }]"#),
    ];
    for demo in ["reading-room", "rises-away-from-wall", "room-divider"] {
        let model = design(&changed(demo, changes));
        let taken = takeoff(&model);
        let per_area = |face: &Branch| match face.face() {
            Some(ChaseFace::Front | ChaseFace::Lower) => 8.0,
            Some(ChaseFace::Upper) => 4.0,
            Some(ChaseFace::Left | ChaseFace::Right | ChaseFace::Back) => 2.0,
            None => panic!("a face"),
        };
        let finish: f64 = taken
            .finish
            .iter()
            .map(|it| it.area * 1e-6 * per_area(&it.face))
            .sum();
        let told = finish * 4.882_428 + 77.0 * 0.453_592_37;
        let own = |it: &&Part| matches!(it.kind, Kind::Finish | Kind::Mantel | Kind::MantelEnd);
        let parts: f64 = model
            .parts
            .iter()
            .filter(own)
            .map(|it| model.mass(it))
            .sum();
        assert_near(parts, told, 1e-6);
        let by_volume = |it: &Part| it.body.volume() * 1e-9 * it.material.density;
        let skins = model.parts.iter().filter(|it| it.group == Group::Skins);
        let boards: f64 = skins
            .filter(|it| is_weighed(it) && !own(it))
            .map(by_volume)
            .sum();
        let weighed = taken.weights.iter();
        let weighed = weighed.filter(|it| it.what == Weighed::Group(Group::Skins));
        assert_near(weighed.map(|it| it.mass).sum(), boards + told, 1e-6);
        // without the user's numbers only these change on the slab
        let slab = |taken: &Takeoff| taken.weights.last().map_or(0.0, |it| it.mass);
        let bare = design(&changed(demo, &[("stock.prices", "[]")]));
        let mut params = (*bare.params).clone();
        params.skins.lower_weight = None;
        params.skins.upper_weight = None;
        params.skins.side_weight = None;
        let bare = design(&params);
        let before: f64 = bare.parts.iter().filter(own).map(by_volume).sum();
        assert_near(slab(&taken) - slab(&takeoff(&bare)), told - before, 1e-6);
    }
}
