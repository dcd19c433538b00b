//! The numbers of a finding as people read them: rounded to the safe side.

use chasewright::check::{Numbers, Quantity, Sense};
use chasewright::export::Texts;
use chasewright::units::{Length, TapeUnit};

fn texts(numbers: Numbers) -> [String; 3] {
    let Texts {
        measured,
        required,
        margin,
    } = Texts::new(&numbers, TapeUnit::Inch);
    [measured, required, margin]
}

/// By hand, in sixteenths: 0.546 in lies between 8 and 9, 0.26 between 4 and 5, and 0.286 that is missing between
/// 4 and 5.
#[test]
fn a_limit_that_is_a_most_rounds_the_other_way() {
    let [large, small] = [0.546, 0.26].map(Length::inches);
    assert_eq!(
        texts(Numbers::at_most(large, small)),
        ["9/16\"", "1/4\"", "-5/16\""]
    );
    assert_eq!(
        texts(Numbers::at_most(small, large)),
        ["5/16\"", "1/2\"", "1/4\""]
    );
    assert_eq!(
        texts(Numbers::at_least(large, small)),
        ["1/2\"", "5/16\"", "1/4\""]
    );
    assert_eq!(
        texts(Numbers::at_least(small, large)),
        ["1/4\"", "9/16\"", "-5/16\""]
    );
    // what must not occur at all
    let found = Numbers::none(Quantity::Length, small.to_mm());
    assert_eq!(texts(found), ["5/16\"", "0\"", "-5/16\""]);
}

/// A weight of 15.004 lb/ft² is over 15, and says so; whole hundredths stay what they are.
#[test]
fn what_is_no_length_rounds_alike() {
    let weight = |sense, measured| {
        let numbers = Numbers::new(Quantity::AreaWeight, sense, measured, 15.0);
        texts(numbers).map(|it| it.replace(" lb/ft2", ""))
    };
    assert_eq!(weight(Sense::AtMost, 15.004), ["15.01", "15.00", "-0.01"]);
    assert_eq!(weight(Sense::AtMost, 14.996), ["15.00", "15.00", "0.00"]);
    assert_eq!(weight(Sense::AtLeast, 14.996), ["14.99", "15.00", "-0.01"]);
    assert_eq!(weight(Sense::AtMost, 0.29), ["0.29", "15.00", "14.71"]);
    let flow = Numbers::new(Quantity::Count, Sense::AtMost, 3.0, 2.0);
    assert_eq!(texts(flow), ["3", "2", "-1"]);
}
