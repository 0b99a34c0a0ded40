//! Dates as spreadsheets write them.

use super::heads::Column;
use super::table::{Table, letters};
use crate::diag::{Outcome, Problem, Told, told};
use crate::nouns::Date;

/// Which number of `03/04/2027` is the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// `day/month/year`.
    DayFirst,
    /// `month/day/year`.
    MonthFirst,
}

/// What may be a day at the start of a cell, and what stands behind it.
fn split(text: &str) -> (&str, &str) {
    let end = text.find([',', ';', ' ']).unwrap_or(text.len());
    text.split_at(end)
}

/// Whether a column's cells begin with a day.
const fn has_days(column: &Column) -> bool {
    matches!(column, Column::Date(_) | Column::Dated(_))
}

/// A day in three numbers, the year last; none for any other text.
fn numbers(text: &str) -> Option<(u32, u32, u32)> {
    let mut parts = text
        .split(['/', '.', '-'])
        .map(|part| part.trim().parse::<u32>());
    let (Some(Ok(one)), Some(Ok(two)), Some(Ok(year)), None) =
        (parts.next(), parts.next(), parts.next(), parts.next())
    else {
        return None;
    };
    (year > 31).then_some((one, two, if year < 100 { year + 2000 } else { year }))
}

/// Which order the days of a table are written in: asked once for the whole file.
///
/// # Errors
/// Days of which one can only be day first and another only month first, or that may be both.
pub fn order(table: &Table, columns: &[Column], stated: Option<Order>) -> Outcome<Order> {
    if let Some(order) = stated {
        return Ok(order);
    }
    let days = columns
        .iter()
        .enumerate()
        .filter(|(_, column)| has_days(column));
    let mut day_first = None;
    let mut month_first = None;
    let mut doubtful = None;
    for (at, _) in days {
        for row in &table.rows {
            let Some(cell) = row.cells.get(at) else {
                continue;
            };
            let Some((one, two, _)) = numbers(split(&cell.text).0) else {
                continue;
            };
            let here = (row.number, at, cell.clone());
            match (one > 12, two > 12) {
                (true, false) => day_first.get_or_insert(here),
                (false, true) => month_first.get_or_insert(here),
                _ if one == two => continue,
                _ => doubtful.get_or_insert(here),
            };
        }
    }
    let problem = |(row, at, cell): (usize, usize, super::table::Cell), message: Told| {
        vec![table.spot(row, cell.column).problem(Problem::error(
            "season.date-order",
            told!(
                "column {at}, row {row}: {message}",
                at = letters(at),
                row,
                message
            ),
            "write `--dates day-first` or `--dates month-first`, or write days as 2027-05-14",
        ))]
    };
    match (day_first, month_first, doubtful) {
        (Some((row, ..)), Some(other), _) => {
            let text = other.2.text.clone();
            Err(problem(
                other,
                told!(
                    "`{text}` has the month first, and row {row} has the day first",
                    text,
                    row
                ),
            ))
        }
        (Some(_), None, _) => Ok(Order::DayFirst),
        (None, Some(_), _) | (None, None, None) => Ok(Order::MonthFirst),
        (None, None, Some(here)) => {
            let text = here.2.text.clone();
            Err(problem(
                here,
                told!("`{text}` may be a day of either of two months", text),
            ))
        }
    }
}

/// The day that a spreadsheet counts by a bare number, as a column that lost its form exports it:
/// days from 30 December 1899 on (ECMA-376-1, 18.17.4.1, the 1900 date base), here those of the
/// years 2000 to 2099. 1 January 2000 is 36526.
fn day_number(text: &str) -> Option<Date> {
    const FIRST: u32 = 36_526;
    const LAST: u32 = 73_050;
    let number: u32 = text.parse().ok()?;
    let first = Date::read("2000-01-01")?;
    (FIRST..=LAST)
        .contains(&number)
        .then(|| first.plus_days(number - FIRST))
}

/// Whether a table has days that are bare numbers.
#[must_use]
pub fn counted(table: &Table, columns: &[Column]) -> bool {
    let days = columns
        .iter()
        .enumerate()
        .filter(|(_, column)| matches!(column, Column::Date(_)));
    let cell = |row: &super::table::Row, at: usize| row.cells.get(at).map(|cell| cell.text.clone());
    days.into_iter().any(|(at, _)| {
        let mut rows = table.rows.iter();
        rows.any(|row| cell(row, at).is_some_and(|text| day_number(&text).is_some()))
    })
}

/// A day as a trip file writes it; any other text stays as it is, to be refused or read there.
#[must_use]
pub fn iso(text: &str, order: Order) -> String {
    // a time of day behind the date, as exports have it, says nothing here
    let date = text.split([' ', 'T']).next().unwrap_or(text);
    match (numbers(date), order) {
        (Some((day, month, year)), Order::DayFirst)
        | (Some((month, day, year)), Order::MonthFirst) => {
            format!("{year:04}-{month:02}-{day:02}")
        }
        (None, _) if day_number(text).is_some() => {
            day_number(text).map_or_else(String::new, |date| date.to_string())
        }
        (None, _) if date.len() < text.len() && date.matches('-').count() == 2 => date.to_owned(),
        (None, _) => text.to_owned(),
    }
}

/// A day and the words behind it as a trip file writes them: the day in order, the words as they are.
#[must_use]
pub fn iso_then_words(text: &str, order: Order) -> String {
    let (day, words) = split(text);
    format!("{}{words}", iso(day, order))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::season::{heads, table};

    fn order_of(text: &str) -> Outcome<Order> {
        let table = table::read("t.csv", text.as_bytes()).unwrap();
        order(&table, &heads::columns(&table).unwrap(), None)
    }

    #[test]
    fn one_day_past_twelve_settles_the_order_and_none_asks() {
        let good = order_of("departure,starts\na,03/04/2027\nb,25/04/2027\n").unwrap();
        assert_eq!(good, Order::DayFirst);
        assert_eq!(
            order_of("departure,starts\na,4/25/27\n").unwrap(),
            Order::MonthFirst
        );
        let asked = order_of("departure,starts\na,03/04/2027\n")
            .unwrap_err()
            .remove(0);
        assert!(
            asked.message.contains("row 2") && asked.help.contains("--dates"),
            "{asked}"
        );
        assert!(order_of("departure,starts\na,25/04/2027\nb,04/25/2027\n").is_err());
        assert_eq!(iso("3.4.2027", Order::DayFirst), "2027-04-03");
        assert_eq!(iso("2027-04-03 00:00:00", Order::DayFirst), "2027-04-03");
        assert_eq!(
            iso("31/02/2027", Order::DayFirst),
            "2027-02-31",
            "refused by the check"
        );
        assert_eq!(iso("soon", Order::DayFirst), "soon");
        // NIST counts 2000-01-01 as Modified Julian Date 51544 and 2027-06-04 as 61560; a
        // spreadsheet's numbers are 15018 lower (from memory)
        assert_eq!(iso("36526", Order::DayFirst), "2000-01-01");
        assert_eq!(iso("46542", Order::DayFirst), "2027-06-04");
        assert_eq!(iso("12", Order::DayFirst), "12");
        let asked = |text| iso_then_words(text, Order::DayFirst);
        assert_eq!(asked("3/4/2027"), "2027-04-03");
        assert_eq!(
            asked("3/4/2027, by the office"),
            "2027-04-03, by the office"
        );
        assert_eq!(asked("2027-04-03, river desk"), "2027-04-03, river desk");
        assert_eq!(asked("the warden"), "the warden");
    }
}
