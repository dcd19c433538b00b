//! Tape text: what is read, what is written, and how faults in it are told.

use chasewright::units::{Angle, Length, Marks, Rounding, Slope, TapeUnit, parse_number};
use proptest::prelude::*;

use crate::support::assert_near;

/// A double is this near to the number it stands for.
const LAST_DIGIT: f64 = 1e-12;

#[track_caller]
fn length(text: &str) -> f64 {
    Length::parse(text, TapeUnit::Inch).unwrap().to_mm()
}

#[test]
fn inch_and_foot_are_exact() {
    // NIST SP 811 (2008), appendix B.8: 1 in = 2.54 E-02 m exactly, 1 ft = 3.048 E-01 m exactly.
    for text in [
        "1 in",
        "1\"",
        "1 inch",
        "1\u{2033}",
        "1\u{201d}",
        "1",
        "1.0 in",
        "1/1 in",
    ] {
        assert_eq!(length(text).to_bits(), 25.4_f64.to_bits(), "{text}");
    }
    for text in [
        "1 ft",
        "1'",
        "12 in",
        "1\u{2032}",
        "1 foot",
        "1\u{2019}",
        "1' 0\"",
    ] {
        assert_eq!(length(text).to_bits(), 304.8_f64.to_bits(), "{text}");
    }
    // NIST SP 811 (2008), table 5: milli 10^-3, centi 10^-2.
    for text in ["1 m", "100 cm", "1000 mm", "1.000 m", "1000mm"] {
        assert_eq!(length(text).to_bits(), 1000.0_f64.to_bits(), "{text}");
    }
}

#[test]
fn fractions_are_converted_once() {
    // 25.4/64 = 0.396875, written out by hand; every 64th is that many of it.
    for count in 1..64_u32 {
        let exact = f64::from(count) * 396_875.0 / 1_000_000.0;
        assert_eq!(
            length(&format!("{count}/64 in")).to_bits(),
            exact.to_bits(),
            "{count}/64"
        );
    }
    for count in 0..20_000_u32 {
        let text = format!("{} {}/64 in", count / 64, count % 64);
        assert_eq!(
            Length::parse(&text, TapeUnit::Inch),
            Ok(Length::inches(f64::from(count) / 64.0)),
            "{text}"
        );
    }
    // A third of an inch is 127/15 mm.
    assert_eq!(length("1/3 in").to_bits(), (127.0_f64 / 15.0).to_bits());
}

#[test]
fn lengths_as_a_tape_reads_them() {
    // Worked by hand: 9 ft 4-1/2 in = 112.5 in = 2857.5 mm.
    let same = [
        "9' 4-1/2\"",
        "9'-4 1/2\"",
        "9'4-1/2\"",
        "9 ft 4.5 in",
        "112 1/2 in",
        "112-1/2\"",
        "112.5",
        "225/2 in",
        "  9' 4-1/2\"  ",
        "9\u{2032} 4-1/2\u{2033}",
        "9' - 4 - 1/2 \"",
        "2857.5 mm",
        "285.75 cm",
        "2.8575 m",
        "9\u{2019} 4\u{2013}1/2\u{201d}",
        "+112 1/2 inches",
    ];
    for text in same {
        assert_near(length(text), 2857.5, LAST_DIGIT);
    }
    assert_near(length("-1/2 in"), -12.7, LAST_DIGIT);
    assert_near(length("\u{2212}1/2 in"), -12.7, LAST_DIGIT);
    assert_eq!(
        length("-0").to_bits(),
        0.0_f64.to_bits(),
        "no negative zero"
    );
    let bare = Length::parse("450", TapeUnit::Millimeter).unwrap();
    assert_near(bare.to_mm(), 450.0, 0.0);
}

#[test]
fn faults_name_the_column() {
    let cases = [
        ("", 1, "the end", "a number"),
        ("wide", 1, "`wide`", "a number"),
        ("9' 4x\"", 5, "`x\"`", "ft, in, mm, cm or m"),
        ("9' 4", 5, "the end", "the inch mark, \" or in"),
        ("9' 14\"", 4, "`14\"`", "fewer than 12 inches after feet"),
        ("9'-", 4, "the end", "a number"),
        ("9' 4 mm", 6, "`mm`", "the inch mark, \" or in"),
        ("9.5' 4\"", 6, "`4\"`", "whole feet before inches"),
        ("28,5 in", 3, "`,5`", "ft, in, mm, cm or m"),
        (
            "28 5/4 in",
            4,
            "`5/4`",
            "a fraction below 1 after the whole number",
        ),
        ("1/0 in", 3, "`0`", "a lower half above 0"),
        ("1/ in", 3, "`in`", "the lower half of a fraction"),
        ("3. in", 3, "`in`", "decimals"),
        ("5 min", 3, "`min`", "ft, in, mm, cm or m"),
        ("5 in 3", 6, "`3`", "nothing more"),
        ("\u{2032}5", 1, "`\u{2032}5`", "a number"),
        (
            "1234567 mm",
            1,
            "`1234567`",
            "at most 6 digits before and 6 after the point",
        ),
        ("nan", 1, "`nan`", "a number"),
        ("1e3", 2, "`e3`", "ft, in, mm, cm or m"),
    ];
    for (text, column, found, expected) in cases {
        let error = Length::parse(text, TapeUnit::Inch).unwrap_err();
        let told = (error.column, error.found.as_str(), error.expected);
        assert_eq!(told, (column, found, expected), "{text}");
    }
}

#[test]
fn slopes_in_every_writing() {
    let ratio = |text: &str| Slope::parse(text).unwrap().to_ratio();
    assert_near(ratio("3-1/2:12"), 3.5 / 12.0, LAST_DIGIT);
    assert_near(ratio("4 in 12"), 1.0 / 3.0, LAST_DIGIT);
    assert_near(ratio("-1/4:12"), -1.0 / 48.0, LAST_DIGIT);
    assert_near(ratio("2 %"), 0.02, LAST_DIGIT);
    assert_near(ratio("12:12"), 1.0, LAST_DIGIT);
    assert_near(ratio("45 deg"), 1.0, LAST_DIGIT);
    assert_near(ratio("0"), 0.0, 0.0);
    // tan 30° = 1/√3, the half equilateral triangle.
    assert_near(ratio("30\u{b0}"), 1.0 / 3.0_f64.sqrt(), LAST_DIGIT);
    // Common table of roof pitches (common practice, no source; recomputed as arctan): 4 in 12 is 18.43°, 8 in 12 33.69°.
    for (text, degrees) in [("4:12", 18.43), ("8:12", 33.69), ("12:12", 45.0)] {
        assert_near(
            Slope::parse(text).unwrap().angle().to_degrees(),
            degrees,
            0.005,
        );
    }
    for text in [
        "3.5", "3-1/2:", "3:0", "90 deg", "two %", "3:12:4", "12 in", "",
    ] {
        assert!(Slope::parse(text).is_err(), "{text}");
    }
}

#[test]
fn plain_numbers() {
    assert_near(parse_number("1-1/4").unwrap(), 1.25, 0.0);
    assert_near(parse_number("0.9").unwrap(), 0.9, 0.0);
    assert!(
        parse_number("1-1/4 in").is_err(),
        "a unit is no part of a number"
    );
}

#[test]
fn tape_text_of_both_kinds() {
    let inches = |value: f64| Length::inches(value);
    let inch = |value: f64| inches(value).tape(TapeUnit::Inch, Rounding::Nearest);
    assert_eq!(inch(118.4375), "118-7/16\"");
    assert_eq!(inch(0.5), "1/2\"");
    assert_eq!(inch(-3.25), "-3-1/4\"");
    assert_eq!(inch(0.0), "0\"");
    assert_eq!(inch(-0.001), "0\"");
    // The last mark below 12 ft, and 12 ft.
    assert_eq!(inch(143.9375), "143-15/16\"");
    assert_eq!(inch(144.0), "12'-0\"");
    assert_eq!(inch(144.5), "12'-0 1/2\"");
    let feet = |value: f64| inches(value).feet_inches(Marks::Sixteenths, Rounding::Nearest);
    assert_eq!(feet(118.4375), "9'-10 7/16\"");
    assert_eq!(feet(0.0625), "0'-0 1/16\"");
    assert_eq!(feet(-13.0), "-1'-1\"");
    let metric = Length::mm(2850.04);
    assert_eq!(
        metric.tape(TapeUnit::Millimeter, Rounding::Nearest),
        "2850 mm"
    );
    assert_eq!(
        metric.tape_on(Marks::TenthMillimeters, Rounding::Up),
        "2850.1 mm"
    );
    assert_eq!(
        Length::mm(-0.25).tape_on(Marks::TenthMillimeters, Rounding::Down),
        "-0.3 mm"
    );
}

#[test]
fn what_no_tape_shows_is_not_shown_as_a_length() {
    for mm in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(
            Length::mm(mm).tape(TapeUnit::Inch, Rounding::Down),
            "no length"
        );
    }
    assert!(
        Length::mm(f64::MAX)
            .tape(TapeUnit::Inch, Rounding::Up)
            .ends_with('"')
    );
}

#[test]
fn rounding_has_a_direction() {
    let tape = |mm: f64, rounding| Length::mm(mm).tape(TapeUnit::Inch, rounding);
    let eighth = 25.4 / 8.0;
    // A value a hair off a mark is that mark; one that is really off is not.
    for off in [-1e-7, 0.0, 1e-7] {
        for rounding in [Rounding::Down, Rounding::Up, Rounding::Nearest] {
            assert_eq!(tape(eighth + off, rounding), "1/8\"", "{off}");
        }
    }
    assert_eq!(tape(eighth + 1e-4, Rounding::Up), "3/16\"");
    assert_eq!(tape(eighth - 1e-4, Rounding::Down), "1/16\"");
    assert_eq!(tape(eighth + 1e-4, Rounding::Down), "1/8\"");
    // A margin below zero is rounded down, away from zero.
    assert_eq!(tape(-eighth - 1e-4, Rounding::Down), "-3/16\"");
    assert_eq!(tape(-eighth - 1e-4, Rounding::Up), "-1/8\"");
}

#[test]
fn slope_text_is_what_was_meant() {
    for text in ["3-1/2:12", "-1/4:12", "12:12", "0", "2 %", "-1.5 %"] {
        assert_eq!(Slope::parse(text).unwrap().text(), text);
    }
    assert_eq!(Slope::parse("12 deg").unwrap().text(), "12.000\u{b0}");
}

proptest! {
    #[test]
    fn sixty_fourths_come_back(count in -2_000_000_i32..2_000_000) {
        let exact = Length::mm(f64::from(count) * 127.0 / 320.0);
        for rounding in [Rounding::Down, Rounding::Up, Rounding::Nearest] {
            for text in [
                exact.tape_on(Marks::SixtyFourths, rounding),
                exact.feet_inches(Marks::SixtyFourths, rounding),
            ] {
                let read = Length::parse(&text, TapeUnit::Millimeter).unwrap();
                prop_assert_eq!(read, exact, "{}", text);
            }
        }
    }

    #[test]
    fn millimeters_come_back(count in -900_000_i32..900_000) {
        let exact = Length::mm(f64::from(count));
        let text = exact.tape(TapeUnit::Millimeter, Rounding::Nearest);
        prop_assert_eq!(Length::parse(&text, TapeUnit::Inch).unwrap(), exact, "{}", text);
    }

    #[test]
    fn rounded_text_is_within_a_mark(mm in -50_000.0..50_000.0_f64) {
        let exact = Length::mm(mm);
        for marks in [Marks::Sixteenths, Marks::ThirtySeconds, Marks::SixtyFourths, Marks::Millimeters, Marks::TenthMillimeters] {
            let read = |rounding| Length::parse(&exact.tape_on(marks, rounding), TapeUnit::Inch).unwrap().to_mm();
            let (down, up) = (read(Rounding::Down), read(Rounding::Up));
            prop_assert!(down <= mm + 1e-6 && mm <= up + 1e-6, "{down} {mm} {up}");
            prop_assert!(up - down <= 25.4 / 16.0 + 1e-6, "{down} {up}");
            let nearest = read(Rounding::Nearest);
            prop_assert!((nearest - mm).abs() <= (up - down) / 2.0 + 1e-6, "{nearest} {mm}");
        }
    }

    #[test]
    fn no_text_is_too_odd(text in "[-0-9 .,/'\"\u{2032}\u{2033}:%a-z\u{b0}]{0,24}|\\PC{0,24}") {
        for unit in [TapeUnit::Inch, TapeUnit::Millimeter] {
            match Length::parse(&text, unit) {
                Ok(length) => prop_assert!(length.to_mm().is_finite()),
                Err(error) => {
                    prop_assert!(text.is_char_boundary(error.offset), "{error}");
                    prop_assert_eq!(text[..error.offset].chars().count() + 1, error.column);
                }
            }
        }
        if let Ok(slope) = Slope::parse(&text) {
            prop_assert!(slope.to_ratio().is_finite());
        }
    }
}

/// A slope that was read is told in the roofer's way too: tan 16.028° is 0.28727, so 3.447 in 12 (arithmetic).
#[test]
fn a_slope_that_was_read_is_told_in_twelve() {
    let told = |degrees: f64| Slope::from_angle(Angle::degrees(degrees)).in_twelve();
    assert_eq!(told(16.028), "3-7/16:12 (16.028\u{b0})");
    assert_eq!(told(-16.028), "-3-7/16:12 (-16.028\u{b0})");
    assert_eq!(told(0.1), "level (0.100\u{b0})");
    assert_eq!(Slope::ratio(0.25).in_twelve(), "3:12");
    assert_eq!(Slope::LEVEL.in_twelve(), "level");
}
