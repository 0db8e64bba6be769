//! The workbook: the work by place, the whole, the rival ways, and what the list rests on.

use super::SheetFault;
use super::columns::{COLUMNS, Cell, at};
use crate::YardList;
use jiff::civil::{Date, DateTime};
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook, Worksheet, XlsxError,
};

/// The most letters that a cell may hold, by the format's own limit of 32,767.
const MOST_LETTERS: usize = 32_000;
const WORK: &str = "Work by place";

/// Writes the list as an XLSX workbook to price in: a column is left for the yard's price, with sums that follow it.
/// The same list and time give the same bytes.
///
/// # Errors
/// [`SheetFault::Workbook`] when the writer refuses.
pub fn xlsx(list: &YardList, made: DateTime) -> Result<Vec<u8>, SheetFault> {
    write(list, made).map_err(|why| SheetFault::Workbook(why.to_string()))
}

fn write(list: &YardList, made: DateTime) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let boat = list.about.iter().find(|row| row.label == "Boat").map_or("", |row| row.value.as_str());
    let title = if boat.is_empty() { "Work by place".to_owned() } else { format!("{boat}: work by place") };
    let properties = DocProperties::new().set_title(cut(&title)).set_company("").set_creation_datetime(&moment(made)?);
    workbook.set_properties(&properties);
    work(workbook.add_worksheet(), list)?;
    whole(workbook.add_worksheet(), list)?;
    if !list.ways.is_empty() {
        ways(workbook.add_worksheet(), list)?;
    }
    about(workbook.add_worksheet(), list)?;
    workbook.save_to_buffer()
}

fn moment(made: DateTime) -> Result<ExcelDateTime, XlsxError> {
    let n = |number: i8| u8::try_from(number).unwrap_or(0);
    ExcelDateTime::from_ymd(u16::try_from(made.year()).unwrap_or(1900), n(made.month()), n(made.day()))?.and_hms(
        u16::from(n(made.hour())),
        n(made.minute()),
        f64::from(made.second()),
    )
}

fn head() -> Format {
    Format::new().set_bold().set_text_wrap().set_align(FormatAlign::Top).set_border_bottom(FormatBorder::Thin)
}

fn body() -> Format {
    Format::new().set_text_wrap().set_align(FormatAlign::Top)
}

fn work(sheet: &mut Worksheet, list: &YardList) -> Result<(), XlsxError> {
    sheet.set_name(WORK)?;
    let (head, body) = (head(), body());
    let money = body.clone().set_num_format("#,##0");
    let day = body.clone().set_num_format("yyyy-mm-dd");
    let price = column_after_last();
    for (column, shown) in (0_u16..).zip(&COLUMNS) {
        sheet.set_column_width(column, shown.width)?;
        sheet.write_string_with_format(0, column, shown.title, &head)?;
    }
    sheet.set_column_width(price, 14)?;
    sheet.write_string_with_format(0, price, "Yard's price", &head)?;
    sheet.set_column_width(price + 1, 30)?;
    sheet.write_string_with_format(0, price + 1, "Yard's remarks", &head)?;
    for (line, row) in (1_u32..).zip(&list.rows) {
        for (column, shown) in (0_u16..).zip(&COLUMNS) {
            match (shown.cell)(row) {
                Cell::Words(words) if words.is_empty() => sheet.write_blank(line, column, &body)?,
                Cell::Words(words) => sheet.write_string_with_format(line, column, cut(&words), &body)?,
                Cell::Figure(Some(figure)) => sheet.write_number_with_format(line, column, figure, &body)?,
                Cell::Money(Some(figure)) => sheet.write_number_with_format(line, column, figure, &money)?,
                Cell::Day(text) => match text.parse::<Date>().ok().map(|d| moment(d.at(0, 0, 0, 0))) {
                    Some(Ok(date)) => sheet.write_datetime_with_format(line, column, &date, &day)?,
                    _ => sheet.write_blank(line, column, &body)?,
                },
                Cell::Figure(None) | Cell::Money(None) => sheet.write_blank(line, column, &body)?,
            };
        }
        sheet.write_blank(line, price, &money)?;
        sheet.write_blank(line, price + 1, &body)?;
    }
    let last = u32::try_from(list.rows.len()).unwrap_or(0);
    sheet.autofilter(0, 0, last, price + 1)?;
    sheet.set_freeze_panes(1, 3)?;
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
    sheet.set_repeat_rows(0, 0)?;
    Ok(())
}

fn column_after_last() -> u16 {
    u16::try_from(COLUMNS.len()).unwrap_or(u16::MAX)
}

/// The whole: the plain sums of each column as formulas, so that they follow what a yard changes, and beside them what
/// was reckoned of the spread when the list was written.
fn whole(sheet: &mut Worksheet, list: &YardList) -> Result<(), XlsxError> {
    sheet.set_name("The whole")?;
    let (head, body) = (head(), body());
    let money = body.clone().set_num_format("#,##0");
    let titles = [
        "Currency",
        "All lines at their least",
        "All lines at their likeliest",
        "All lines at their most",
        "Yard's prices",
        "One chance in ten that all costs less than",
        "As likely more as less than",
        "One chance in ten that all costs more than",
    ];
    for (column, title) in (0_u16..).zip(titles) {
        sheet.set_column_width(column, 18)?;
        sheet.write_string_with_format(0, column, title, &head)?;
    }
    let mut currencies: Vec<&str> =
        list.rows.iter().map(|row| row.currency.as_str()).filter(|c| !c.is_empty()).collect();
    currencies.sort_unstable();
    currencies.dedup();
    let last = list.rows.len() + 1;
    let range = |column: u16| {
        let letters = rust_xlsxwriter::column_number_to_name(column);
        format!("'{WORK}'!${letters}$2:${letters}${last}")
    };
    for (line, currency) in (1_u32..).zip(currencies) {
        sheet.write_string_with_format(line, 0, cut(currency), &body)?;
        let of = |row: &&crate::YardRow| row.currency == currency;
        let sums = [("low", 1_u16), ("likely", 2), ("high", 3)];
        for (name, column) in sums {
            let sum: f64 = list
                .rows
                .iter()
                .filter(of)
                .filter_map(|row| match name {
                    "low" => row.low,
                    "likely" => row.likely,
                    _ => row.high,
                })
                .sum();
            let formula = format!("SUMIFS({},{},$A{})", range(at(name)), range(at("currency")), line + 1);
            let formula = Formula::new(formula).set_result(sum.to_string());
            sheet.write_formula_with_format(line, column, formula, &money)?;
        }
        let formula = format!("SUMIFS({},{},$A{})", range(column_after_last()), range(at("currency")), line + 1);
        sheet.write_formula_with_format(line, 4, Formula::new(formula).set_result("0"), &money)?;
        if let Some(total) = list.totals.iter().find(|total| total.currency == currency) {
            for (column, figure) in [(5_u16, total.p10), (6, total.p50), (7, total.p90)] {
                sheet.write_number_with_format(line, column, figure, &money)?;
            }
        }
    }
    Ok(())
}

fn ways(sheet: &mut Worksheet, list: &YardList) -> Result<(), XlsxError> {
    sheet.set_name("Ways of doing it")?;
    let (head, body) = (head(), body());
    sheet.set_column_width(0, 10)?;
    sheet.set_column_width(1, 26)?;
    let mut line = 0;
    for (number, title, table) in &list.ways {
        sheet.write_string_with_format(line, 0, "Recommendation", &head)?;
        sheet.write_string_with_format(line, 1, "Work", &head)?;
        for (column, shown) in (2_u16..).zip(&table.columns) {
            sheet.set_column_width(column, 30)?;
            sheet.write_string_with_format(line, column, &shown.title, &head)?;
        }
        for row in &table.rows {
            line += 1;
            sheet.write_number_with_format(line, 0, *number, &body)?;
            sheet.write_string_with_format(line, 1, cut(title), &body)?;
            for (column, words) in (2_u16..).zip(row) {
                sheet.write_string_with_format(line, column, cut(words), &body)?;
            }
        }
        line += 2;
    }
    sheet.set_landscape().set_paper_size(9).set_print_fit_to_pages(1, 0);
    Ok(())
}

fn about(sheet: &mut Worksheet, list: &YardList) -> Result<(), XlsxError> {
    sheet.set_name("About this list")?;
    let (bold, body) = (body().set_bold(), body());
    sheet.set_column_width(0, 26)?;
    sheet.set_column_width(1, 90)?;
    let notes = list.notes.iter().map(|note| ("Note", note.as_str()));
    let rows = list.about.iter().map(|row| (row.label.as_str(), row.value.as_str())).chain(notes);
    for (line, (label, value)) in (0_u32..).zip(rows) {
        sheet.write_string_with_format(line, 0, cut(label), &bold)?;
        sheet.write_string_with_format(line, 1, cut(value), &body)?;
    }
    Ok(())
}

/// Cuts what a cell could not hold, and takes out what XML cannot say.
fn cut(words: &str) -> String {
    let said = |c: &char| !c.is_control() || matches!(c, '\n' | '\t');
    let mut out: String = words.chars().filter(said).take(MOST_LETTERS).collect();
    if words.chars().count() > MOST_LETTERS {
        out.push('…');
    }
    out
}
