//! Small things that writers rest on: numbers as text, what is escaped, faces divided anew.

use chasewright::export::number::{COORDINATE, DIRECTION, push, spans};
use chasewright::export::{Html, quoted};
use chasewright::scale::flat::{border, divided_anew, flattened, outlines};
use glam::DVec3;

#[test]
fn numbers_are_short_and_have_a_point() {
    let cases = [
        (0.0, "0."),
        (-0.0, "0."),
        (-4e-10, "0."),
        (38.1, "38.1"),
        (-0.75, "-0.75"),
        (2844.8, "2844.8"),
        (1.000_000_000_4, "1."),
        (0.000_000_001, "0.000000001"),
        (-1_234.567_891_234_9, "-1234.567891235"),
        (1e12, "1000000000000.0"),
    ];
    for (value, expected) in cases {
        let mut text = String::new();
        push(&mut text, value, COORDINATE);
        assert_eq!(text, expected);
    }
    let mut text = String::new();
    push(&mut text, 0.5_f64.sqrt(), DIRECTION);
    assert_eq!(text, "0.707106781187");
}

#[test]
fn runs_of_numbers_are_short() {
    assert_eq!(spans(&[1, 3, 4, 5, 8, 9]), "1, 3\u{2013}5, 8, 9");
    assert_eq!(spans(&[]), "");
}

#[test]
fn nothing_becomes_markup() {
    let mut html = Html::default();
    html.leaf(
        "p",
        &[("title", "\"><b>'&"), ("hidden", "")],
        "</p><b>&\u{0}\u{202e}",
    );
    assert_eq!(
        html.finish(),
        "<p title=\"&quot;&gt;&lt;b&gt;&#39;&amp;\" hidden>&lt;/p&gt;&lt;b&gt;&amp;\u{fffd}\u{fffd}</p>"
    );
}

#[test]
fn strings_of_a_step_file_are_escaped() {
    assert_eq!(quoted("front/stud/3"), "'front/stud/3'");
    assert_eq!(quoted("owner's"), "'owner\\X\\27s'");
    assert_eq!(quoted("a\\b"), "'a\\\\b'");
    assert_eq!(quoted("3½ in"), "'3\\X2\\00BD\\X0\\ in'");
    assert_eq!(quoted("é'ö"), "'\\X2\\00E9\\X0\\''\\X2\\00F6\\X0\\'");
}

/// A square with a triangular opening that touches its outline in corner 0, divided in two ways.
#[test]
fn an_outline_may_touch_an_opening() {
    let at = [(0, 0), (9, 0), (9, 9), (0, 9), (6, 3), (3, 6)];
    let corners = at.map(|(x, y)| DVec3::new(f64::from(x), f64::from(y), 5.0));
    let one = [[0, 1, 4], [1, 2, 4], [4, 2, 5], [2, 3, 5], [3, 0, 5]];
    let other = [[0, 1, 4], [1, 2, 4], [4, 2, 3], [4, 3, 5], [3, 0, 5]];
    let divided = divided_anew(&corners, &one);
    assert_eq!(divided, divided_anew(&corners, &other));
    assert_eq!(border(&divided), border(&one));
    let outlines = outlines(&one, &flattened(&corners, DVec3::Z)).unwrap_or_default();
    assert_eq!(outlines, [vec![0, 1, 2, 3], vec![0, 5, 4]]);
}

/// Two corners nearer to each other than the triangulation library sees.
#[test]
fn corners_may_nearly_meet() {
    let at = [
        (0.0, 0.0),
        (9.0, 0.0),
        (9.0, 4.0),
        (9.0, 4.0 + 1e-9),
        (9.0, 9.0),
    ];
    let corners = at.map(|(x, y)| DVec3::new(x, 5.0, y));
    let face = [[0, 2, 1], [0, 3, 2], [0, 4, 3]];
    let anew = divided_anew(&corners, &face);
    assert_eq!((anew.len(), border(&anew)), (3, border(&face)));
}
