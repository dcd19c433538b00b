//! All lists in one workbook (Office Open XML, ISO/IEC 29500): a sheet a list, numbers as numbers in a unit that the
//! heading names, and sums as formulas that carry their value.
//!
//! Lengths stand as they are marked on the tape. Text is never a formula, whatever it begins with.
//!
//! *Determinism*: the workbook's date of creation is a fixed one, and so are the times inside its container.

use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format as Look, FormatAlign, Formula, Workbook, Worksheet,
    XlsxError,
};

use super::grid::Grid;
use super::table::{Cell, Read, Style, Table, Writing};
use crate::export::ExportError;
use crate::units::TapeUnit;

/// The widest that a column is made, in the screen's dots of the format.
const WIDEST: u32 = 420;

/// All lists.
pub(super) fn bytes(
    tables: &[Table],
    unit: TapeUnit,
    file: &'static str,
) -> Result<Vec<u8>, ExportError> {
    written(tables, unit).map_err(|reason| ExportError::Unfit {
        file,
        reason: reason.to_string(),
    })
}

fn written(tables: &[Table], unit: TapeUnit) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let date = ExcelDateTime::from_ymd(2000, 1, 1)?;
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&date));
    let mut files: Vec<&str> = Vec::new();
    for file in tables.iter().filter_map(|it| it.name(Writing::Csv)) {
        if !files.contains(&file) {
            files.push(file);
        }
    }
    for file in files {
        if let Some(grid) = Grid::of(tables, file) {
            let sheet = workbook.add_worksheet();
            sheet.set_name(file.trim_end_matches(".csv").replace('-', " "))?;
            page(sheet, unit)?;
            fill(sheet, &grid)?;
        }
    }
    workbook.save_to_buffer()
}

/// How it is printed: on the paper of the tape's country, as wide as the paper, with the headings on each page.
fn page(sheet: &mut Worksheet, unit: TapeUnit) -> Result<(), XlsxError> {
    // numbers of paper sizes in ISO/IEC 29500-1, 18.3.1.63: letter and A4
    sheet.set_paper_size(match unit {
        TapeUnit::Inch => 1,
        TapeUnit::Millimeter => 9,
    });
    sheet.set_landscape();
    sheet.set_print_fit_to_pages(1, 0);
    sheet.set_repeat_rows(0, 0)?;
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}

fn fill(sheet: &mut Worksheet, grid: &Grid<'_>) -> Result<(), XlsxError> {
    let heading = Look::new().set_bold().set_align(FormatAlign::Top);
    let headings = grid.headings_with(unit);
    for (at, text) in (0_u16..).zip(&headings) {
        sheet.write_string_with_format(0, at, text, &heading)?;
    }
    let mut last = 0;
    for (row, cells) in (1_u32..).zip(&grid.rows) {
        last = row;
        for (column, cell) in (0_u16..).zip(cells) {
            if let Some(cell) = cell {
                write(sheet, (row, column), cell, grid.style)?;
            }
        }
    }
    for column in (0_u16..)
        .zip(0..headings.len())
        .filter(|it| grid.summed.contains(&it.1))
    {
        total(sheet, column, last, grid)?;
    }
    if last > 0 {
        let last_column = (0_u16..).zip(&headings).last().map_or(0, |it| it.0);
        sheet.set_print_area(0, 0, last + 1, last_column)?;
    }
    sheet.set_autofit_max_width(WIDEST);
    sheet.autofit();
    Ok(())
}

/// The sum of a column's amounts, under them.
fn total(
    sheet: &mut Worksheet,
    (column, at): (u16, usize),
    last: u32,
    grid: &Grid<'_>,
) -> Result<(), XlsxError> {
    let amounts = grid.rows.iter().filter_map(|row| match row[at] {
        Some(Cell::Money(money)) => *money,
        _ => None,
    });
    let sum: crate::units::Money = amounts.sum();
    let name = rust_xlsxwriter::utility::column_number_to_name(column);
    let formula = Formula::new(format!("=SUM({name}2:{name}{})", last + 1));
    let formula = formula.set_result(sum.to_string());
    let bold = Look::new().set_bold();
    sheet.write_string_with_format(last + 1, 0, "total", &bold)?;
    sheet.write_formula_with_format(last + 1, column, formula, &bold.set_num_format("0.00"))?;
    Ok(())
}

/// What its number counts.
fn unit(cell: &Cell, style: &Style) -> Option<String> {
    cell.figure(style)?.unit
}

fn write(
    sheet: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &Cell,
    style: &Style,
) -> Result<(), XlsxError> {
    let look = Look::new().set_align(FormatAlign::Top);
    if let Some(figure) = cell.figure(style) {
        let look = look.set_num_format(format_of(figure.read, style.unit));
        sheet.write_number_with_format(row, column, figure.value, &look)?;
        return Ok(());
    }
    let text = cell.shown(style, "; ");
    if !text.is_empty() {
        sheet.write_string_with_format(row, column, text, &look.set_text_wrap())?;
    }
    Ok(())
}

/// How a number is shown: a mark of the inch tape as a fraction.
fn format_of(read: Read, unit: TapeUnit) -> String {
    match (read, unit) {
        (Read::Mark, TapeUnit::Inch) => "# ??/??".to_owned(),
        (Read::Mark, TapeUnit::Millimeter) | (Read::Decimals(0), _) => "0".to_owned(),
        (Read::Degrees, _) => "0.0".to_owned(),
        (Read::Decimals(places), _) => format!("0.{}", "0".repeat(places)),
    }
}
