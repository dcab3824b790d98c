use super::*;

const THIRD: f64 = 1.0 / 3.0;

/// What cooks write, and what they mean.
const READ: &[(&str, f64, f64)] = &[
    ("2", 2.0, 2.0),
    ("12", 12.0, 12.0),
    ("1/2", 0.5, 0.5),
    ("1 1/2", 1.5, 1.5),
    ("1½", 1.5, 1.5),
    ("1 ½", 1.5, 1.5),
    ("1-1/2", 1.5, 1.5),
    ("1–1/2", 1.5, 1.5),
    ("1-½", 1.5, 1.5),
    ("1\u{a0}1/2", 1.5, 1.5),
    ("1⁄2", 0.5, 0.5),
    ("1 1⁄2", 1.5, 1.5),
    ("1¹⁄₂", 1.5, 1.5),
    ("⅟3", THIRD, THIRD),
    ("⅓", THIRD, THIRD),
    ("2⅔", 2.0 + 2.0 * THIRD, 2.0 + 2.0 * THIRD),
    ("2 and 1/2", 2.5, 2.5),
    ("2 & ½", 2.5, 2.5),
    ("3/2", 1.5, 1.5),
    ("15/16", 0.9375, 0.9375),
    ("1.5", 1.5, 1.5),
    (".5", 0.5, 0.5),
    ("1,5", 1.5, 1.5),
    ("0,75", 0.75, 0.75),
    ("0,125", 0.125, 0.125),
    ("1,000", 1000.0, 1000.0),
    ("12,500", 12500.0, 12500.0),
    ("1,250.5", 1250.5, 1250.5),
    ("1.250,5", 1250.5, 1250.5),
    ("1\u{202f}000", 1000.0, 1000.0),
    ("1\u{a0}500", 1500.0, 1500.0),
    ("2-3", 2.0, 3.0),
    ("2 - 3", 2.0, 3.0),
    ("2–3", 2.0, 3.0),
    ("2 to 3", 2.0, 3.0),
    ("2- to 3", 2.0, 3.0),
    ("2-to-3", 2.0, 3.0),
    ("2 or 3", 2.0, 3.0),
    ("between 2 and 3", 2.0, 3.0),
    ("1/2-3/4", 0.5, 0.75),
    ("1-1½", 1.0, 1.5),
    ("1½-2", 1.5, 2.0),
    ("1-1/2-2", 1.5, 2.0),
    ("1 1/2 to 2 1/2", 1.5, 2.5),
    ("2-2 1/2", 2.0, 2.5),
    ("0-1/2", 0.0, 0.5),
    ("1.5–2.5", 1.5, 2.5),
    ("up to 3", 0.0, 3.0),
    ("no more than 3", 0.0, 3.0),
    ("a", 1.0, 1.0),
    ("An", 1.0, 1.0),
    ("one", 1.0, 1.0),
    ("Twenty", 20.0, 20.0),
    ("twenty-five", 25.0, 25.0),
    ("one or two", 1.0, 2.0),
    ("two to three", 2.0, 3.0),
    ("half", 0.5, 0.5),
    ("half a", 0.5, 0.5),
    ("half an", 0.5, 0.5),
    ("a half", 0.5, 0.5),
    ("one half", 0.5, 0.5),
    ("½ a", 0.5, 0.5),
    ("one and a half", 1.5, 1.5),
    ("two and three quarters", 2.75, 2.75),
    ("three quarters", 0.75, 0.75),
    ("three-quarters", 0.75, 0.75),
    ("two thirds", 2.0 * THIRD, 2.0 * THIRD),
    ("a quarter of an", 0.25, 0.25),
    ("a dozen", 12.0, 12.0),
    ("dozen", 12.0, 12.0),
    ("two dozen", 24.0, 24.0),
    ("1 1/2 dozen", 18.0, 18.0),
    ("half a dozen", 6.0, 6.0),
    ("half-dozen", 6.0, 6.0),
    ("a baker’s dozen", 13.0, 13.0),
    ("a couple of", 2.0, 2.0),
    ("-18", -18.0, -18.0),
    ("−18", -18.0, -18.0),
    ("0 to 2", 0.0, 2.0),
];

#[test]
fn reads_what_cooks_write() {
    for (text, least, most) in READ {
        let read = read_number(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        let close = |one: f64, other: f64| (one - other).abs() < 1e-12;
        assert!(close(read.least, *least) && read.most.is_some_and(|read| close(read, *most)), "{text}: {read:?}");
    }
}

#[test]
fn reads_an_open_end() {
    for text in ["at least 2", "2+", "no less than two"] {
        assert_eq!(read_number(text), Ok(Interval::at_least(2.0)), "{text}");
    }
}

#[test]
fn says_what_is_wrong() {
    let table = [
        ("1/2/3", NumberFault::Malformed),
        ("1.2.3", NumberFault::Malformed),
        ("1..2", NumberFault::Malformed),
        ("1,", NumberFault::Malformed),
        ("1,00,000", NumberFault::Malformed),
        ("1 3/2", NumberFault::Malformed),
        ("1/", NumberFault::Malformed),
        ("/2", NumberFault::Malformed),
        ("2-", NumberFault::Malformed),
        ("2 3", NumberFault::Malformed),
        ("", NumberFault::Malformed),
        ("some", NumberFault::Malformed),
        ("3/0", NumberFault::ZeroDenominator),
        ("1 1/0", NumberFault::ZeroDenominator),
        ("6-4", NumberFault::Reversed { low: 4.0, high: 6.0 }),
        ("45 to 35", NumberFault::Reversed { low: 35.0, high: 45.0 }),
        ("0", NumberFault::Zero),
        ("0.0", NumberFault::Zero),
        ("11/2", NumberFault::RunTogether { written: 5.5, meant: 1.5 }),
        ("21/4", NumberFault::RunTogether { written: 5.25, meant: 2.25 }),
    ];
    for (text, fault) in table {
        assert_eq!(read_number(text), Err(fault), "{text}");
    }
}

#[test]
fn guesses_what_was_meant() {
    let meant = |text| read_number(text).err().and_then(|fault| fault.meant());
    assert_eq!(meant("6-4"), Some(Interval::between(4.0, 6.0)));
    assert_eq!(meant("11/2"), Some(Interval::exactly(1.5)));
    assert_eq!(meant("0"), Some(Interval::exactly(0.0)));
    assert_eq!(meant("3/0"), None);
}
