//! The yard's list, read back by readers that are not ours: `calamine` for the workbook, `csv` for the table.

use crate::book::{HOSTILE, small};
use calamine::{Data, DataType as _, Reader as _, Xlsx};
use faircopy::sheet::{csv, xlsx};
use faircopy::{Extras, Standing, yard_list};
use std::io::Cursor;

fn made() -> jiff::civil::DateTime {
    jiff::civil::date(2026, 6, 5).at(9, 30, 0, 0)
}

#[test]
fn the_workbook_holds_the_work_by_place() {
    let list = yard_list(&small(), &Extras::default());
    let bytes = xlsx(&list, made()).expect("writes");
    assert_eq!(bytes, xlsx(&list, made()).expect("writes"), "the same list gives the same bytes");
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("reads");
    let names = book.sheet_names();
    assert_eq!(names, ["Work by place", "The whole", "Ways of doing it", "About this list"]);
    let work = book.worksheet_range("Work by place").expect("reads");
    let head: Vec<String> = work.rows().next().expect("a head").iter().map(ToString::to_string).collect();
    let column = |title: &str| head.iter().position(|cell| cell == title).expect(title);
    let rows: Vec<&[Data]> = work.rows().skip(1).collect();
    assert_eq!(rows.len(), list.rows.len());
    // Two lines of the garboard, one of the bolts, the work without a price, and the line without a place at the end.
    let places: Vec<String> = rows.iter().map(|row| row[column("Member")].to_string()).collect();
    assert_eq!(places.iter().filter(|place| place.starts_with("Garboard")).count(), 2, "{places:?}");
    let plank = rows.iter().find(|row| row[column("To be priced")] == "plank, got out and fitted").expect("the plank");
    for (title, figure) in [("Quantity", 3.2), ("Low", 1000.0), ("Likely", 2000.0), ("High", 6000.0)] {
        assert_eq!(plank[column(title)], Data::Float(figure), "{title}");
    }
    assert_eq!(plank[column("Unit")], "m");
    assert_eq!(plank[column("Currency")], "EUR");
    assert_eq!(plank[column("When")], "before she floats");
    assert!(plank[column("Place")].to_string().contains("frames 6 to 9"), "{:?}", plank[column("Place")]);
    let watch = rows.iter().find(|row| row[column("What is to be done")] == "Measure again.").expect("the watch");
    // 1 May 2027 is day 46508 of the format's count from 1900 (checked with Python: (date(2027,5,1)-date(1899,12,30)).days).
    let Data::DateTime(day) = &watch[column("No later than")] else { panic!("a day") };
    assert_eq!(day.as_f64(), 46_508.0);
    let haul = rows.last().expect("a last row");
    assert_eq!(haul[column("To be priced")], "haul out");
    assert_eq!(haul[column("Member")], Data::Empty);

    let whole = book.worksheet_range("The whole").expect("reads");
    let sums: Vec<Option<f64>> = whole.rows().nth(1).expect("one currency")[1..4].iter().map(|c| c.as_f64()).collect();
    assert_eq!(sums, [Some(2_900.0), Some(5_450.0), Some(15_600.0)]);
    let formulas = book.worksheet_formula("The whole").expect("reads");
    assert!(formulas.rows().flatten().any(|formula| formula.contains("SUMIFS")), "sums follow what the yard changes");
    // Nothing from the record is run as a formula.
    let formulas = book.worksheet_formula("Work by place").expect("reads");
    assert!(formulas.rows().flatten().all(String::is_empty));
}

#[test]
fn the_table_says_the_same_as_the_workbook() {
    let list = yard_list(&small(), &Extras::default());
    let bytes = csv(&list).expect("writes");
    let text = std::str::from_utf8(&bytes).expect("UTF-8");
    assert!(text.starts_with('\u{feff}') && text.ends_with("\r\n"));
    let mut reader = ::csv::Reader::from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let head: Vec<String> = reader.headers().expect("a head").iter().map(str::to_owned).collect();
    let rows: Vec<::csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    assert_eq!(rows.len(), list.rows.len());
    let column = |name: &str| head.iter().position(|cell| cell == name).expect("a column");
    let sum: f64 = rows.iter().filter_map(|row| row[column("likely")].parse::<f64>().ok()).sum();
    assert!((sum - 5_450.0).abs() < 1e-9);
    let hostile = rows.iter().find(|row| row[column("by")] == *"2027-05-01").expect("the watch");
    assert_eq!(hostile[column("work")], format!("'{HOSTILE}"), "a formula is not run");
    assert_eq!(&hostile[column("urgency")], "watch: measure again on 1 May 2027");
}

#[test]
fn an_empty_survey_has_an_empty_list() {
    let state = survey::State::fold(survey::SurveyId::from_bits(1), []);
    let list = yard_list(&state, &Extras { standing: Standing::Draft, ..Extras::default() });
    assert!(list.rows.is_empty() && list.totals.is_empty());
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(xlsx(&list, made()).expect("writes"))).expect("reads");
    assert_eq!(book.worksheet_range("Work by place").expect("reads").rows().count(), 1);
    assert_eq!(csv(&list).expect("writes").iter().filter(|b| **b == b'\n').count(), 1);
}
