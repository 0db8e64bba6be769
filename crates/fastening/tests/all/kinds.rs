//! Sizes of fastenings, and the customary screw and bung.

use crate::table_file::assert_close;
use fastening::kinds::{Fastening, LagScrew, Nail, Rivet, Section, Thread, Trenail, WoodScrew};
use fastening::planking_table::{for_plank, gauges_of_bung, read_bung, table};

/// ASME B18.6.1 (public data set) and National Design Specification Appendix L: #10 is 0.190 in in the shank, 0.152 in in the
/// root, 0.363 in in the head, 13 threads to the inch, head from 0.340 to 0.385 in.
#[test]
fn a_number_ten_has_its_published_sizes() {
    let ten = WoodScrew::of_gauge(10, 31.75).unwrap();
    assert_close(ten.shank_mm(), 0.190 * 25.4, 1e-12, "shank");
    assert_close(ten.root_mm(), 0.152 * 25.4, 1e-12, "root");
    assert_close(ten.head_mm(), 0.363 * 25.4, 1e-12, "head");
    assert_close(ten.pitch_mm().unwrap(), 25.4 / 13.0, 1e-12, "pitch");
    let (least, greatest) = ten.head_limits_mm();
    assert_close(least, 0.340 * 25.4, 1e-12, "least head");
    assert_close(greatest, 0.385 * 25.4, 1e-12, "greatest head");
}

/// The head of the National Design Specification is the mean of the limits of ASME B18.6.1, to the thousandth.
#[test]
fn every_head_lies_midway_between_its_limits() {
    for gauge in WoodScrew::gauges() {
        let screw = WoodScrew::of_gauge(gauge, 50.0).unwrap();
        let (least, greatest) = screw.head_limits_mm();
        assert!((screw.head_mm() - (least + greatest) / 2.0).abs() < 0.0011 * 25.4, "#{gauge}");
        assert!(screw.root_low_mm() < screw.root_mm() && screw.root_mm() < screw.shank_mm());
        assert_eq!(WoodScrew::of_shank(screw.shank_mm() + 0.05, 50.0).unwrap().gauge, gauge);
    }
    assert!(!WoodScrew::of_gauge(22, 70.0).unwrap().is_tabled());
    assert!(WoodScrew::of_gauge(40, 70.0).is_err());
}

/// ISO 898-1 prints M20 244.8 mm² and M24 352.5; ASME B1.1 prints 3/4-10 0.334 in² and 1-8 0.606 in².
#[test]
fn threads_have_their_stress_areas() {
    for (name, mm2) in [("M20", 244.8), ("M24", 352.5), ("3/4-10 UNC", 0.334 * 645.16), ("1-8 UNC", 0.606 * 645.16)] {
        assert_close(Thread::named(name).unwrap().stress_area_mm2(), mm2, 2e-3, name);
    }
    assert_eq!(Thread::named("3/4\"").unwrap().name, "3/4-10 UNC");
    assert!(Thread::named("5/4").unwrap_err().to_string().contains("M20"));
    for thread in fastening::kinds::threads() {
        let share = thread.equivalent_shank_mm() / thread.nominal_mm;
        assert!((0.83..0.90).contains(&share), "{}: {share}", thread.name);
    }
}

#[test]
fn square_nails_grip_by_their_perimeter() {
    let nail = Nail::copper(10, 50.0).unwrap();
    assert_close(nail.size_mm, 0.128 * 25.4, 1e-12, "10 gauge, from memory");
    assert_close(nail.equivalent_mm() * std::f64::consts::PI, 4.0 * nail.size_mm, 1e-12, "perimeter");
    assert!(
        Nail::copper(10, 50.0).unwrap().size_mm > Nail::copper(14, 50.0).unwrap().size_mm,
        "higher number, thinner"
    );
    let rivet = Rivet::new(nail, 10.0, 8.0).unwrap();
    assert_close(rivet.tension_n(220.0), 220.0 * nail.size_mm.powi(2), 1e-12, "square section");
    assert!(Rivet::new(nail, 2.0, 8.0).unwrap_err().to_string().contains("not larger than the nail"));
    assert_eq!(Nail::new(3.0, Section::Round, 50.0).unwrap().equivalent_mm(), 3.0);
}

#[test]
fn every_kind_says_its_size_and_how_it_is_drawn() {
    let lag = LagScrew::of_diameter(12.7, 100.0).unwrap();
    let trenail = Trenail { diameter_mm: 32.0, length_mm: 200.0, wedged: true };
    for fastening in [Fastening::LagScrew(lag), Fastening::Trenail(trenail)] {
        assert!(fastening.diameter_mm() > 10.0 && fastening.length_mm() >= 100.0 && !fastening.how_drawn().is_empty());
    }
    assert!(LagScrew::of_diameter(11.9, 100.0).is_err());
}

/// Herreshoff/Nevins rules: 5/8 in plank #10 × 1 1/4, bung 7/16; 1 in #16 × 2, 9/16; 3/8 #6 × 3/4, 5/16.
#[test]
fn a_plank_has_its_customary_screw_and_bung() {
    assert_eq!(table().len(), 13);
    for (plank_in, gauge, length_in, bung_in) in
        [(0.625, 10, 1.25, 7.0 / 16.0), (1.0, 16, 2.0, 9.0 / 16.0), (0.375, 6, 0.75, 5.0 / 16.0)]
    {
        let row = for_plank(plank_in * 25.4 + 0.2).unwrap();
        assert_eq!(row.gauge, gauge);
        assert_close(row.length_mm, length_in * 25.4, 1e-3, "length");
        assert_close(row.bungs_mm[0], bung_in * 25.4, 1e-3, "bung");
    }
    // Length is twice the plank up to 1 1/4 in in that table.
    for row in table().iter().filter(|row| row.plank_mm <= 31.8) {
        assert_close(row.length_mm, 2.0 * row.plank_mm, 1e-3, &row.plank_in);
    }
    assert!(for_plank(100.0).is_err());
}

#[test]
fn a_bung_implies_a_few_gauges_and_no_more() {
    assert_eq!(gauges_of_bung(7.0 / 16.0 * 25.4), [10, 12]);
    assert_eq!(gauges_of_bung(0.75 * 25.4), [22, 24]);
    let large = read_bung(16.0, 22.0).unwrap();
    assert_eq!((large.excess_sixteenths, large.gauges.as_slice()), (2, &[18][..]));
    assert!(large.reading.contains("wants an explanation"));
    let next = read_bung(14.3, 22.0).unwrap();
    assert!(next.excess_sixteenths == 1 && next.reading.contains("proves little"));
    assert_eq!(read_bung(12.7, 22.0).unwrap().excess_sixteenths, 0);
    assert_eq!(read_bung(9.5, 22.0).unwrap().excess_sixteenths, -2);
}
