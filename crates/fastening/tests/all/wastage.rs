//! Wastage and years to a limit.

use crate::table_file::assert_close;
use fastening::wastage::{Measured, rate_of_several, wastage};

fn screw(measured_mm: f64) -> Measured {
    Measured { original_mm: 6.0, original_sd_mm: 0.1, measured_mm, measured_sd_mm: 0.1, years: 40.0 }
}

#[test]
fn a_constant_rate_reaches_the_limit_when_it_should() {
    let found = wastage(&screw(5.0), Some(4.0), 0.95).unwrap();
    assert_close(found.rate_mm_per_year.estimate, 1.0 / 40.0, 1e-12, "rate");
    let years = found.years_to_limit.unwrap();
    assert_close(years.estimate, 40.0, 1e-12, "as much again in as long again");
    assert!(years.lower < 40.0 && years.upper > 40.0);
}

/// Fieller's set is by definition the ratios at which (a − ρ b)² = z² var(a − ρ b): put back in, both ends satisfy it.
#[test]
fn both_ends_satisfy_fiellers_equation() {
    let years = wastage(&screw(5.0), Some(4.0), 0.95).unwrap().years_to_limit.unwrap();
    let z = 1.959_963_984_540_054;
    for end in [years.lower / 40.0, years.upper / 40.0] {
        let (a, b) = (1.0, 1.0);
        let variance = 0.01 + 2.0 * end * 0.01 + end * end * 0.02;
        assert_close((a - end * b).powi(2), z * z * variance, 1e-9, "Fieller");
    }
}

#[test]
fn a_loss_within_the_error_bounds_nothing() {
    let found = wastage(&screw(5.95), Some(4.0), 0.95).unwrap();
    let years = found.years_to_limit.unwrap();
    assert!(years.upper.is_infinite() && years.lower > 0.0, "{years:?}");
    assert!(found.cautions.iter().any(|c| c.contains("within the error")));
    let grown = wastage(&screw(6.2), None, 0.95).unwrap();
    assert!(grown.years_to_limit.is_none() && grown.cautions[0].contains("larger than new"));
    let refused = wastage(&screw(7.0), None, 0.95).unwrap_err().to_string();
    assert!(refused.contains("larger than the original"), "{refused}");
    assert!(wastage(&screw(5.0), Some(6.5), 0.95).unwrap_err().to_string().contains("limit"));
    assert!(wastage(&screw(4.0), Some(4.5), 0.95).unwrap().cautions[0].contains("reached or passed"));
}

/// Student's interval for 0.3, 0.5, 0.4, 0.6: mean 0.45, sd 0.12910, t(3, 0.975) = 3.182446: ± 0.205426 (any table of t).
#[test]
fn several_screws_give_students_interval() {
    let (mean, next) = rate_of_several(&[0.3, 0.5, 0.4, 0.6], 1.0, 0.95).unwrap();
    assert_close(mean.estimate, 0.45, 1e-12, "mean");
    assert_close(mean.upper - mean.estimate, 0.205_426, 1e-5, "half width");
    assert!(next.upper > mean.upper);
    assert!(rate_of_several(&[0.3], 1.0, 0.95).is_err());
}
