//! What a test is worth, clear soundings, unseen members.

use evidence::unseen::unseen;
use evidence::verbal;
use evidence::worth::{Choice, worth_of_test};

#[test]
fn a_test_worth_nine_hundredths_worked_by_hand() {
    // P(decayed) 0.30; leaving costs 10, opening 1; sensitivity 0.8, specificity 0.9: worth 0.09 before its own cost.
    let choice =
        Choice { p_decayed: 0.3, loss_if_left: 10.0, loss_of_opening: 1.0, sensitivity: 0.8, specificity: 0.9 };
    let worth = worth_of_test(choice);
    assert!((worth.loss_now - 1.0).abs() < 1e-12);
    assert!((worth.p_after_find - 0.7742).abs() < 5e-5);
    assert!((worth.p_after_clear - 0.08696).abs() < 5e-6);
    assert!((worth.worth - 0.09).abs() < 1e-12);
    assert!((worth.worth_of_certainty - 0.7).abs() < 1e-12);
}

#[test]
fn a_clear_sounding_does_not_clear() {
    // Prior 0.10, sensitivity 0.40, no false alarms: 0.06/0.96 = 0.0625.
    let choice =
        Choice { p_decayed: 0.1, loss_if_left: 10.0, loss_of_opening: 1.0, sensitivity: 0.4, specificity: 1.0 };
    assert!((worth_of_test(choice).p_after_clear - 0.0625).abs() < 1e-12);
}

#[test]
fn unseen_members_agree_with_scipy() {
    for line in include_str!("../reference/unseen.csv").lines().skip(2) {
        let f: Vec<f64> = line.split(',').map(|cell| cell.parse().expect("a figure")).collect();
        let ours = unseen(f[0] as u32, f[1] as u32);
        assert!((ours.low - f[2]).abs() < 1e-9, "{line}: {ours:?}");
        assert!((ours.high - f[3]).abs() < 1e-9, "{line}: {ours:?}");
    }
}

#[test]
fn probabilities_in_words() {
    // IPCC AR4 WG II front matter F, the middle of each range.
    for (p, words) in [
        (0.995, "virtually certain"),
        (0.945, "very likely"),
        (0.78, "likely"),
        (0.495, "about as likely as not"),
        (0.215, "unlikely"),
        (0.055, "very unlikely"),
        (0.005, "exceptionally unlikely"),
    ] {
        assert_eq!(verbal(p), words);
    }
}
