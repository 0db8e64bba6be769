//! Sea areas and own monthly series.

use waters::areas::{find, table};
use waters::year::Year;

#[test]
fn every_area_of_the_file_is_in_the_table_and_found_by_name() {
    assert_eq!(table().len(), include_str!("../../data/sea-areas.csv").lines().count() - 1);
    for area in table() {
        assert_eq!(find(area.name).unwrap().name, area.name);
        assert!(
            area.salinity_psu >= 0.0
                && area.salinity_psu < 45.0
                && area.temp_c.iter().all(|t| (-3.0..40.0).contains(t))
        );
    }
    assert_eq!(find("kattegat").unwrap().region, "Skagerrak-Kattegat");
    assert_eq!(find("den helder").unwrap().region, "North Sea");
}

#[test]
fn an_unknown_area_gives_the_nearest() {
    assert!(find("Plymoth").unwrap_err().to_string().contains("Plymouth"));
    assert!(find("Gulf").unwrap_err().to_string().contains("Gulf of"));
    for bad in ["", "\u{0}", "Atlantis beneath the waves, somewhere or other beyond all charts"] {
        assert!(!find(bad).unwrap_err().to_string().contains('\n'));
    }
}

const YEAR: &str = "month,temp_c,salinity_psu\n1,4,20\n2,3,20\n3,3,20\n4,5,19\n5,10,18\n6,14,18\n7,17,18\n8,17,19\n9,15,20\n10,12,20\n11,8,21\n12,6,21\n";

#[test]
fn an_own_series_is_read_or_refused_in_one_sentence() {
    let year = Year::from_csv(YEAR).unwrap();
    assert_eq!((year.temp_c[6], year.salinity_psu[11]), (17.0, 21.0));
    let eleven = YEAR.rsplitn(3, '\n').nth(2).unwrap().to_owned();
    for (text, word) in [
        (eleven, "11 months, not 12"),
        (YEAR.replace("salinity_psu", "salt"), "header lacks salinity_psu"),
        (YEAR.replace("\n1,4,20", "\n1,4,350"), "line 2"),
        (YEAR.replace("\n3,", "\n2,"), "twice"),
        (YEAR.replace("\n3,", "\nmarch,"), "'march' is not a month"),
        (String::new(), "header lacks"),
    ] {
        let message = Year::from_csv(&text).unwrap_err().to_string();
        assert!(
            message.contains(word) && !message.contains('\n') && message.contains("accepted is"),
            "{word}: {message}"
        );
    }
    assert!(year.with_salinity(-1.0).is_err());
}
