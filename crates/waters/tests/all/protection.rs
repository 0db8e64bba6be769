//! Protection and fresh-water treatment.

use waters::areas::find;
use waters::borers::activity;
use waters::fresh_water::{hauled_out, treatment};
use waters::protection::{Protection, of_wood, read};

#[test]
fn a_whole_barrier_leaves_a_range_and_a_broken_one_none() {
    let shipworm = &activity(&find("Key West").unwrap().year())[0];
    let whole = read(shipworm, Protection::CopperIntact, None).unwrap();
    assert_eq!((whole.share_low, whole.share_high), (0.0, 1.0));
    let broken = read(shipworm, Protection::SheathingBroken, None).unwrap();
    assert_eq!((broken.share_low, broken.share_high), (1.0, 1.0));
    let entered = read(shipworm, Protection::SheathingIntact, Some(20.0)).unwrap();
    assert_eq!((entered.share_low, entered.share_high), (0.2, 0.2));
    // A chance entered does not mend what is broken.
    assert_eq!(read(shipworm, Protection::CopperBroken, Some(5.0)).unwrap().share_low, 1.0);
    assert!(read(shipworm, Protection::None, Some(150.0)).is_err());
    assert_eq!(whole.exposure, "nearly all the year");
}

#[test]
fn every_word_has_its_protection() {
    for word in Protection::WORDS {
        assert!(Protection::from_word(word).is_some(), "{word}");
    }
    assert!(Protection::from_word("hope").is_none());
    assert!(of_wood("greenheart").unwrap().contains("not safe"));
    assert!(of_wood("sapele").is_none());
}

/// Eltringham (1961): 6 psu killed gribble in 15 to 20 days.
#[test]
fn fresh_water_takes_weeks() {
    assert!(treatment(6.0, 3.0).unwrap().gribble.contains("Too short"));
    assert!(treatment(6.0, 16.0).unwrap().gribble.contains("may be dead"));
    assert!(treatment(0.0, 25.0).unwrap().gribble.contains("should be dead"));
    assert!(treatment(20.0, 300.0).unwrap().gribble.contains("bores on"));
    assert!(treatment(0.0, 2.0).unwrap().shipworm.contains("proves nothing"));
    assert!(treatment(-1.0, 2.0).is_err() && treatment(0.0, f64::NAN).is_err());
    assert!(hauled_out().contains("damage stays"));
}
